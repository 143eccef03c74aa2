"""What comes next in a visit, as the guide says it."""

from dataclasses import dataclass

from helmwright.fit.outlook import Build
from helmwright.visit.check import Check
from helmwright.visit.event import Accepted, Event, NoBuild, Stopped, SymptomReported


@dataclass(frozen=True, slots=True)
class Record:
    """Something that the program has to say: put it in the list and ask what comes next."""

    event: Event


@dataclass(frozen=True, slots=True)
class AskMeasure:
    """A measure is to be taken (`Measured`) or left out (`MeasureSkipped`)."""

    measure: str
    why: str


@dataclass(frozen=True, slots=True)
class AskPutOn:
    """The build is to be made up and put on (`PutOn`), or another one for a reason.

    Parameters
    ----------
    build
        The proposed build.
    before
        What is in the helmet now.
    """

    build: Build
    before: Build


@dataclass(frozen=True, slots=True)
class AskCheck:
    """A check is to be answered (`Answered`).

    Parameters
    ----------
    check
        Which.
    look
        1 for the first look at this try-on, 2 for the second, and so on.
    why
        Why it is asked again; empty at the first look.
    rest_of_round
        The checks that follow at once whatever is answered here, for one who answers many.
    """

    check: Check
    look: int
    why: str
    rest_of_round: tuple[Check, ...] = ()


@dataclass(frozen=True, slots=True)
class PausedNow:
    """The visit is paused; only `Resumed` goes on."""


@dataclass(frozen=True, slots=True)
class Ended:
    """The visit is over."""

    how: Accepted | NoBuild | Stopped | SymptomReported


Step = Record | AskMeasure | AskPutOn | AskCheck | PausedNow | Ended
"""Anything that can come next."""
