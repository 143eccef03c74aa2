"""Ways off what a visit proposes: another station's visit, another helmet, back again."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Browsers
from tests.browser.stand_in import StandIn
from tests.browser.visits import HELMET, VISIT, answer, at, comes, said


@pytest.fixture
def page(browsers: Browsers) -> Page:
    return browsers.page()


def test_going_on_with_the_visit_of_another_station_takes_it_over(page: Page, laptop: StandIn):
    at(page, laptop, "paused", station={"id": "another", "name": "Station 3"})
    expect(page.locator("main")).to_contain_text("Station 3 began this visit")
    page.get_by_role("button", name="Go on with this visit").click()
    comes(page, laptop, 2)
    assert laptop.kinds() == ["visit taken over", "visit said"]


def test_a_visit_that_runs_at_another_station_is_taken_over_before_it_is_touched(
    page: Page, laptop: StandIn
):
    at(page, laptop, "checks", station={"id": "another", "name": "Station 3"})
    expect(page.get_by_role("heading", level=1)).to_have_text("Station 3 is fitting this player")
    assert page.get_by_role("radio").count() == 0
    for act in ("undo", "Pause"):
        assert page.get_by_role("button", name=act).count() == 0
    page.get_by_role("button", name="Take the visit over here").click()
    page.get_by_role("heading", name="Brow height").wait_for()
    comes(page, laptop, 1)
    assert laptop.kinds() == ["visit taken over"]


def test_a_symptom_at_another_station_needs_no_taking_over(page: Page, laptop: StandIn):
    at(page, laptop, "checks", way="/hurt", station={"id": "another", "name": "Station 3"})
    expect(page.get_by_role("heading", level=1)).to_have_text("Hurt, dizzy, numb?")


def test_from_the_checks_ahead_there_is_a_way_back_to_what_is_proposed(page: Page, laptop: StandIn):
    at(page, laptop, "proposal")
    page.get_by_role("radio", name="TV-0152").click()
    page.get_by_role("button", name="Put this build together").click()
    page.get_by_role("heading", name="Marks and labels").wait_for()
    expect(page.locator("main")).to_contain_text("The helmet is TV-0152.")
    page.get_by_role("button", name="Back to what is proposed").click()
    page.get_by_role("button", name="Put this build together").wait_for()
    expect(page.get_by_role("button", name="Stop the visit")).to_be_visible()


def test_the_helmet_that_a_visit_began_with_can_be_fitted_all_the_same(page: Page, laptop: StandIn):
    proposed = answer("proposal")["message"]["build"]
    pads = {zone: pad["pad"] for zone, pad in proposed["pads"].items()}
    own = {**HELMET, "shell": proposed["shell"] + 1, "pads": pads}
    at(page, laptop, "proposal", helmet=own)
    expect(page.locator("main")).to_contain_text(
        f"The visit began with TV-0147, shell {own['shell']}"
    )
    page.get_by_role("button", name="Other builds").click()
    page.get_by_role("radio", name="TV-0147").click()
    page.get_by_role("radio", name="The player wants it so.").click()
    page.locator(".primary").click()
    comes(page, laptop, 1)
    build = said(laptop)[0]["event"]["build"]
    assert build["shell"] == own["shell"]
    assert {zone: pad["pad"] for zone, pad in build["pads"].items()} == pads
    assert laptop.kinds() == ["visit said"]


def test_a_helmet_that_nobody_spoke_for_is_chosen_as_the_build_goes_on(page: Page, laptop: StandIn):
    helmets = answer("proposal")["helmets"]
    at(page, laptop, "put on", helmet=None, helmets=helmets, swaps=[])
    page.get_by_role("radio", name="TV-0152").click()
    page.get_by_role("button", name="It is on the head").click()
    comes(page, laptop, 2)
    assert said(laptop, "helmet reserved") == [{"visit": VISIT, "helmet": helmets[1]["id"]}]
    assert laptop.kinds() == ["helmet reserved", "visit said"]
