"""What is said at a station is lost never and doubled never."""

import os
import re
import signal
import time
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.stand_in import StandIn
from tests.browser.today import STAFF, player_id

QUEUE = """async ([tab, count, player]) => {
  const [{ openKeep }, { Outbox }, { uuid7 }] = await Promise.all(
    ["keep", "outbox", "uuid7"].map((name) => import(`/static/web/station/${name}.js`)));
  const nothing = () => {};
  const outbox = new Outbox(await openKeep(), nothing, nothing, () => false);
  for (let at = 0; at < count; at += 1) {
    const payload = { player, measure: "head_length", value_mm: 190 + at, tab: tab.name };
    await outbox.add({
      id: uuid7(), kind: "reading taken", at: new Date().toISOString(), by: tab.by, payload,
      corrects: null,
    });
  }
}"""
KEPT = """async () => {
  const { openKeep } = await import("/static/web/station/keep.js");
  const keep = await openKeep();
  const stores = [...keep.objectStoreNames].map((name) => keep.getAll(name));
  return [await Promise.all(stores), { ...localStorage }, { ...sessionStorage }];
}"""


def queue(page: Page, count: int, tab: str = "one", by: str = STAFF) -> None:
    """So many entries in the outbox, as if they had been said there."""
    page.evaluate(QUEUE, [{"name": tab, "by": by}, count, player_id(0)])


def send(page: Page) -> None:
    """The network is there again."""
    page.evaluate("dispatchEvent(new Event('online'))")


def everything_is_there(page: Page) -> None:
    expect(page.locator(".head .status")).to_have_text("Laptop has all")


def comes(page: Page, laptop: StandIn, count: int) -> list[dict[str, Any]]:
    """The entries that the laptop keeps, once there are so many and the page knows it."""
    for _ in range(300):
        if len(laptop.rows) >= count:
            break
        page.wait_for_timeout(50)
    everything_is_there(page)
    assert len(laptop.rows) == count
    return list(laptop.rows.values())


def wears_braids(page: Page, laptop, at: int = 0) -> None:
    """One act, by hand."""
    page.goto(f"{laptop.address}#/player/{player_id(at)}")
    page.get_by_role("button", name="braids or locs").click()
    page.locator(".primary").click()
    page.get_by_role("heading", name="Around the head, first reading").wait_for()


def test_three_tabs_with_twenty_entries_each_make_sixty(station, laptop):
    tabs = [station, station.context.new_page(), station.context.new_page()]
    for tab in tabs[1:]:
        tab.goto(laptop.address)
        tab.get_by_role("heading", name="Who is it?").wait_for()
    laptop.stop()
    for name, tab in zip("abc", tabs, strict=True):
        queue(tab, 20, name)
    expect(station.locator(".head .status")).to_have_text("60 kept here")
    laptop.start()
    for tab in tabs:
        send(tab)
    for tab in tabs:
        everything_is_there(tab)
    assert len(laptop.rows) == 60
    for name in "abc":
        values = [
            row["payload"]["value_mm"]
            for row in laptop.rows.values()
            if row["payload"]["tab"] == name
        ]
        assert values == [190 + at for at in range(20)]


def test_a_lost_reply_doubles_nothing(station, laptop):
    laptop.loses_replies = True
    wears_braids(station, laptop)
    expect(station.locator(".head .status")).to_have_text("1 kept here")
    assert laptop.kinds() == ["player wears"]
    laptop.loses_replies = False
    send(station)
    comes(station, laptop, 1)
    assert laptop.kinds() == ["player wears"]
    assert laptop.told >= 2


def test_while_the_laptop_is_away_nothing_is_called_sent_and_nothing_is_lost(station, laptop):
    laptop.stop()
    wears_braids(station, laptop)
    expect(station.locator(".head .status")).to_have_text("1 kept here")
    assert not re.search(r"\bsent\b|laptop has all", station.inner_text("body"), re.IGNORECASE)
    laptop.start()
    comes(station, laptop, 1)  # by itself: it tries again
    assert laptop.kinds() == ["player wears"]


