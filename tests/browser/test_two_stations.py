"""Two stations want the same helmet and the same last pads at once; each goes on to issue."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Playwright, expect

from tests.browser.conftest import Browsers
from tests.browser.hands import Hands
from tests.browser.real_room import RealRoom, made

ACCEPTED = "It fits. Read it, then sign."
PUT_ON = ("Put it on", "Put these in, then put it on")
PROPOSED = "Ouzel, shell 3"
KEPT = """{
  'reserved': [[entry.kind, entry.outcome, entry.note]
               for entry in Entry.objects.filter(kind__in=['helmet reserved', 'part reserved'])],
  'issued': list(Issue.objects.values_list('helmet__code', 'visit__station__name')),
}"""


@pytest.fixture
def room(tmp_path) -> Iterator[RealRoom]:
    """One of each pad."""
    found = made(tmp_path / "room", 1)
    found.start()
    yield found
    found.kill()


@pytest.fixture
def stations(playwright: Playwright, chromium: str, tmp_path, room) -> Iterator[list[Hands]]:
    """Both have players whose heads read alike, so both are proposed the same."""
    browsers = Browsers(playwright, chromium, tmp_path / "profiles")
    found = []
    for name, number in (("Station 1", "24"), ("Station 2", "61")):
        hands = Hands(browsers.page(name), room)
        hands.enroll(name)
        hands.choose(number)
        hands.wears()
        hands.tap("Choose the helmet")
        hands.begins()
        hands.until(PROPOSED)
        found.append(hands)
    yield found
    browsers.close()


def told(hands: Hands) -> str:
    """What the screen says of what somebody else had first; nothing where nobody had."""
    notice = hands.page.get_by_role("alert").filter(has_text="Somebody else was first.")
    return notice.inner_text() if notice.count() else ""


def goes_round(hands: Hands) -> None:
    """Do what the notice says: another helmet, and where a pad is gone another build."""
    if "Take another helmet." in told(hands):
        expect(hands.page.get_by_role("radio", name="TV-0103")).to_be_checked()
        hands.goes_on()
        hands.at_rest()
    if not told(hands):
        return
    hands.tap("Other builds", exact=False)
    for group, which in (("Other builds that may fit", 0), ("Why another", 2)):
        rows = hands.page.get_by_role("radiogroup", name=group).get_by_role("radio")
        rows.nth(which).click()
        expect(rows.nth(which)).to_be_checked()
    hands.goes_on()


@pytest.mark.slow
def test_of_two_that_want_the_same_one_wins_and_the_other_is_told_and_goes_on(room, stations):
    for hands in stations:
        hands.primary.click()
    for hands in stations:
        hands.at_rest()
    losers = [told(hands) for hands in stations]
    assert any(losers)
    for mine, other in zip(losers, ("Station 2", "Station 1"), strict=True):
        assert not mine or f"{other} took" in mine
    for hands in stations:
        goes_round(hands)
    for hands in stations:
        hands.until(ACCEPTED)
        hands.issues()
        expect(hands.title).to_contain_text(" has TV-01")
        expect(hands.page.get_by_text("The laptop has it.")).to_be_visible()
    kept = room.ask(KEPT)
    assert sorted(helmet for helmet, _ in kept["issued"]) == ["TV-0102", "TV-0103"]
    assert sorted(station for _, station in kept["issued"]) == ["Station 1", "Station 2"]
    notes = [note for *_, outcome, note in kept["reserved"] if outcome == "set aside"]
    assert notes
    assert all(" took " in note for note in notes)
    assert [hands.faults for hands in stations] == [[], []]
    verified = room.command("ledger", "verify")
    assert verified.returncode == 0, verified.stdout + verified.stderr
