"""What was said in a visit, in words."""

from helmwright.anatomy import spoken_name
from helmwright.units import inches
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import (
    Answered,
    Event,
    Measured,
    MeasureSkipped,
    NotHere,
    PutOn,
    Stopped,
    SymptomReported,
)


def said_words(event: Event, protocol: Protocol) -> str:
    """What a person said; "nothing" where it was the program that spoke."""
    match event:
        case Answered():
            return named_words(protocol, event)
        case PutOn():
            return "putting it on"
        case Measured(readings):
            return f"the reading of the {spoken_name(readings[0].measure)}"
        case MeasureSkipped(measure):
            return f"leaving out the {spoken_name(measure)}"
        case NotHere(place, size):
            return f"that no {place} pad {size} is here"
        case Stopped():
            return "the stop"
        case SymptomReported():
            return "the symptom"
    return "nothing"


def named_words(protocol: Protocol, given: Answered) -> str:
    """A check and its answer: "Front pad: loose"."""
    return f"{protocol.check(given.check).title}: {given_words(given)}"


def given_words(given: Answered) -> str:
    """An answer in words, its length first: "1 5/8 in, high"."""
    if given.value_mm is None:
        return given.word
    return f"{inches(given.value_mm, denominator=16, mark=' in')}, {given.word}"