def test_a_killed_browser_delivers_what_it_kept(browsers, laptop, tmp_path):
    page = browsers.page("killed")
    page.goto(laptop.address)
    page.get_by_role("heading", name="Who is it?").wait_for()
    laptop.stop()
    queue(page, 7)
    kill_browser_of(tmp_path / "profiles" / "killed")
    laptop.start()
    page = browsers.page("killed")
    page.goto(laptop.address)
    comes(page, laptop, 7)
    assert [row["payload"]["value_mm"] for row in laptop.rows.values()] == [
        190 + at for at in range(7)
    ]


def kill_browser_of(profile: Path) -> None:
    """No farewell: as when the battery goes."""
    mine = [
        int(each.name)
        for each in Path("/proc").iterdir()
        if each.name.isdigit() and str(profile).encode() in command_of(each)
    ]
    assert mine, "the browser of this profile was not found"
    for process in mine:
        with_no_mercy(process)
    for _ in range(100):
        if not any(command_of(Path(f"/proc/{process}")) for process in mine):
            break
        time.sleep(0.05)
    for lock in profile.glob("Singleton*"):
        lock.unlink()


def command_of(process: Path) -> bytes:
    try:
        return (process / "cmdline").read_bytes()
    except OSError:
        return b""


def with_no_mercy(process: int) -> None:
    try:
        os.kill(process, signal.SIGKILL)
    except ProcessLookupError:
        return


def test_a_half_typed_reading_is_there_after_a_reload_without_the_laptop(station, laptop):
    wears_braids(station, laptop)
    comes(station, laptop, 1)
    station.evaluate("navigator.serviceWorker.ready.then(() => true)")
    station.get_by_role("button", name="22", exact=True).click()
    station.get_by_role("button", name="5 eighths of an inch", exact=True).click()
    expect(station.locator(".primary")).to_contain_text("Keep 22")
    laptop.stop()
    station.reload()
    expect(station.get_by_role("heading", level=1)).to_have_text("Around the head, first reading")
    expect(station.get_by_role("button", name="22", exact=True)).to_have_attribute(
        "aria-pressed", "true"
    )
    station.locator(".primary").click()
    expect(station.get_by_role("heading", level=1)).to_have_text("Around the head, second reading")
    laptop.start()
    comes(station, laptop, 2)
    assert laptop.kinds() == ["player wears", "reading taken"]


def test_a_tab_that_is_closed_loses_nothing(station, laptop):
    laptop.stop()
    queue(station, 3)
    other = station.context.new_page()
    station.close()
    laptop.start()
    other.goto(laptop.address)
    comes(other, laptop, 3)


def test_two_taps_in_a_row_are_one_act(station, laptop):
    wears_braids(station, laptop)
    station.get_by_role("button", name="22", exact=True).click()
    station.get_by_role("button", name="even inches", exact=True).click()
    station.locator(".primary").dblclick()
    comes(station, laptop, 2)
    assert laptop.kinds() == ["player wears", "reading taken"]
    expect(station.get_by_role("heading", level=1)).to_have_text("Around the head, second reading")


def test_an_entry_that_the_answer_does_not_name_stays(station, laptop):
    whole = laptop.answer

    def forgetful(method, path, body):
        status, said = whole(method, path, body)
        return (
            (status, {"kept": [], "refused": []}) if path == "/station/entries" else (status, said)
        )

    laptop.answer = forgetful
    wears_braids(station, laptop)
    expect(station.locator(".head .status")).to_have_text("1 kept here")
    laptop.answer = whole
    send(station)
    comes(station, laptop, 1)


