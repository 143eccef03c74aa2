"""A visit while the program thinks, and helmets that somebody else has."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Browsers
from tests.browser.stand_in import StandIn
from tests.browser.visits import HELMET, PLAYER, VISIT, answer, at, comes, said


@pytest.fixture
def page(browsers: Browsers) -> Page:
    return browsers.page()


def test_a_visit_is_paused_before_anything_of_it_is_here(page: Page, laptop: StandIn):
    laptop.today["players"][0] = PLAYER
    page.goto(f"{laptop.address}#/visit/{VISIT}")
    page.get_by_role("button", name="Pause").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Who is it?")
    comes(page, laptop, 1)
    (told,) = said(laptop)
    assert (told["visit"], told["place"], told["event"]) == (VISIT, 1, {"event": "paused"})


def test_while_the_program_thinks_a_symptom_can_be_told(page: Page, laptop: StandIn):
    at(page, laptop, "checks", message=None)
    expect(page.get_by_role("heading", level=1)).to_contain_text("Looking for")
    expect(page.get_by_role("button", name="Pause")).to_be_visible()
    expect(page.get_by_role("button", name="Players")).to_be_visible()
    expect(page.locator(".primary")).to_have_attribute("aria-disabled", "true")
    expect(page.locator(".primary")).to_contain_text("waits for the program")
    page.get_by_role("button", name="Hurt, dizzy, numb?").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Hurt, dizzy, numb?")
    page.locator(".primary").click()
    comes(page, laptop, 1)
    assert said(laptop)[0]["event"] == {"event": "symptom reported"}


def test_a_helmet_that_others_have_is_not_free_and_one_that_lapsed_is_not_good(
    page: Page, laptop: StandIn
):
    shell = answer("proposal")["message"]["build"]["shell"]
    base = {"shell": shell, "changes": 0, "swaps": [], "pads": {}}
    good = [base | {"id": f"g{n}", "code": f"TV-1{n}", "good": True, "why": ""} for n in range(5)]
    others = [
        base | {"id": f"t{n}", "code": f"TV-2{n}", "good": False, "taken": True, "why": "issued"}
        for n in range(5)
    ]
    lapsed = base | {"id": "l", "code": "TV-30", "good": False, "taken": False, "why": "lapsed"}
    at(page, laptop, "proposal", helmets=[*good, *others, lapsed], helmet=None, try_ons=[])
    rows = page.locator(".lines .status:visible")
    expect(rows.filter(has_text="TV-30")).to_have_class("status no")
    expect(rows.filter(has_text="TV-20: not free")).to_have_class("status unknown")
    expect(rows).to_have_count(4)
    expect(page.locator(".helmet:visible")).to_have_count(3)
    page.get_by_text("Show all 5 that are not free").click()
    page.get_by_text("Show all 5 that are free").click()
    expect(rows).to_have_count(6)
    page.get_by_role("radio", name="TV-14").click()
    expect(page.get_by_role("radio", name="TV-14")).to_be_checked()


def test_a_lost_helmet_is_told_once_on_the_proposal_with_what_to_do(page: Page, laptop: StandIn):
    lost = {"outcome": "set aside", "note": "Station 3 took TV-0147 at 10:41 AM."}
    laptop.fate = lambda entry: lost if entry["kind"] == "helmet reserved" else None
    shell = answer("proposal")["message"]["build"]["shell"]
    at(page, laptop, "proposal", helmets=[HELMET | {"shell": shell, "changes": 0, "swaps": []}])
    expect(page.locator(".head .status")).to_have_text("Laptop has all")
    expect(page.get_by_role("radio", name="TV-0147", exact=False)).to_be_visible()
    page.locator(".primary").click()
    expect(page.get_by_text("Somebody else was first.")).to_be_visible()
    expect(page.get_by_text("Station 3 took TV-0147")).to_have_count(1)
