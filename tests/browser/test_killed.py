"""The laptop is killed in the middle of each act of a fitting: nothing is lost, nothing doubled."""

import random
from collections import Counter
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Playwright, expect

from tests.browser.between import Between, When
from tests.browser.conftest import Browsers
from tests.browser.hands import LAPTOP_HAS_ALL, Hands
from tests.browser.real_room import PATIENCE_S, RealRoom, made

ACCEPTED = "It fits. Read it, then sign."
PUT_ON = ("Put it on", "Put these in, then put it on")
AT_RANDOM = 3

KEPT = """{
  'entries': list(Entry.objects.exclude(device=None).values_list('id', 'kind', 'outcome')),
  'readings': Reading.objects.filter(player__number='8').count(),
  'visits': list(Visit.objects.values_list('state', 'try_ons')),
  'places': list(Visit.objects.get().steps.order_by('place').values_list('place', flat=True)),
  'issues': list(Issue.objects.values_list('helmet__code', 'player__number')),
  'acknowledged': Acknowledgment.objects.count(),
}"""


@pytest.fixture
def room(tmp_path) -> Iterator[RealRoom]:
    found = made(tmp_path / "room")
    found.start()
    yield found
    found.kill()


@pytest.fixture
def between(room) -> Iterator[Between]:
    found = Between(room.port, room.kill)
    room.way = found.port
    yield found
    found.close()


@pytest.fixture
def hands(playwright: Playwright, chromium: str, tmp_path, room, between) -> Iterator[Hands]:
    assert between
    browsers = Browsers(playwright, chromium, tmp_path / "profiles")
    yield Hands(browsers.page(), room)
    browsers.close()


@pytest.mark.slow
def test_a_fitting_lasts_through_a_laptop_that_is_killed_in_each_act(room, between, hands):
    moments = random.Random(7)  # noqa: S311 - no secret

    def killed(act: Callable[[], object]) -> None:
        """Killed as the act arrives, and once more before the answer to it gets through."""
        between.kill_when(When.ARRIVED, after=moments.uniform(0, 0.06))
        act()
        assert between.killed.wait(PATIENCE_S)
        expect(hands.page.locator(".head .status")).to_contain_text("kept here")
        between.kill_when(When.ANSWERED)
        room.start()
        assert between.killed.wait(PATIENCE_S)
        expect(hands.page.locator(".head .status")).to_contain_text("kept here")
        room.start()
        expect(hands.page.locator(".head .status")).to_have_text(LAPTOP_HAS_ALL)

    hands.enroll("Station 1")
    hands.choose("8")
    hands.wears()
    hands.primary.click()
    expect(hands.title).to_have_text("Around the head, first reading")
    expect(hands.page.locator(".head .status")).to_have_text(LAPTOP_HAS_ALL)
    killed(lambda: hands.reads(22.5))
    hands.reads(22.5625)
    hands.primary.click()
    hands.page.goto(f"{room.address}/station/#/player/{room.known['players']['8']}/begin")
    killed(hands.begins)
    hands.until(*PUT_ON)
    killed(hands.goes_on)
    hands.step(hands.until("Front pad"))
    for _ in range(AT_RANDOM):
        hands.step(hands.at_rest())
        hands.page.wait_for_timeout(moments.uniform(0, 150))
        room.kill()
        room.start()
    visit = hands.at_rest()
    killed(lambda: hands.step(visit))
    hands.until(ACCEPTED)
    killed(hands.issues)
    expect(hands.title).to_contain_text("Godwit Reedham has TV-01")
    assert hands.faults == []

    kept = room.ask(KEPT)
    station = {entry: kind for entry, kind, _ in kept["entries"]}
    assert len(station) == len(kept["entries"])
    assert station == hands.said
    assert {outcome for *_, outcome in kept["entries"]} == {"taken"}
    told = Counter(station.values())
    assert told["reading taken"] == kept["readings"] == 2
    assert kept["visits"] == [["accepted", 1]]
    assert kept["places"] == list(range(len(kept["places"])))
    assert kept["acknowledged"] == told["acknowledged"] == 1
    assert [number for _, number in kept["issues"]] == ["8"]
    verified = room.command("ledger", "verify")
    assert verified.returncode == 0, verified.stdout + verified.stderr
