"""Whether an event that was said comes in time, where others went on with the visit meanwhile."""

from collections.abc import Sequence

from helmwright.visit.event import (
    BY_PROGRAM,
    Event,
    Measured,
    Paused,
    Stopped,
    SymptomReported,
    Undone,
)

INTERRUPTS = (Undone, Paused, Stopped, Measured)
"""What a person may say while the program thinks; whatever it says meanwhile does not matter."""


def is_in_time(event: Event, place: int, before: Sequence[Event]) -> bool:
    """Whether an event said at a place still holds after what is there by now.

    Parameters
    ----------
    event
        What is said.
    place
        How many events the visit had for whoever said it.
    before
        All that it has by now.

    Notes
    -----
    A symptom is never too late. An undo or a pause means the same whatever the program answered in
    between, and so does a stop or another reading; anything else was said of a visit that is gone.
    """
    if isinstance(event, SymptomReported):
        return True
    missed = before[place:]
    if place > len(before):
        return False
    if isinstance(event, INTERRUPTS):
        return all(isinstance(each, BY_PROGRAM) for each in missed)
    return not missed