@pytest.mark.parametrize(
    ("fate", "words"),
    [
        (
            {"outcome": "set aside", "note": "This player was erased. Add them as a new player"},
            "The laptop kept what is worn, without effect. This player was erased.",
        ),
        (
            {"what": "no such covering", "where": "worn", "right": "bare, short hair"},
            "The laptop did not take what is worn. No such covering. (worn) Right would be: bare",
        ),
    ],
)
def test_what_has_no_effect_is_told_until_somebody_has_seen_it(station, laptop, fate, words):
    laptop.fate = lambda _entry: fate
    wears_braids(station, laptop)
    everything_is_there(station)
    expect(station.locator(".notice")).to_contain_text(words)
    station.reload()
    expect(station.locator(".notice")).to_contain_text(words)
    station.get_by_role("button", name="I have seen it").click()
    expect(station.locator(".notice")).to_have_count(0)
    station.reload()
    station.get_by_role("heading", name="Around the head").wait_for()
    expect(station.locator(".notice")).to_have_count(0)


def test_signed_out_nothing_leaves_until_a_pin_was_typed(station, laptop):
    laptop.signed_in = False
    station.goto(f"{laptop.address}#/player/{player_id(0)}")
    expect(station.get_by_role("heading", level=1)).to_have_text("Who is here?")
    queue(station, 2)
    send(station)
    expect(station.locator(".head .status")).to_have_text("2 kept here")
    expect(station.locator(".notice.kept")).to_contain_text("Nothing of it is lost")
    station.get_by_role("button", name="Wren Harbor").click()
    for digit in "4712":
        station.get_by_role("button", name=digit, exact=True).click()
    station.locator(".primary").click()
    expect(station.locator(".notice.check")).to_contain_text("That PIN is not right")
    assert not laptop.rows
    for digit in "4711":
        station.keyboard.press(digit)
    station.locator(".primary").click()
    comes(station, laptop, 2)
    expect(station.get_by_role("heading", level=1)).to_have_text("What is worn under the helmet?")


def test_the_pin_is_written_nowhere_on_the_device(station, laptop):
    station.goto(f"{laptop.address}#/person")
    station.get_by_role("button", name="Wren Harbor").click()
    for digit in "4711":
        station.get_by_role("button", name=digit, exact=True).click()
    kept = str(station.evaluate(KEPT))
    assert "typed" in kept
    assert "4711" not in kept


def test_where_the_room_does_not_know_the_device_each_name_sends_its_own(station, laptop):
    laptop.today["device"] = None
    other = laptop.today["people"][1]
    station.reload()
    station.get_by_role("heading", name="Who is it?").wait_for()
    queue(station, 1, by=other["id"])
    queue(station, 1, by=STAFF)
    send(station)
    expect(station.locator(".head .status")).to_have_text("1 kept here")
    expect(station.locator("footer")).to_contain_text("1 kept here go when the one who said")
    assert [row["by"] for row in laptop.rows.values()] == [STAFF]
    laptop.today["person"] = {name: other[name] for name in ("id", "name", "role")}
    station.reload()
    assert [row["by"] for row in comes(station, laptop, 2)] == [STAFF, other["id"]]


YESTERDAY = """async () => {
  const { openKeep } = await import("/static/web/station/keep.js");
  const keep = await openKeep();
  const today = await keep.get("local", "today");
  await keep.put("local", { ...today, server_time: "2026-08-06T15:00:00Z" }, "today");
}"""


def test_of_another_day_only_the_outbox_stays_on_the_device(station, laptop):
    wears_braids(station, laptop)
    comes(station, laptop, 1)
    station.get_by_role("button", name="22", exact=True).click()
    assert "Avocet" in str(station.evaluate(KEPT))
    station.evaluate("navigator.serviceWorker.ready.then(() => true)")
    laptop.stop()
    queue(station, 2)
    station.evaluate(YESTERDAY)
    station.reload()
    expect(station.get_by_role("heading", level=1)).to_have_text("Looking for the laptop")
    kept = str(station.evaluate(KEPT))
    assert "Avocet" not in kept
    assert "'whole'" not in kept
    expect(station.locator(".head .status")).to_have_text("2 kept here")
