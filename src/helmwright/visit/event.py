"""What happened in a fit visit, in order: the visit is this list and nothing else."""

from dataclasses import dataclass, field

from helmwright.anatomy import Over, Reading
from helmwright.anatomy.prior import Stated
from helmwright.fit.outlook import Build


@dataclass(frozen=True, slots=True)
class Started:
    """A player and a helmet.

    Parameters
    ----------
    who
        What to call the player.
    readings, stated, worn
        What the head estimate is made from.
    sheet
        Digest of the model sheet's content; a visit remembers which it was.
    current
        What is in the helmet now; None for the delivered build of the likeliest shell.
    shelf
        Parts at this store as (place, label, count) rows; None where everything listed is there.
        A shell that is counted comes as delivered.
    seed
        Of every draw.
    helmets
        What lies in each further helmet of this model that could be had at this store, beside the
        one at hand and shells that are counted.
    """

    who: str
    readings: tuple[Reading, ...]
    stated: Stated
    worn: tuple[Over, ...] | None
    sheet: str
    current: Build | None = None
    shelf: tuple[tuple[str, str, int], ...] | None = None
    seed: int = 1
    helmets: tuple[Build, ...] = ()


@dataclass(frozen=True, slots=True)
class MeasureAsked:
    """The program asks for a measure before it proposes (again)."""

    measure: str
    why: str


@dataclass(frozen=True, slots=True)
class Measured:
    """Readings that were taken in the visit."""

    readings: tuple[Reading, ...]


@dataclass(frozen=True, slots=True)
class MeasureSkipped:
    """The measure that was asked for is not taken."""

    measure: str


@dataclass(frozen=True, slots=True)
class Proposed:
    """The program proposes a build.

    Parameters
    ----------
    build
        Which parts.
    fits, found_right
        Stated chances that everything is right, and that a fitter will find it so [1].
    minutes
        What changing to it and trying it on should take [min].
    why
        One sentence that names the finding it answers.
    effective
        Effective number of draws behind the chances.
    """

    build: Build
    fits: float
    found_right: float
    minutes: float
    why: str
    effective: float


@dataclass(frozen=True, slots=True)
class NotHere:
    """A part of the proposed build is not at this store, whatever was counted.

    Parameters
    ----------
    place
        The zone that it is for.
    size
        The pad as written on its bag.
    """

    place: str
    size: str


@dataclass(frozen=True, slots=True)
class PutOn:
    """A build is on the head: the proposed one, or another for a reason, which is kept.

    Parameters
    ----------
    build
        Which parts.
    reason
        Why another than the proposed one.
    lay
        What lay in the helmet as it was taken up, where that is another than until now, or holds
        other pads than the visit knows of; None where nobody says.
    """

    build: Build
    reason: str = ""
    lay: Build | None = None


@dataclass(frozen=True, slots=True)
class Answered:
    """A check was answered.

    Parameters
    ----------
    check
        Its key.
    word
        The answer's word.
    value_mm
        The length read, for a check that reads one [mm].
    """

    check: str
    word: str
    value_mm: float | None = None


@dataclass(frozen=True, slots=True)
class LookAsked:
    """The program asks to look at a check again, and says why."""

    check: str
    why: str


@dataclass(frozen=True, slots=True)
class Undone:
    """The last thing that a person said is taken back, with what the program said to it."""


@dataclass(frozen=True, slots=True)
class Paused:
    """The visit is interrupted."""


@dataclass(frozen=True, slots=True)
class Resumed:
    """The visit goes on."""


@dataclass(frozen=True, slots=True)
class SymptomReported:
    """A symptom of injury or illness: the visit is over, medical staff are told."""

    words: str


@dataclass(frozen=True, slots=True)
class Stopped:
    """The fitter ends the visit."""

    reason: str


@dataclass(frozen=True, slots=True)
class Accepted:
    """Every check is right."""

    build: Build


@dataclass(frozen=True, slots=True)
class Would:
    """Something that is not here and would do: its parts, and the chance that it fits [1]."""

    build: Build
    lacking: tuple[str, ...]
    fits: float


@dataclass(frozen=True, slots=True)
class NoBuild:
    """Nothing here can be made to fit; what would, where anything would."""

    why: str
    would: tuple[Would, ...] = field(default=())


Event = (
    Started
    | MeasureAsked
    | Measured
    | MeasureSkipped
    | Proposed
    | NotHere
    | PutOn
    | Answered
    | LookAsked
    | Undone
    | Paused
    | Resumed
    | SymptomReported
    | Stopped
    | Accepted
    | NoBuild
)
"""Anything that can happen."""

BY_PROGRAM = (MeasureAsked, Proposed, LookAsked, Accepted, NoBuild)
"""What the program says; everything else is said by a person."""

ENDS = (SymptomReported, Stopped, Accepted, NoBuild)
"""After one of these nothing more happens, unless it is undone."""
