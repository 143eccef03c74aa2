"""Which checks are looked at again before anything is changed or accepted."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from statistics import median

from helmwright.fit.finding import Grade, Sign
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from helmwright.visit.check import Check
from helmwright.visit.event import Answered

LOOK_AGAIN = Figure(
    0.25,
    "1",
    ASSUMED,
    note="chance of being right, all answers heard, from which a bad answer is asked again",
)
LEAST_DOUBT = Figure(
    0.02,
    "1",
    ASSUMED,
    note="chance of being wrong below which no good answer is asked again before going on",
)
LOOKS_AT_MOST = 3

CURED_BY_A_BUILD = frozenset(
    {Sign.PUT_ON, Sign.BROW, Sign.ZONE, Sign.EARS, Sign.TURN, Sign.NOD, Sign.HOT_SPOT}
)
"""Signs that another shell or other pads can cure; a strap, a guard or a label they cannot."""


class Looks(StrEnum):
    """When a second look is taken."""

    NONE = "none"
    """Never: the first answer stands."""

    BAD_ONES = "bad ones"
    """Every bad answer is asked twice more; the middle one stands."""

    SURPRISE = "surprise"
    """A bad answer that the belief doubts, and the most doubtful good one before going on."""


@dataclass(frozen=True, slots=True)
class Looked:
    """One check at one try-on: what was answered, in order.

    Parameters
    ----------
    check
        Which.
    answers
        Its answers; empty where it was not asked yet.
    """

    check: Check
    answers: tuple[Answered, ...] = ()

    @property
    def grades(self) -> tuple[Grade, ...]:
        """How each look came out."""
        return tuple(grade_of(self.check, given) for given in self.answers)

    @property
    def verdict(self) -> Grade | None:
        """What stands; None where nothing does yet.

        Where a bad answer is put right on the spot, the last answer; else the middle one of the
        last three (of the read lengths, where all have one). Two that disagree leave it open.
        """
        grades = self.grades
        if not grades or is_spot_cured(self.check):
            return grades[-1] if grades else None
        if len(grades) == 2:
            return grades[0] if grades[0] is grades[1] else None
        lengths = [given.value_mm for given in self.answers[-LOOKS_AT_MOST:]]
        if self.check.length is not None and None not in lengths:
            return self.check.length.grade(median(each for each in lengths if each is not None))
        return Grade(sorted(grades[-LOOKS_AT_MOST:])[len(grades[-LOOKS_AT_MOST:]) // 2])

    @property
    def disagrees(self) -> bool:
        """Whether two answers differ and no third decides."""
        return len(self.answers) == 2 and self.verdict is None

    @property
    def failures(self) -> int:
        """How many answers were bad."""
        return sum(grade is not Grade.RIGHT for grade in self.grades)


def is_spot_cured(check: Check) -> bool:
    """Whether a bad answer is put right on the spot: told so, or no build could cure it."""
    return bool(check.put_right) or check.sign not in CURED_BY_A_BUILD


def grade_of(check: Check, given: Answered) -> Grade:
    """How one answer came out; a read length decides where there is one."""
    if given.value_mm is not None and check.length is not None:
        return check.length.grade(given.value_mm)
    return check.answer(given.word).grade


def worth_another(
    first: Mapping[str, Grade], right: Mapping[str, float], looks: Looks
) -> tuple[str, ...]:
    """Checks whose bad answer is asked again before anything is changed.

    Parameters
    ----------
    first
        How the first look at each check came out, by the check's key.
    right
        Chance that each is truly right, after everything that was heard [1]; needed for SURPRISE.
    looks
        When a second look is taken.
    """
    bad = [key for key, grade in first.items() if grade is not Grade.RIGHT]
    if looks is Looks.NONE:
        return ()
    if looks is Looks.BAD_ONES:
        return tuple(bad)
    return tuple(key for key in bad if right.get(key, 0.0) >= LOOK_AGAIN.value)


def most_doubtful(good: Mapping[str, float]) -> str | None:
    """The check found right that is likeliest wrong in truth; None where none is in doubt.

    Parameters
    ----------
    good
        Chance that each check found right at its only look is truly right [1].
    """
    key = min(good, key=lambda each: good[each], default=None)
    return key if key is not None and good[key] <= 1.0 - LEAST_DOUBT.value else None
