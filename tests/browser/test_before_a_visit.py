"""What is asked before a visit may begin: the word of medical staff, and a guardian's yes."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Browsers
from tests.browser.stand_in import StandIn
from tests.browser.today import SHEET, STORE, player

WHO = player(0, worn=["bare"])


def at_begin(page: Page, laptop: StandIn, **about: Any) -> Page:
    """The page where this player's visit begins."""
    laptop.today["players"][0] = WHO | about
    page.goto(f"{laptop.address}#/player/{WHO['id']}/begin")
    page.get_by_role("heading", level=1).wait_for()
    return page


def begun(page: Page, laptop: StandIn) -> dict[str, Any]:
    """Begins, and gives what was said of it."""
    page.get_by_role("button", name="Ouzel (invented)").click()
    page.get_by_role("button", name="Begin the visit").click()
    page.wait_for_url("**/#/visit/**")
    expect(page.locator(".head .status")).to_have_text("Laptop has all")
    return next(row["payload"] for row in laptop.rows.values() if row["kind"] == "visit begun")


@pytest.fixture
def page(browsers: Browsers) -> Page:
    return browsers.page()


def test_after_a_symptom_a_visit_begins_only_where_medical_staff_said_yes(
    page: Page, laptop: StandIn
):
    at_begin(page, laptop, symptom=True)
    expect(page.get_by_role("heading", level=1)).to_have_text("Has medical staff said yes?")
    expect(page.locator("#main")).to_contain_text("the program clears nobody")
    expect(page.get_by_role("button", name="Go on")).to_have_attribute("aria-disabled", "true")
    page.get_by_role("button", name="Yes: medical staff told me so").click()
    page.get_by_role("button", name="Go on").click()
    assert begun(page, laptop)["cleared"] is True


def test_without_that_yes_the_way_leads_back_to_the_players(page: Page, laptop: StandIn):
    at_begin(page, laptop, symptom=True)
    page.get_by_role("button", name="No, or not asked yet").click()
    page.locator(".primary").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Who is it?")
    assert laptop.kinds() == []


def test_nothing_is_asked_of_anybody_else_and_nothing_is_claimed(page: Page, laptop: StandIn):
    at_begin(page, laptop)
    payload = begun(page, laptop)
    assert (payload["store"], payload["sheet"]) == (STORE, SHEET)
    assert "cleared" not in payload


def test_a_guardian_who_is_here_is_kept_before_the_visit_begins(page: Page, laptop: StandIn):
    at_begin(page, laptop, minor=True)
    expect(page.get_by_role("heading", level=1)).to_have_text("Who agreed to the fitting?")
    page.get_by_role("button", name="A parent or guardian is here").click()
    keep = page.get_by_role("button", name="Keep that they agreed")
    expect(keep).to_have_attribute("aria-disabled", "true")
    page.get_by_label("Name of the parent or guardian").fill("Lark Brookside")
    keep.click()
    begun(page, laptop)
    assert laptop.kinds() == ["guardian added", "consent given", "visit begun"]
    guardian, consent, _ = (row["payload"] for row in laptop.rows.values())
    assert guardian["name"] == "Lark Brookside"
    assert consent["guardian"] == guardian["guardian"]
    assert (consent["about"], consent["text_version"]) == ("fitting", "1")


def test_a_form_that_the_manager_has_is_kept_as_agreed_on_paper(page: Page, laptop: StandIn):
    at_begin(page, laptop, minor=True)
    page.get_by_role("button", name="The manager told me").click()
    page.get_by_role("button", name="Keep that they agreed").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Which helmet model?")
    expect(page.locator(".head .status")).to_have_text("Laptop has all")
    (consent,) = (row["payload"] for row in laptop.rows.values())
    assert (consent["guardian"], consent["text_version"]) == (None, "")
    assert consent["on_paper"] is True


def test_without_anybody_who_agreed_no_visit_begins(page: Page, laptop: StandIn):
    at_begin(page, laptop, minor=True)
    page.get_by_role("button", name="Nobody yet").click()
    page.locator(".primary").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Who is it?")
    assert laptop.kinds() == []
