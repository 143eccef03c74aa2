"""Every page in the room's table of addresses: reached, read, and held to the house's rules.

Pages are not listed here: whatever answers a manager with a page is looked at. What answers
otherwise is listed, with what it is, so that a new address is looked at or has to say why not.
"""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page

from helmwright.web.allowed import ALLOWED, OPEN
from tests.browser.conftest import LAPTOP, PHONE, TABLET, Browsers
from tests.browser.desk_looks import MODES, NARROWEST, found_by_axe, runs_over
from tests.browser.desk_server import Served, served
from tests.web.addresses import SOME_ID, Address, every_address

NO_PAGES = {
    "told by the station, and to it": {
        "station-today", "station-entries", "station-visit", "station-find", "station-look-over",
        "station-worker", "pin",
    },
    "acts of a page, which only a form sends": {
        "sign-out", "player-withdraw", "player-leave", "player-return", "player-take-back",
        "device-rename", "device-revoke", "staff-role", "staff-active", "staff-password",
        "staff-pin", "store-open", "store-act", "helmet-act", "now-seen", "take-in-do",
        "take-in-undo", "room-team", "room-season", "room-store", "room-sheet", "doubts-decide",
        "staff-erase",
    },
    "a part of a page": {"day-stream", "day-board", "player-drawing"},
    "a file": {"take-in-template", "take-in-everything", "icon"},
    "a PDF": {
        "paper-label", "paper-labels", "paper-drawers", "paper-roster", "paper-blank", "paper-card",
        "paper-cards",
    },
}  # fmt: skip
ELSEWHERE = {
    "player-receipt": "there only once a player is erased; tests/browser/test_roster_pages.py",
    "take-in-preview": "there only for a file; tests/browser/test_take_in_and_restore.py",
    "take-in-result": "there only for a file; tests/browser/test_take_in_and_restore.py",
    "confirm": "asked where a PIN is not enough; tests/browser/test_take_in_and_restore.py",
    "station": "every screen of it; test_station_screens.py and test_visit_screens.py",
}

IDS = """
from helmwright.records.models import *
visit = Visit.objects.filter(state='accepted', issues__isnull=False).first()
print(visit.player_id, visit.store_id, visit.helmet.code)
"""
SET_MODE = "(mode) => { document.documentElement.dataset.mode = mode; }"


@pytest.fixture(scope="module")
def room(tmp_path_factory: pytest.TempPathFactory, chromium: str) -> Iterator[Served]:
    assert chromium
    with served(tmp_path_factory.mktemp("room")) as running:
        yield running


@pytest.fixture(scope="module")
def page(playwright, chromium, tmp_path_factory, room) -> Iterator[Page]:
    """In a manager's browser."""
    browsers = Browsers(playwright, chromium, tmp_path_factory.mktemp("profiles"))
    context = browsers.start(size=LAPTOP)
    context.add_cookies(
        [{"name": "sessionid", "value": room.sessions["manager"], "url": room.address}]
    )
    yield context.pages[0]
    browsers.close()


@pytest.fixture(scope="module")
def addresses(room) -> dict[str, str]:
    """Every address by its name, of things that are there."""
    player, store, code = room.run(IDS).split()
    real = {"player": player, "store": store}

    def filled(address: Address) -> str:
        there = next((real[each] for each in real if (address.name or "").startswith(each)), "")
        return address.path.replace(str(SOME_ID), there or str(SOME_ID)).replace("TV-0001", code)

    return {address.name or address.path: filled(address) for address in every_address()}


@pytest.fixture(scope="module")
def pages(room, page, addresses) -> dict[str, str]:
    """Those of them that answer with a page."""
    found, others = {}, {}
    for name, path in addresses.items():
        if name in ELSEWHERE or any(name in names for names in NO_PAGES.values()):
            continue
        answer = page.request.get(f"{room.address}{path}", max_redirects=0)
        if answer.status == 200 and answer.headers["content-type"].startswith("text/html"):
            found[name] = path
        else:
            others[name] = answer.status
    assert others == {}, "neither a page nor known not to be one"
    return found


def test_every_address_is_a_page_that_is_looked_at_or_is_known_not_to_be_one(addresses, pages):
    others = {name for names in NO_PAGES.values() for name in names} | set(ELSEWHERE)
    assert set(addresses) == set(pages) | others
    assert set(addresses) == set(ALLOWED) | OPEN


@pytest.mark.slow
def test_nothing_on_any_page_is_hard_to_reach_in_any_light_at_any_size(room, page, pages):
    faults: dict[str, list[str]] = {}
    for name, path in pages.items():
        page.set_viewport_size(of_size(LAPTOP))
        page.goto(f"{room.address}{path}")
        found = [f"{mode}: {fault}" for mode in MODES for fault in in_light(page, mode)]
        for size in (TABLET, PHONE):
            page.set_viewport_size(of_size(size))
            found += [f"{size[0]} wide: {fault}" for fault in in_light(page, "room")]
        faults[name] = found
    assert {name: found for name, found in faults.items() if found} == {}


def test_every_page_reflows_and_asks_nobody_else_and_keeps_to_its_policy(room, page, pages):
    faults: list[str] = []
    page.on("console", lambda said: faults.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on(
        "request",
        lambda request: (
            None if request.url.startswith((room.address, "data:")) else faults.append(request.url)
        ),
    )
    wide = {}
    for name, path in pages.items():
        page.set_viewport_size(of_size(NARROWEST))
        page.goto(f"{room.address}{path}")
        wide[name] = runs_over(page)
    assert {name: by for name, by in wide.items() if by > 0} == {}
    assert faults == []


def of_size(size: tuple[int, int]) -> dict[str, int]:
    return {"width": size[0], "height": size[1]}


def in_light(page: Page, mode: str) -> list[str]:
    """All that is found in the room; of the other two, what light changes."""
    page.evaluate(SET_MODE, mode)
    return found_by_axe(page, "" if mode == "room" else "color-contrast")
