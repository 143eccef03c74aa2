"""What an undo would take back, in words."""

from collections.abc import Sequence

from helmwright.anatomy import spoken_name
from helmwright.visit import (
    BY_PROGRAM,
    Answered,
    Event,
    Measured,
    MeasureSkipped,
    NotHere,
    Paused,
    Protocol,
    PutOn,
    Resumed,
    Started,
    Stopped,
    SymptomReported,
)
from helmwright.visit.undo import standing


def taken_back(events: Sequence[Event], protocol: Protocol) -> str:
    """The last thing that a person said and that stands, in words; empty where there is none.

    In a pause nothing is taken back.
    """
    stand = [event for _, event in standing(events)]
    if stand and isinstance(stand[-1], Paused):
        return ""
    said = [each for each in stand if not isinstance(each, (*BY_PROGRAM, Paused, Resumed))]
    return _words(said[-1], protocol) if said else ""


def _words(event: Event, protocol: Protocol) -> str:
    match event:
        case Started():
            return ""
        case Answered(check, word):
            return f"{protocol.check(check).title}: {word}"
        case PutOn():
            return "The build that was put on"
        case Measured(readings):
            return f"The readings of the {spoken_name(readings[0].measure)}"
        case MeasureSkipped(measure):
            return f"Leaving out the {spoken_name(measure)}"
        case NotHere(place, size):
            return f"That no {place} pad {size} is here"
        case Stopped():
            return "The stop"
        case SymptomReported():
            return "The symptom"
    return ""
