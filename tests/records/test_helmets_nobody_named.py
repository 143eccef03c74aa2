"""A visit knows which helmet is on the head, or has none: no other one is issued for it."""

import pytest

from helmwright.records.kinds.things import HelmetHeld
from helmwright.records.verify import verify
from tests.records.fitting import Fitting, answered, build, proposed, put_on
from tests.records.room import SHEET, Room

pytestmark = pytest.mark.django_db
FRONT = SHEET.pad("front").labels  # type: ignore[arg-type]


@pytest.fixture
def room():
    return Room()


def test_a_build_that_is_accepted_in_a_helmet_that_nobody_named_is_not_that_of_another_shell(room):
    one = room.helmet("TV-1", shell=3)
    fitting = Fitting(room, helmet=one)
    fitting.program(proposed())
    fitting.taken(put_on())
    fitting.taken(answered("front", "loose"))
    fitting.program(proposed())
    fitting.taken(put_on(4), words="it fits better by my hand")
    assert fitting.has_no_helmet
    fitting.taken(answered("front", "snug"))
    assert fitting.program({"event": "accepted", "build": build(4)})
    assert fitting.row.state == "accepted"
    assert fitting.has_no_helmet
    assert verify().faults == ()


def test_undoing_the_first_build_in_a_helmet_that_nobody_named_brings_back_the_one_at_hand(room):
    one = room.helmet("TV-1", shell=3)
    fitting = Fitting(room, helmet=one)
    fitting.program(proposed())
    fitting.taken(put_on(4))
    assert fitting.has_no_helmet
    fitting.taken({"event": "undone"})
    assert fitting.row.helmet_id == one
    assert fitting.meant == [one]
    assert verify().faults == ()


@pytest.mark.parametrize("shell", [3, 4])
def test_an_undo_back_to_a_helmet_that_went_on_hold_leaves_no_other_to_be_issued(room, shell):
    one, two = room.helmet("TV-1", shell=3), room.helmet("TV-2", shell=shell)
    fitting = Fitting(room, helmet=one)
    fitting.program(proposed())
    fitting.taken(put_on())
    fitting.taken(answered("front", "loose"))
    fitting.program(proposed(shell, front=FRONT[0]))
    fitting.reserve(two)
    fitting.taken(put_on(shell, front=FRONT[0]))
    room.taken(HelmetHeld(helmet=one, why="a crack at the rear"))
    fitting.taken({"event": "undone"})
    fitting.taken({"event": "undone"})
    assert fitting.has_no_helmet
    fitting.taken(answered("front", "snug"))
    assert fitting.program({"event": "accepted", "build": build()})
    assert fitting.has_no_helmet
    assert verify().faults == ()


def test_a_helmet_that_is_spoken_for_while_another_is_checked_is_not_the_accepted_one(room):
    one, two = room.helmet("TV-1", shell=3), room.helmet("TV-2", shell=4)
    fitting = Fitting(room, helmet=one)
    fitting.program(proposed())
    fitting.taken(put_on())
    fitting.taken(answered("front", "snug"))
    fitting.reserve(two)
    assert fitting.program({"event": "accepted", "build": build()})
    assert fitting.row.helmet_id == one
    assert fitting.meant == [one]
    assert verify().faults == ()
