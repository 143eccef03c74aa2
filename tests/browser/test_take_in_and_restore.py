"""A file with bad rows is taken in and undone; a room is restored; each role finds what it may."""

from collections.abc import Iterator

import pytest
from django.urls import reverse
from playwright.sync_api import Page, Playwright, expect

from helmwright.web.allowed import ALLOWED
from tests.browser.conftest import LAPTOP, PHONE, Browsers
from tests.browser.desk_looks import MODES, found_by_axe, runs_over
from tests.browser.hands import Hands
from tests.browser.real_room import RealRoom, made
from tests.browser.small_room import MEMBERS, PASSWORD

ROSTER = "No.,Player,Pos,Tape (in)\n7,Wren Siltbank,QB,22 3/8\n22,Alder Riffleton,RB,221/8\n"
MAIN_PAGES = ("now", "roster", "helmets", "stores", "day", "paper", "take-in", "staff", "devices")
SET_MODE = "(mode) => { document.documentElement.dataset.mode = mode; }"
REFUSED = 403


@pytest.fixture(scope="module")
def room(tmp_path_factory: pytest.TempPathFactory, chromium: str) -> Iterator[RealRoom]:
    assert chromium
    found = made(tmp_path_factory.mktemp("room") / "room")
    found.start()
    yield found
    found.kill()


@pytest.fixture
def laptops(playwright: Playwright, chromium: str, tmp_path) -> Iterator[Browsers]:
    found = Browsers(playwright, chromium, tmp_path)
    yield found
    found.close()


def looked_at(page: Page) -> list[str]:
    """What is hard to reach on it in any light, and on a phone."""
    found = []
    for mode in MODES:
        page.evaluate(SET_MODE, mode)
        found += [f"{mode}: {fault}" for fault in found_by_axe(page)]
    page.set_viewport_size({"width": PHONE[0], "height": PHONE[1]})
    found += found_by_axe(page)
    if runs_over(page):
        found.append(f"{runs_over(page)} px wider than a phone")
    page.set_viewport_size({"width": LAPTOP[0], "height": LAPTOP[1]})
    return found


def roster_of(page: Page, room: RealRoom) -> str:
    """What the roster's page says, whatever the time."""
    page.goto(f"{room.address}/roster/")
    return page.inner_text("main")


@pytest.mark.slow
def test_a_file_with_a_bad_row_is_shown_taken_in_and_undone(room, laptops):
    page = laptops.page("laptop", LAPTOP)
    hands = Hands(page, room)
    hands.sign_in("manager")
    before = roster_of(page, room)
    page.goto(f"{room.address}/take-in/")
    file = {"name": "kingfishers.csv", "mimeType": "text/csv", "buffer": ROSTER.encode()}
    page.get_by_label("The file").set_input_files(file)
    page.get_by_role("button", name="See what would happen").click()
    expect(hands.title).to_have_text("What would happen")
    refused = page.get_by_role("region", name="Cannot be taken in")
    expect(refused).to_contain_text("Alder Riffleton")
    expect(refused).to_contain_text("221/8")
    expect(page.get_by_role("region", name="Will happen")).to_contain_text("Wren Siltbank")
    assert looked_at(page) == []
    assert roster_of(page.context.new_page(), room) == before
    page.bring_to_front()
    page.get_by_role("button", name="Take in 1 row").click()
    expect(hands.title).to_have_text("roster.csv")
    assert looked_at(page) == []
    result = page.url
    after = roster_of(page, room)
    assert "Wren Siltbank" in after
    assert "Alder Riffleton" not in after
    page.goto(result)
    page.get_by_role("button", name="Undo this file").click()
    expect(page.get_by_text("The ledger keeps that it was taken in and undone.")).to_be_visible()
    assert roster_of(page, room) == before
    assert hands.faults == []


@pytest.mark.slow
def test_a_restored_room_shows_the_same_roster(room, laptops, tmp_path):
    page = laptops.page("laptop", LAPTOP)
    Hands(page, room).sign_in("manager")
    before = roster_of(page, room)
    assert "Avocet Brookside" in before
    kept = tmp_path / "room.backup"
    backup = room.command("backup", str(kept))
    assert backup.returncode == 0, backup.stderr
    other = RealRoom(tmp_path / "restored")
    restored = other.command("restore", str(kept), "--into", str(other.folder))
    assert restored.returncode == 0, restored.stderr
    other.start()
    try:
        Hands(page, other).sign_in("manager")
        assert roster_of(page, other) == before
    finally:
        other.kill()


@pytest.mark.slow
def test_what_a_pin_does_not_open_asks_for_the_password_once(room, laptops):
    page = laptops.page("tablet", LAPTOP)
    hands = Hands(page, room)
    hands.enroll("Station 1", "manager")
    page.goto(f"{room.address}/staff/")
    expect(hands.title).to_have_text("Confirm with your password")
    assert looked_at(page) == []
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Go on").click()
    expect(hands.title).to_have_text("Staff")
    assert hands.faults == []


@pytest.mark.slow
@pytest.mark.parametrize("role", MEMBERS)
def test_a_role_is_offered_the_pages_that_it_may_see_and_is_refused_the_others(room, laptops, role):
    page = laptops.page(role, LAPTOP)
    hands = Hands(page, room)
    hands.sign_in(role)
    offered = page.get_by_role("navigation", name="Pages").get_by_role("link")
    addresses = [link.get_attribute("href") for link in offered.all()]
    for name in (*MAIN_PAGES, "station"):
        path = reverse(name)
        answer = page.goto(f"{room.address}{path}")
        assert answer
        if role in ALLOWED[name]:
            assert answer.status == 200, name
        else:
            assert answer.status == REFUSED, name
            assert path not in addresses
            assert page.inner_text("main").strip()
    assert addresses
    assert hands.faults == []
