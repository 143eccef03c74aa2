"""What a check says of a helmet on a head, as data: which sign was looked at, how it came out."""

from dataclasses import dataclass
from enum import IntEnum, StrEnum

from helmwright.catalogue.zone import Zone
from helmwright.fit.outlook import Build


class Sign(StrEnum):
    """What of a helmet at rest a check looks at; each has its own model of how it is answered."""

    PUT_ON = "put on"
    BROW = "brow height"
    ZONE = "zone"
    EARS = "ear openings"
    TURN = "turn"
    NOD = "nod"
    HOT_SPOT = "hot spot"
    NOSE = "nose distance"
    SIGHT = "sight"
    PLAIN = "plain"
    """Says nothing of head or pads: a buckle, a label."""


OF_A_ZONE = frozenset({Sign.ZONE, Sign.HOT_SPOT})
"""Signs that belong to one zone."""


class Grade(IntEnum):
    """An ordered finding."""

    UNDER = -1
    """Loose, too low, too near, slides: less than is right."""

    RIGHT = 0

    OVER = 1
    """Tight, too high, too far, a hot spot: more than is right."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One answer to one check.

    Parameters
    ----------
    sign
        What was looked at.
    grade
        How it came out.
    zone
        Where, for the signs of `OF_A_ZONE`; None for the others.
    value_mm
        What a rule or fingers read, where the check reads a length [mm].
    """

    sign: Sign
    grade: Grade
    zone: Zone | None = None
    value_mm: float | None = None

    def __post_init__(self) -> None:
        """Refuse a finding at no zone, or a zone where there is none."""
        if (self.zone is not None) != (self.sign in OF_A_ZONE):
            raise ValueError(f"a finding on {self.sign} needs a zone where, and only where, it has")
        if self.value_mm is not None and not 0.0 <= self.value_mm <= 400.0:
            raise ValueError(f"a read length of {self.value_mm} mm must lie from 0 to 400 mm")


@dataclass(frozen=True, slots=True)
class Tried:
    """A build that was on the head, and everything found on it, repeats included."""

    build: Build
    findings: tuple[Finding, ...]
