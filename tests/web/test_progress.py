"""How far the checks of a try-on are: it grows by a look asked again, and never jumps back."""

import pytest

from helmwright.records.readers.visit_events import events_of
from helmwright.visit import Protocol, protocol_for
from helmwright.visit.state import fold
from helmwright.visit.wire import event_from_wire
from helmwright.web.guiding.progress import progress
from tests.records.fitting import Fitting, answered, proposed, put_on
from tests.records.room import SHEET, Room

pytestmark = pytest.mark.django_db
AHEAD = {"marks": "good", "whole shell": "whole", "parts": "complete", "guard on": "on"}


@pytest.fixture
def protocol() -> Protocol:
    return protocol_for(SHEET)


@pytest.fixture
def fitting() -> Fitting:
    return Fitting(Room())


def told(fitting: Fitting, protocol: Protocol) -> tuple[int, int, int] | None:
    """Try-on, checks answered, checks to come."""
    events = [event_from_wire(wire, SHEET) for wire in events_of(fitting.row)]
    found = progress(protocol, fold(events))
    if found is None:
        return None
    return found["try_on"], found["answered"], found["to_come"]


def test_nothing_is_counted_before_a_build_is_proposed(fitting, protocol):
    assert told(fitting, protocol) is None


def test_all_stages_count_from_the_first_check_on(fitting, protocol):
    every = len(protocol.checks)
    fitting.program(proposed())
    assert told(fitting, protocol) == (1, 0, every)
    for count, (check, word) in enumerate(AHEAD.items(), start=1):
        fitting.taken(answered(check, word))
        assert told(fitting, protocol) == (1, count, every - count)
    fitting.taken(put_on())
    assert told(fitting, protocol) == (1, len(AHEAD), every - len(AHEAD))


def test_a_look_asked_again_is_one_more_and_a_changed_pad_begins_anew(fitting, protocol):
    every = len(protocol.checks)
    fitting.program(proposed())
    fitting.taken(put_on())
    fitting.taken(answered("front", "loose"))
    assert told(fitting, protocol) == (1, 1, every - 1)
    fitting.program({"event": "look asked", "check": "front", "why": "It is close."})
    assert told(fitting, protocol) == (1, 1, every)
    fitting.taken(answered("front", "loose"))
    assert told(fitting, protocol) == (1, 2, every - 1)
    fitting.program(proposed(front="1 in"))
    number, count, _ = told(fitting, protocol) or (0, 0, 0)
    assert (number, count) == (2, 0)
