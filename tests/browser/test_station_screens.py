"""The station's screens up to the visit: found by hand, by scanner and by ear, large enough."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE, TABLET
from tests.browser.test_outbox import comes
from tests.browser.today import SHEET, STORE, player, player_id

WHO = player_id(0)
SCREENS = {
    "who": "#/who",
    "player": f"#/player/{WHO}",
    "reading": f"#/player/{WHO}/reading",
    "begin": f"#/player/{WHO}/begin",
    "consent": f"#/player/{WHO}/consent",
    "person": "#/person",
    "nobody": "#/player/0198f0c0-0000-7000-8000-00000000ffff",
    "no such screen": "#/nowhere",
}
MODES = ("room", "night", "glare")
BOXES = """() => [...document.querySelectorAll("button, input, a, summary")].map((each) => {
  const { width, height } = each.getBoundingClientRect();
  const is = (name) => each.classList.contains(name);
  return { words: each.innerText || each.id, width, height, acts: is("primary") || is("undo") };
})"""
CLOSEST = """() => {
  const all = [...document.querySelectorAll("button, input")];
  const gap = (one, other) => Math.max(
    one.left - other.right, other.left - one.right, one.top - other.bottom, other.top - one.bottom);
  // What scrolls away under the bar at the bottom does not stand beside it.
  const boxes = (isInBar) => all
    .filter((each) => Boolean(each.closest(".bottom")) === isInBar)
    .map((each) => each.getBoundingClientRect());
  const gaps = (group) => group.flatMap(
    (one, at) => group.slice(at + 1).map((other) => gap(one, other)));
  return Math.min(...gaps(boxes(true)), ...gaps(boxes(false)));
}"""


def title(page: Page):
    return page.get_by_role("heading", level=1)


def show(page: Page, laptop, name: str) -> None:
    page.goto("about:blank")
    page.goto(laptop.address + SCREENS[name])
    page.locator(".station main h1").wait_for()
    expect(page.locator(".head .status")).to_have_text("Laptop has all")


@pytest.mark.parametrize("size", [TABLET, PHONE, (320, 640)], ids=["tablet", "phone", "320"])
def test_nothing_is_cut_off_at_the_side(station, laptop, size):
    station.set_viewport_size({"width": size[0], "height": size[1]})
    for name in SCREENS:
        show(station, laptop, name)
        wide = station.evaluate("document.documentElement.scrollWidth")
        assert wide <= size[0], f"{name} is {wide} wide"


def test_every_target_is_large_and_stands_apart(station, laptop):
    for name in SCREENS:
        show(station, laptop, name)
        for box in station.evaluate(BOXES):
            least = 104 if box["acts"] else 64
            assert box["height"] >= least, f"{name}: {box}"
            assert box["width"] >= 64, f"{name}: {box}"
        assert station.evaluate(CLOSEST) >= 15.5, name


def test_on_a_phone_every_target_is_large_too(station, laptop):
    station.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})
    for name in SCREENS:
        show(station, laptop, name)
        for box in station.evaluate(BOXES):
            assert min(box["height"], box["width"]) >= 64, f"{name}: {box}"


@pytest.mark.parametrize("mode", MODES)
def test_axe_finds_nothing(station, laptop, mode):
    station.evaluate("(mode) => localStorage.setItem('helmwright-mode', mode)", mode)
    laptop.today["players"][0]["minor"] = True
    for name in SCREENS:
        show(station, laptop, name)
        assert station.evaluate("document.documentElement.dataset.mode") == mode
        found = Axe().run(station)
        assert found.violations_count == 0, f"{name}: {found.generate_report()}"


def test_a_mode_is_one_tap_and_is_remembered(station):
    station.get_by_role("button", name="glare").click()
    expect(station.get_by_role("button", name="glare")).to_have_attribute("aria-pressed", "true")
    expect(station.get_by_role("button", name="room")).to_have_attribute("aria-pressed", "false")
    station.reload()
    expect(station.locator("html")).to_have_attribute("data-mode", "glare")
    expect(station.get_by_role("button", name="glare")).to_have_attribute("aria-pressed", "true")


def test_a_new_screen_begins_at_its_heading_and_back_goes_back(station):
    station.get_by_role("button", name="2", exact=True).click()
    station.locator(".primary").click()
    expect(title(station)).to_have_text("What is worn under the helmet?")
    expect(title(station)).to_be_focused()
    assert station.title() == "What is worn under the helmet? · Helmwright"
    station.go_back()
    expect(title(station)).to_have_text("Who is it?")
    expect(title(station)).to_be_focused()


def test_two_players_with_one_number_are_both_shown_and_neither_is_chosen(station, laptop):
    laptop.today["players"].append(player(60, number="2"))
    station.reload()
    station.get_by_role("button", name="2", exact=True).click()
    numbers = station.locator(".found .number").all_inner_texts()
    assert numbers[:2] == ["2", "2"]
    expect(station.locator(".primary")).to_have_attribute("aria-disabled", "true")


def test_a_name_finds_a_player(station):
    station.get_by_label("Number, name, or code").fill("heron c")
    expect(station.locator(".found .player")).to_have_count(1)
    expect(station.locator(".primary")).to_contain_text("Heron Cedar Falls")


def test_a_code_reader_finds_the_one_who_holds_the_helmet(station, laptop):
    laptop.labels = {"TV-0147": {"id": STORE, "code": "TV-0147", "shell": 4}}
    laptop.holders = {"TV-0147": player_id(5)}
    station.keyboard.type("tv-0147", delay=5)
    station.keyboard.press("Enter")
    expect(title(station)).to_have_text("What is worn under the helmet?")
    assert station.url.endswith(player_id(5))


def test_a_held_helmet_is_named_with_its_reason_and_does_not_begin_a_visit(station, laptop):
    why = "TV-0115 cannot be issued. It is on hold: a crack at the rear."
    laptop.labels = {
        "TV-0115": {"id": STORE, "code": "TV-0115", "shell": 3, "good": False, "why": why}
    }
    station.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})
    show(station, laptop, "begin")
    station.get_by_role("button", name="Ouzel").click()
    station.get_by_label("Code on the helmet's label").fill("tv-0115")
    expect(station.locator(".primary")).to_contain_text("waits for a helmet of that code, or none")
    station.get_by_role("button", name="Find it").click()
    expect(station.locator(".notice.no")).to_contain_text(why)
    reason = station.locator(".notice.no p").bounding_box()
    assert reason["y"] + reason["height"] <= station.locator(".bottom").bounding_box()["y"]
    expect(station.locator(".primary")).to_have_attribute("aria-disabled", "true")
    station.get_by_role("button", name="No certain helmet").click()
    station.locator(".primary").click()
    (said,) = comes(station, laptop, 1)
    assert said["payload"]["helmet"] is None


def test_the_bar_is_at_the_foot_of_the_window_on_every_screen(station, laptop):
    for name in ("who", "reading", "begin", "person", "nobody"):
        show(station, laptop, name)
        for end in ("0", "document.documentElement.scrollHeight"):
            station.evaluate(f"window.scrollTo(0, {end})")
            boxes = station.evaluate(
                """() => ['.bottom', 'footer'].map((each) =>
                  document.querySelector(each)?.getBoundingClientRect().bottom ?? null)"""
            )
            assert boxes[0] in (None, TABLET[1]), name
        assert boxes[0] is None or boxes[1] <= TABLET[1] - 136, name


def test_a_minor_without_consent_is_said_plainly(station, laptop):
    laptop.today["players"][0]["minor"] = True
    show(station, laptop, "player")
    expect(station.locator(".notice")).to_contain_text("Under age, and no guardian's consent")
    laptop.today["players"][0]["consent"] = True
    show(station, laptop, "player")
    expect(station.locator(".notice")).to_have_count(0)


def test_a_visit_begins_with_what_was_chosen(station, laptop):
    show(station, laptop, "begin")
    expect(station.locator(".primary")).to_contain_text("waits for the helmet model")
    station.get_by_role("button", name="Ouzel").click()
    station.locator(".primary").click()
    (said,) = comes(station, laptop, 1)
    visit = said["payload"]["visit"]
    assert said["kind"] == "visit begun"
    assert said["payload"] == {
        "visit": visit,
        "player": WHO,
        "store": STORE,
        "sheet": SHEET,
        "helmet": None,
    }
    assert station.url.endswith(f"#/visit/{visit}")


def test_the_page_of_one_release_is_kept_and_no_message_is(station):
    station.evaluate("navigator.serviceWorker.ready.then(() => true)")
    kept = station.evaluate(
        """async () => {
          const names = await caches.keys();
          const cache = await caches.open(names[0]);
          return [names.length, (await cache.keys()).map((each) => new URL(each.url).pathname)];
        }"""
    )
    assert kept[0] == 1
    assert "/station/" in kept[1]
    assert "/static/web/station/app.js" in kept[1]
    assert all(path == "/station/" or path.startswith("/static/") for path in kept[1])


def test_a_newer_release_waits_until_somebody_starts_it_outside_a_visit(station, laptop):
    station.evaluate("navigator.serviceWorker.ready.then(() => true)")
    station.reload()
    show(station, laptop, "who")
    laptop.newer_release = "// newer"
    station.evaluate("navigator.serviceWorker.ready.then((found) => found.update())")
    start = station.get_by_role("button", name="Start it")
    expect(start).to_be_visible()
    station.evaluate("location.hash = '#/visit/0198f0c0-0000-7000-8000-00000000eeee'")
    expect(title(station)).to_have_text("Looking for the first build")
    expect(start).to_have_count(0)
    waits = "navigator.serviceWorker.ready.then((found) => Boolean(found.waiting))"
    assert station.evaluate(waits)
    station.evaluate("location.hash = '#/who'")
    with station.expect_navigation():
        start.click()
    title(station).get_by_text("Who is it?").wait_for()
    assert not station.evaluate(waits)
