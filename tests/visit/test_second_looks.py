"""A mistaken answer is looked at again before a pad is changed, and a doubtful good one too."""

from functools import cache

import pytest

from helmwright.anatomy import Sex
from helmwright.catalogue import ZONES, Zone
from helmwright.fit.finding import Grade
from helmwright.visit.event import Accepted, Answered, Event, LookAsked, Proposed, PutOn
from helmwright.visit.looks import Looks
from helmwright.visit.step import AskCheck
from tests.visit.scripts import CONTACT_ALONE, begun
from tests.visit.simulated import FIVE, Truthful, play, quick_guide, worded

MAN = begun(readings=FIVE, stated={"sex": Sex.MALE})
GUIDE = quick_guide(CONTACT_ALONE, measures=False, draws=128)


@cache
def fitted() -> Truthful:
    """A player whom the first proposal truly fits."""
    for seed in range(20):
        player = Truthful.of(MAN, seed)
        events = play(GUIDE, MAN, player)
        if sum(isinstance(event, PutOn) for event in events) == 1:
            return player
    raise AssertionError("no first proposal fitted in twenty heads")


def first_slips(zone: Zone, grade: Grade):
    """The first look at a zone is written down wrong."""

    def mistaken(events: list[Event], step: AskCheck, given: Answered) -> Answered:
        if step.check.zone is zone and not any(
            isinstance(event, Answered) and event.check == step.check.key for event in events
        ):
            return Answered(given.check, worded(step.check, grade))
        return given

    return mistaken


@pytest.mark.parametrize(("grade", "zones"), [(Grade.UNDER, ZONES[::2]), (Grade.OVER, ZONES[1::2])])
def test_a_slip_is_asked_again_and_no_pad_is_changed(grade, zones):
    player = fitted()
    kept, again = 0, 0
    for zone in zones:
        events = play(GUIDE, MAN, player, first_slips(zone, grade))
        assert isinstance(events[-1], Accepted)
        looked = [event.check for event in events if isinstance(event, LookAsked)]
        again += looked[:2] == [zone, zone]
        kept += sum(isinstance(event, Proposed) for event in events) == 1
    assert again >= len(zones) - 1, "a slip is asked again, and a third look decides"
    assert kept >= len(zones) - 1, "and then no pad is changed for it"


def test_without_second_looks_a_slip_changes_the_build():
    guide = quick_guide(CONTACT_ALONE, measures=False, looks=Looks.NONE)
    player = fitted()
    events = play(guide, MAN, player, first_slips(Zone.FRONT, Grade.OVER))
    assert sum(isinstance(event, Proposed) for event in events) > 1
    assert not any(isinstance(event, LookAsked) for event in events)


def test_the_plain_rule_asks_every_bad_one_twice_more():
    guide = quick_guide(CONTACT_ALONE, measures=False, looks=Looks.BAD_ONES)
    events = play(guide, MAN, fitted(), first_slips(Zone.FRONT, Grade.OVER))
    assert [event.check for event in events if isinstance(event, LookAsked)] == ["front"] * 2
    assert isinstance(events[-1], Accepted)
    assert sum(isinstance(event, Proposed) for event in events) == 1


def test_before_going_on_the_most_doubtful_good_answer_is_looked_at_once_more():
    events = play(GUIDE, MAN, fitted())
    looks = [event for event in events if isinstance(event, LookAsked)]
    assert len(looks) == 1
    assert "likeliest to be mistaken" in looks[0].why
