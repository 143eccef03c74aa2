"""What comes next in a visit."""

import pytest

from helmwright.anatomy import Sex
from helmwright.catalogue import ZONES
from helmwright.fit.outlook import Build
from helmwright.visit.check import Stage
from helmwright.visit.event import (
    Accepted,
    Answered,
    Event,
    LookAsked,
    MeasureAsked,
    MeasureSkipped,
    NoBuild,
    NotHere,
    Paused,
    Proposed,
    PutOn,
    Resumed,
    SymptomReported,
    Undone,
)
from helmwright.visit.guide import Guide
from helmwright.visit.looks import Looks
from helmwright.visit.possible import UnknownCheckError, UnlistedBuildError
from helmwright.visit.state import OutOfTurnError, fold
from helmwright.visit.step import AskCheck, AskMeasure, AskPutOn, Ended, PausedNow, Record
from tests.visit.scripts import CONTACT_ALONE, OUZEL, WHOLE, answered, begun, moved
from tests.visit.simulated import FIVE, quick_guide

SHELL_4 = ("shell", "4", 1)
MAN = begun(readings=FIVE, stated={"sex": Sex.MALE})
GUIDE = quick_guide(WHOLE, measures=False)
PLAIN = quick_guide(CONTACT_ALONE, measures=False)


def told(guide: Guide, events: list[Event]) -> list[Event]:
    """The events with all that the program has to say."""
    events = list(events)
    while isinstance(step := guide.next(events), Record):
        events.append(step.event)
    return events


def asked(guide: Guide, events: list[Event]) -> str:
    """The key of the check that is asked next."""
    step = guide.next(events)
    assert isinstance(step, AskCheck), step
    return step.check.key


def put_on(guide: Guide, events: list[Event]) -> list[Event]:
    """Every check before it right, and the proposed build on the head."""
    events = told(guide, events)
    while isinstance(step := guide.next(events), AskCheck):
        events.append(answered(step.check.key))
    assert isinstance(step, AskPutOn)
    return [*events, PutOn(step.build)]


def all_right(
    guide: Guide, events: list[Event], until: Stage | None = None, **words: str
) -> list[Event]:
    """Every check right but those named, until one of a stage is asked or no check is."""
    events = told(guide, events)
    while isinstance(step := guide.next(events), AskCheck) and step.check.stage is not until:
        word = words.get(step.check.key.replace(" ", "_"), "snug")
        value = 25.0 if step.check.length and word == "snug" else None
        events = told(guide, [*events, answered(step.check.key, word, value)])
    return events


def test_a_visit_goes_from_the_proposal_through_every_stage_to_acceptance():
    events = all_right(GUIDE, put_on(GUIDE, [MAN]))
    assert isinstance(events[-1], Accepted)
    assert isinstance(GUIDE.next(events), Ended)
    keys = [event.check for event in events if isinstance(event, Answered)]
    once = list(dict.fromkeys(keys))
    assert once == [check.key for check in WHOLE.checks]


def test_a_helmet_is_looked_over_before_it_goes_on():
    events = told(GUIDE, [MAN])
    assert asked(GUIDE, events) == "marks"
    assert isinstance(GUIDE.next([*events, answered("marks")]), AskPutOn)


def test_a_helmet_that_cannot_be_put_right_is_not_put_on():
    events = [*told(GUIDE, [MAN]), answered("marks", "loose")]
    step = GUIDE.next(events)
    assert isinstance(step, AskCheck)
    assert step.why == "Take another helmet."
    ended = told(GUIDE, [*events, answered("marks", "loose")])
    assert isinstance(ended[-1], NoBuild)
    assert "Marks could not be put right" in ended[-1].why


def test_the_rest_of_a_round_is_what_follows_whatever_is_answered():
    events = [*put_on(GUIDE, [MAN])]
    step = GUIDE.next(events)
    assert isinstance(step, AskCheck)
    assert step.check.key == "put on"
    assert step.rest_of_round == ()
    step = GUIDE.next([*events, answered("put on")])
    assert isinstance(step, AskCheck)
    assert step.check.key == "brow"
    assert [check.key for check in step.rest_of_round] == [str(zone) for zone in ZONES]


def test_answers_may_come_in_any_order():
    events = [*put_on(GUIDE, [MAN]), answered("put on")]
    keys = ["brow", *map(str, ZONES)]
    backwards = [*events, *(answered(key) for key in reversed(keys))]
    forwards = [*events, *(answered(key) for key in keys)]
    assert GUIDE.next(backwards) == GUIDE.next(forwards)


def test_where_it_cannot_be_put_on_the_rest_of_the_round_is_left_out():
    events = [*put_on(GUIDE, [MAN]), answered("put on", "tight")]
    after = told(GUIDE, events)
    if isinstance(after[-1], LookAsked):
        after = told(GUIDE, [*after, answered("put on", "tight")])
    assert isinstance(after[-1], Proposed)
    assert after[-1].build not in fold(after).rejected


def test_what_is_put_right_on_the_spot_is_asked_again_there():
    held = all_right(GUIDE, put_on(GUIDE, [MAN]), until=Stage.HELD)
    assert asked(GUIDE, held) == "cup"
    again = GUIDE.next([*held, answered("cup", "loose")])
    assert isinstance(again, AskCheck)
    assert (again.check.key, again.look, again.why) == ("cup", 2, "Center the cup.")
    assert asked(GUIDE, [*held, answered("cup", "loose"), answered("cup")]) == "turn"


