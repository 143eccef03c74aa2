"""What an undo takes back, and how that is called."""

import pytest

from helmwright.anatomy import Reading
from helmwright.visit.event import (
    Event,
    Measured,
    MeasureSkipped,
    NotHere,
    Paused,
    PutOn,
    Resumed,
    Stopped,
    SymptomReported,
    Undone,
)
from helmwright.visit.said_words import said_words
from helmwright.visit.undo import OutOfTurnError, can_be_undone, standing
from tests.visit.scripts import DELIVERED, WHOLE, answered, begun, proposed

SAID: list[Event] = [
    begun(), Measured((Reading("tape_circumference", 575.0),)), proposed(), PutOn(DELIVERED),
    answered("front", "loose"), answered("brow", "low", 41.275),
]  # fmt: skip


@pytest.mark.parametrize(
    ("event", "words"),
    [
        (answered("front", "loose"), "Front: loose"),
        (answered("brow", "low", 41.275), "Brow: 1 5/8 in, low"),
        (PutOn(DELIVERED), "putting it on"),
        (SAID[1], "the reading of the tape around the head"),
        (MeasureSkipped("head_length"), "leaving out the head length"),
        (NotHere("front", "3/4"), "that no front pad 3/4 is here"),
        (Stopped("the bus leaves"), "the stop"),
        (SymptomReported("dizzy"), "the symptom"),
        (proposed(), "nothing"),
    ],
)
def test_what_was_said_has_words(event, words):
    assert said_words(event, WHOLE) == words


def test_what_can_be_undone_is_what_each_undo_takes_back_in_turn():
    events, left = [*SAID, Paused(), Resumed()], can_be_undone(SAID)
    assert [event for _, event in left] == [SAID[1], SAID[3], SAID[4], SAID[5]]
    while left:
        assert can_be_undone(events) == left
        events.append(Undone())
        assert left[-1] not in standing(events)
        left = left[:-1]
    assert can_be_undone(events) == ()
    with pytest.raises(OutOfTurnError):
        standing([*events, Undone()])


def test_in_a_pause_nothing_can_be_undone():
    assert can_be_undone([*SAID, Paused()]) == ()
