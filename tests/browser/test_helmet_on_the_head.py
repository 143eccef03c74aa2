"""Which helmet is on the head: said where it is put on, asked where it is issued, signed for."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Browsers
from tests.browser.stand_in import StandIn
from tests.browser.visits import PLAYER, VISIT, answer, shows

ID = "0198f0c0-0000-7000-8000-00000000bbb"
ACCEPTED = answer("accepted")["message"]["build"]
IN_IT = {zone: pad["pad"] for zone, pad in ACCEPTED["pads"].items()}


def helmet(number: int, **other: Any) -> dict[str, Any]:
    """What a label finds."""
    known = {"id": f"{ID}{number}", "code": f"TV-{number}", "shell": ACCEPTED["shell"]}
    return {**known, "pads": IN_IT, "good": True, "why": "", **other}


@pytest.fixture
def page(browsers: Browsers) -> Page:
    return browsers.page()


def at(page: Page, address: str) -> None:
    page.goto(address)
    page.locator(".primary").wait_for()


def find(page: Page, code: str) -> None:
    page.locator(".code-field").fill(code)
    page.get_by_role("button", name="Find it").click()


def sign(page: Page) -> None:
    for shown in ("Put it on", "Read the warning label"):
        page.get_by_role("button", name=shown).click()
    for name in ("Avocet Brookside", "Wren Harbor"):
        page.get_by_role("button", name="Type the name instead").first.click()
        page.get_by_label(f", {name}").fill(name)


def said(page: Page, laptop: StandIn, *kinds: str) -> list[dict[str, Any]]:
    """What was said, once all of that has come."""
    for _ in range(200):
        if len(laptop.rows) >= len(kinds):
            break
        page.wait_for_timeout(25)
    assert laptop.kinds() == list(kinds)
    return [row["payload"] for row in laptop.rows.values()]


def test_the_sign_screen_asks_for_a_helmet_that_nobody_named_and_takes_one_of_its_shell(
    page: Page, laptop: StandIn
):
    laptop.labels = {"TV-1": helmet(1, shell=5), "TV-2": helmet(2)}
    at(page, shows(laptop, "accepted", helmet=None))
    go_on, shell = page.locator(".primary"), ACCEPTED["shell"]
    expect(go_on).to_contain_text(f"the code of the helmet on the head, of shell {shell}")
    find(page, "TV-1")
    expect(page.locator("main")).to_contain_text("TV-1 is of shell 5, and the accepted build of")
    expect(go_on).to_contain_text(f"waits for a helmet of shell {shell}")
    find(page, "TV-2")
    expect(go_on).to_contain_text("waits for what the player has to show")
    sign(page)
    go_on.click()
    signed, issued = said(page, laptop, "acknowledged", "helmet issued")
    assert (signed["helmet"], issued["helmet"]) == (f"{ID}2", f"{ID}2")
    assert "holds_build" not in issued
    page.get_by_role("heading", name="Avocet Brookside has TV-2").wait_for()


def test_other_pads_on_record_are_looked_for_in_the_helmet_before_it_is_issued(
    page: Page, laptop: StandIn
):
    laptop.labels = {"TV-2": helmet(2, pads=IN_IT | {"front": "1 1/4 in"})}
    at(page, shows(laptop, "accepted", helmet=None))
    find(page, "TV-2")
    sign(page)
    expect(page.locator(".primary")).to_contain_text("waits for somebody who has looked into TV-2")
    expect(page.locator(".swaps")).to_contain_text("Front pad")
    page.get_by_role("button", name="The accepted pads are in it").click()
    page.locator(".primary").click()
    _, issued = said(page, laptop, "acknowledged", "helmet issued")
    assert issued["holds_build"] is True


def test_what_was_signed_for_one_helmet_is_not_signed_for_another(page: Page, laptop: StandIn):
    laptop.labels = {"TV-1": helmet(1), "TV-2": helmet(2)}
    at(page, shows(laptop, "accepted", helmet=None))
    find(page, "TV-1")
    sign(page)
    note = "TV-1 is on hold. Take another helmet."
    laptop.fate = lambda entry: (
        {"outcome": "set aside", "note": note} if entry["kind"] == "helmet issued" else None
    )
    page.locator(".primary").click()
    page.get_by_role("alert").wait_for()
    laptop.fate = lambda _entry: None
    find(page, "TV-2")
    expect(page.locator(".primary")).to_contain_text("waits for the player's signature")


def test_an_undo_takes_away_what_was_signed(page: Page, laptop: StandIn):
    at(page, shows(laptop, "accepted", helmet=helmet(1)))
    sign(page)
    laptop.fate = lambda entry: (
        {"outcome": "set aside", "note": "no"} if entry["kind"] == "helmet issued" else None
    )
    page.locator(".primary").click()
    page.get_by_role("alert").wait_for()
    laptop.fate = lambda _entry: None
    count = answer("accepted")["count"]
    later = answer("accepted", helmet=helmet(1), count=count + 2)
    laptop.visit = lambda key: later if key == VISIT else None
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".primary")).to_contain_text("waits for what the player has to show")
    sign(page)
    page.locator(".primary").click()
    kinds = ("acknowledged", "helmet issued", "visit said", "acknowledged", "helmet issued")
    assert said(page, laptop, *kinds)[2]["event"] == {"event": "undone"}


def test_what_another_station_signed_before_an_undo_is_not_shown_again(page: Page, laptop: StandIn):
    at(page, shows(laptop, "accepted", helmet=helmet(1)))
    sign(page)
    count = answer("accepted")["count"]
    at(page, shows(laptop, "accepted", helmet=helmet(1), count=count + 2))
    page.reload()
    expect(page.locator(".primary")).to_contain_text("waits for what the player has to show")


def test_a_build_of_another_shell_is_put_on_in_a_helmet_that_is_chosen_and_spoken_for(
    page: Page, laptop: StandIn
):
    other = {**ACCEPTED, "shell": 4}
    there = {"changes": 1, "lacking": 0, "swaps": [], "taken": False}
    helmets = [helmet(4, shell=4, **there), helmet(5, shell=4, **there)]
    builds = [{"build": other, "found_right": 0.3, "lacking": [], "helmets": helmets}]
    at(page, shows(laptop, "put on", other_builds=builds) + "/other")
    page.get_by_role("radio", name="Shell 4").click()
    page.get_by_role("radio", name="TV-5").click()
    page.get_by_role("radio", name="It fits better by my hand.").click()
    page.locator(".primary").click()
    reserved, on = said(page, laptop, "helmet reserved", "visit said")
    assert reserved == {"visit": VISIT, "helmet": f"{ID}5"}
    assert (on["player"], on["event"]["build"]) == (PLAYER["id"], other)
