"""The roster and one player in a real browser: three modes, three sizes, narrow, by keyboard."""

from collections.abc import Iterator

import pytest

from tests.browser.conftest import LAPTOP, PHONE, TABLET
from tests.browser.desk_looks import NARROWEST, found_by_axe, in_modes, runs_over
from tests.browser.desk_server import Served, served

MADE = """
from helmwright.records.models import Player
from tests.web.players import a_helmet, a_player, a_visit, issued, taped
long = "Sanderling-Whimbrel Northcove-Stonebridge of the Upper Thornfield Marshes"
who = a_player(long, "88", birth_year=2011, worn=["braids or locs", "skull cap"])
for inches in (22.5, 23.25):
    taped(who, inches, over="skull cap", beneath="braids or locs")
taped(who, 7.75, measure="head_length")
visit = a_visit(who, "accepted", found_right=0.61, build={"shell": 4, "pads": {}}, try_ons=2)
issued(who, a_helmet("TV-9147"), visit=visit)
who.guardians.create(name="Grebe Oakmere", relation="mother")
for place in range(24):
    one = a_player(f"Plover Millbank {place}", str(place), weight_kg=95.0)
    if place % 3:
        taped(one, 21.5 + place / 24)
print(who.pk)
"""

PAGES = {
    "roster": "/roster/",
    "player": "/roster/{}/",
    "measure": "/roster/{}/measure/",
    "change": "/roster/{}/change/",
    "erase": "/roster/{}/erase/",
    "add": "/roster/add/",
}


@pytest.fixture(scope="module")
def room(chromium, tmp_path_factory) -> Iterator[Served]:
    assert chromium
    with served(tmp_path_factory.mktemp("room")) as running:
        yield running


@pytest.fixture(scope="module")
def player(room):
    return room.run(MADE).strip()


@pytest.fixture
def desk(browsers, room):
    """Opens a page as the manager, at a size."""

    def opened(size):
        context = browsers.start(f"desk-{size[0]}", size)
        cookie = {"name": "sessionid", "value": room.sessions["manager"], "url": room.address}
        context.add_cookies([cookie])
        return context.pages[0]

    return opened


@pytest.mark.parametrize("size", [PHONE, TABLET, LAPTOP], ids=["phone", "tablet", "laptop"])
@pytest.mark.parametrize("name", PAGES)
def test_axe_finds_nothing_in_any_mode(desk, room, player, name, size):
    page = desk(size)
    for mode in in_modes(page, room.address + PAGES[name].format(player)):
        assert found_by_axe(page) == [], mode
        assert runs_over(page) == 0, mode


@pytest.mark.parametrize("name", PAGES)
def test_a_page_reflows_on_the_narrowest_screen(desk, room, player, name):
    page = desk(NARROWEST)
    page.goto(room.address + PAGES[name].format(player))
    assert runs_over(page) == 0


def test_typing_finds_a_player_at_once(desk, room, player):
    assert player
    page = desk(LAPTOP)
    page.goto(f"{room.address}/roster/")
    every = page.locator("#players tr:visible").count()
    page.get_by_label("Find by number or name").fill("sanderling")
    assert page.locator("#players tr:visible").count() == 1
    assert page.locator("#found").inner_text() == "1 player found."
    page.get_by_label("Find by number or name").fill("#88")
    assert page.locator("#players tr:visible").count() == 1
    page.get_by_label("Find by number or name").fill("")
    assert page.locator("#players tr:visible").count() == every


def test_the_tape_stays_in_sight_and_hides_no_focus(desk, room, player):
    assert player
    page = desk(LAPTOP)
    page.goto(f"{room.address}/roster/")
    page.locator("#players a").nth(20).focus()
    for _ in range(15):
        page.keyboard.press("Shift+Tab")
        tape = page.locator(".roster thead").bounding_box()
        link = page.locator("#players a:focus").bounding_box()
        assert tape is not None
        assert link is not None
        assert link["y"] >= tape["y"] + tape["height"] - 1


def test_what_was_mistyped_is_told_and_what_was_written_stays(desk, room, player):
    page = desk(TABLET)
    page.goto(f"{room.address}/roster/{player}/measure/")
    page.locator("#id_tape_circumference_1").fill("22 5/8")
    page.locator("#id_head_length_1").fill("221/8")
    page.get_by_role("button", name="Keep the readings").click()
    page.get_by_role("alert").wait_for()
    assert page.locator("#id_tape_circumference_1").input_value() == "22 5/8"
    assert found_by_axe(page) == []
    page.get_by_role("alert").get_by_role("link").click()
    assert page.evaluate("document.activeElement.id") == "id_head_length_1"