def test_what_no_pad_cures_and_nothing_puts_right_ends_the_visit_and_says_what_it_is():
    held = all_right(GUIDE, put_on(GUIDE, [MAN]), until=Stage.HELD)
    ended = all_right(GUIDE, held, neck="loose")
    assert isinstance(ended[-1], NoBuild)
    assert "Neck could not be put right. It is loose. A pad." in ended[-1].why


def test_after_a_change_only_the_contact_and_what_it_can_disturb_are_asked_again():
    held = all_right(GUIDE, put_on(GUIDE, [MAN]), until=Stage.HELD)
    changed = all_right(GUIDE, held, turn="loose")
    assert isinstance(changed[-1], Proposed)
    first = next(event for event in held if isinstance(event, Proposed))
    assert changed[-1].build != first.build
    if changed[-1].build.shell == first.build.shell:
        on = put_on(GUIDE, changed)
        again = all_right(GUIDE, on)[len(on) :]
        keys = {event.check for event in again if isinstance(event, Answered)}
        assert keys == {"put on", "brow", *map(str, ZONES), "turn", "told"}


def test_another_build_put_on_for_a_reason_is_the_one_that_is_checked():
    events = told(PLAIN, [MAN])
    step = PLAIN.next(events)
    assert isinstance(step, AskPutOn)
    other = moved(step.build, front=1)
    on = [*events, PutOn(other, "she has always worn it so")]
    ended = all_right(PLAIN, on)
    assert ended[-1] == Accepted(other)


def test_a_pause_waits_and_changes_nothing():
    events = put_on(PLAIN, [MAN])
    assert isinstance(PLAIN.next([*events, Paused()]), PausedNow)
    assert PLAIN.next([*events, Paused(), Resumed()]) == PLAIN.next(events)


def test_undoing_asks_what_was_asked_before():
    events = put_on(PLAIN, [MAN])
    for key in ("brow", "crown"):
        assert asked(PLAIN, [*events, answered(key), Undone()]) == asked(PLAIN, events)
        events.append(answered(key))


def test_a_symptom_ends_the_visit_and_nothing_is_proposed_for_it():
    events = [*put_on(PLAIN, [MAN]), SymptomReported("dizzy")]
    assert PLAIN.next(events) == Ended(SymptomReported("dizzy"))


def test_after_as_many_try_ons_as_are_worth_it_the_visit_ends():
    guide = quick_guide(CONTACT_ALONE, measures=False, most_try_ons=2, looks=Looks.NONE)
    events: list[Event] = [MAN]
    for _ in range(2):
        events = all_right(guide, put_on(guide, events), front="tight", rear="loose")
    assert isinstance(events[-1], NoBuild)
    assert events[-1].why.startswith("2 builds were tried")


def test_a_measure_that_pays_is_asked_for_and_can_be_skipped():
    guide = quick_guide(CONTACT_ALONE)
    tape_only = begun(readings=FIVE[:1], stated={"sex": Sex.MALE})
    events = told(guide, [tape_only])
    asked_for = guide.next(events)
    if isinstance(asked_for, AskMeasure):
        assert events[-1] == MeasureAsked(asked_for.measure, asked_for.why)
        after = told(guide, [*events, MeasureSkipped(asked_for.measure)])
        assert not any(
            isinstance(event, MeasureAsked) and event.measure == asked_for.measure
            for event in after[len(events) :]
        )
    assert isinstance(asked_for, AskMeasure)


def test_what_is_not_here_is_never_proposed_again_until_nothing_is_left():
    thin = tuple((str(zone), OUZEL.pad(zone).labels[0], 1) for zone in ZONES)
    start = begun(readings=FIVE, stated={"sex": Sex.MALE}, current=None, shelf=(*thin, SHELL_4))
    events = told(PLAIN, [start])
    missing: set[tuple[str, str]] = set()
    while isinstance(said := events[-1], Proposed):
        pads = {
            (str(zone), OUZEL.pad(zone).labels[pad])
            for zone, pad in zip(ZONES, said.build.pads, strict=True)
        }
        assert not pads & missing
        part = min(pads)
        missing.add(part)
        events = told(PLAIN, [*events, NotHere(*part)])
    assert isinstance(events[-1], NoBuild)
    assert missing


def test_a_part_that_no_sheet_lists_cannot_be_missing():
    with pytest.raises(UnlistedBuildError, match="front 9 in is no part of Ouzel"):
        PLAIN.next([*told(PLAIN, [MAN]), NotHere("front", "9 in")])


def test_a_guide_that_may_not_ask_for_measures_asks_for_none():
    tape_only = begun(readings=FIVE[:1], stated={"sex": Sex.MALE})
    assert isinstance(told(PLAIN, [tape_only])[-1], Proposed)


@pytest.mark.parametrize(
    ("given", "error", "says"),
    [
        (answered("visor"), UnknownCheckError, "no check 'visor'"),
        (answered("front", "purple"), ValueError, "is no answer; answers are loose, snug, tight"),
        (answered("front", "snug", 12.0), UnknownCheckError, "reads no length"),
        (answered("brow", "snug", 300.0), UnknownCheckError, "can be nobody's"),
        (PutOn(Build(9, OUZEL.delivered), "?"), UnlistedBuildError, "no build of Ouzel"),
        (PutOn(Build(3, (99,) * 8), "?"), UnlistedBuildError, "no build of Ouzel"),
    ],
)
def test_what_protocol_or_sheet_do_not_have_is_refused(given, error, says):
    with pytest.raises(error, match=says):
        PLAIN.next([*put_on(PLAIN, [MAN]), given])


def test_no_check_of_the_head_is_answered_before_the_helmet_is_on_it():
    with pytest.raises(OutOfTurnError, match="put on first"):
        GUIDE.next([*told(GUIDE, [MAN]), answered("front")])
