"""A roster with bad rows comes in at a laptop: seen first, answered, taken in, undone."""

from collections.abc import Iterator

import pytest

from tests.browser.conftest import LAPTOP, PHONE
from tests.browser.desk_looks import MODES, NARROWEST, found_by_axe, in_modes, runs_over
from tests.browser.desk_server import Served, served

ROSTER = """Tamarack Valley College Kingfishers
No.,Player,Pos,Height,Weight,Tape (in),Tape 2 (in),Brow to top (in),Shoe
1,Avocet Brookside,WR,6 ft 1 in,205,22 3/8,22 1/4,4 1/8,11
88,Bunting Brookside,OL,6 ft 4 in,300,23 1/2,23 5/8,,13
61,Sanderling Northcove,DL,6 ft 2 in,280,23 1/8,,4 1/4,12
62,Whimbrel Stonebridge,DL,6 ft 3 in,290,231/8,,,12
63,,DL,6 ft 3 in,290,23 1/8,,,12
64,Turnstone Oakmere,LB,6 ft,225,7/8/2026,,,11
65,Phalarope Millbank,TE,6 ft 5 in,250,,,,12
"""
PEOPLE = "from helmwright.records.models import Player; print(Player.objects.count())"


@pytest.fixture(scope="module")
def room(chromium, tmp_path_factory) -> Iterator[Served]:
    assert chromium
    with served(tmp_path_factory.mktemp("room")) as running:
        yield running


@pytest.fixture
def desk(browsers, room):
    """Opens a page as the manager, at a size."""

    def opened(size):
        context = browsers.start(f"take-in-{size[0]}", size)
        cookie = {"name": "sessionid", "value": room.sessions["manager"], "url": room.address}
        context.add_cookies([cookie])
        return context.pages[0]

    return opened


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "kingfishers.csv"
    path.write_text(ROSTER, encoding="utf-8")
    return path


def see(page, room, file):
    page.goto(f"{room.address}/roster/")
    page.get_by_role("link", name="Take in a roster").click()
    page.get_by_label("The file").set_input_files(file)
    page.get_by_role("button", name="See what would happen").click()
    page.get_by_role("heading", name="What would happen").wait_for()


def looked_at(page):
    """In every mode, on the page as it stands: what axe finds, what runs over the edge."""
    for mode in MODES:
        page.get_by_role("button", name=mode, exact=True).click()
        page.wait_for_function("mode => document.documentElement.dataset.mode === mode", arg=mode)
        assert found_by_axe(page) == [], mode
        assert runs_over(page) == 0, mode


def test_a_roster_with_bad_rows_comes_in_and_is_undone(desk, room, file):
    page = desk(LAPTOP)
    before = room.run(PEOPLE)
    see(page, room, file)
    looked_at(page)
    refused = page.get_by_role("region", name="Cannot be taken in").locator("li")
    assert refused.count() == 3
    assert "a spreadsheet has made a date of this" in refused.nth(2).inner_text().lower()
    page.get_by_label("Bunting Brookside has number").select_option(label="a new player")
    page.get_by_role("button", name="See what these answers do").click()
    happens = page.get_by_role("region", name="Will happen")
    happens.get_by_text("Bunting Brookside").wait_for()
    assert room.run(PEOPLE) == before
    page.get_by_role("button", name="Take in 4 rows").click()
    page.get_by_text("Taken in: 4 rows.").wait_for()
    looked_at(page)
    assert int(room.run(PEOPLE)) == int(before) + 3
    page.get_by_role("button", name="Undo this file").click()
    page.get_by_text("The file is undone.").wait_for()
    assert room.run(PEOPLE) == before
    looked_at(page)


@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
@pytest.mark.parametrize("what", ["roster", "helmets", "stock"])
def test_the_page_of_files_is_sound_in_every_mode(desk, room, what, size):
    page = desk(size)
    for mode in in_modes(page, f"{room.address}/take-in/?what={what}"):
        assert found_by_axe(page) == [], mode
        assert runs_over(page) == 0, mode


def test_the_preview_reflows_on_the_narrowest_screen_and_its_bar_hides_no_focus(desk, room, file):
    page = desk(NARROWEST)
    see(page, room, file)
    assert runs_over(page) == 0
    page.locator(".rows select").first.focus()
    bar, field = page.locator(".last").bounding_box(), page.locator("select:focus").bounding_box()
    assert bar is not None
    assert field is not None
    assert field["y"] + field["height"] <= bar["y"]
