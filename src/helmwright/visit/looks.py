"""Which checks are looked at again before anything is changed or accepted."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from statistics import median

from helmwright.fit.finding import Grade, Sign
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from helmwright.visit.check import Check, Part
from helmwright.visit.event import Answered

LOOK_AGAIN = Figure(
    0.1,
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
FURTHER_DOUBT = Figure(
    0.05,
    "1",
    ASSUMED,
    note="the same for every good answer after the first one that was asked again",
)
LOOKS_AT_MOST = 5
"""Looks at one check at one try-on; an odd number, so that one answer is the middle one."""

SETTLED_LOOKS = 3
"""The same for checks that do not decide on the build."""

PLAIN_LOOKS = 3
"""The same where no belief says which answers are in doubt."""

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
        Its answers; empty where it was not asked yet, or not since a part was changed that
        disturbs it.
    disturbed
        That part; None where there was none.
    failed_before
        How many answers were bad before that.
    """

    check: Check
    answers: tuple[Answered, ...] = ()
    disturbed: Part | None = None
    failed_before: int = 0

    @property
    def grades(self) -> tuple[Grade, ...]:
        """How each look came out."""
        return tuple(grade_of(self.check, given) for given in self.answers)

    @property
    def verdict(self) -> Grade | None:
        """What stands; None where nothing does yet.

        Where a bad answer is put right on the spot, the last answer; else the middle one (of the
        read lengths, where all have one). An even number that disagree leave it open.
        """
        grades = self.grades
        if not grades or is_spot_cured(self.check):
            return grades[-1] if grades else None
        if len(grades) % 2 == 0:
            low, high = sorted(grades)[len(grades) // 2 - 1 : len(grades) // 2 + 1]
            return low if low is high else None
        lengths = [given.value_mm for given in self.answers]
        if self.check.length is not None and None not in lengths:
            return self.check.length.grade(median(each for each in lengths if each is not None))
        return Grade(sorted(grades)[len(grades) // 2])

    @property
    def is_doubtable(self) -> bool:
        """Whether it decides on the build, so that a good answer is worth a second look."""
        return self.check.sign in (Sign.ZONE, Sign.BROW)

    @property
    def may_be_doubted(self) -> bool:
        """Whether another look could overturn a bad verdict: not once most looks have agreed."""
        most = LOOKS_AT_MOST if self.is_doubtable else SETTLED_LOOKS
        agreed = self.grades.count(self.verdict) if self.verdict is not None else 0
        return agreed <= most // 2

    @property
    def failures(self) -> int:
        """How many answers at this try-on were bad."""
        return self.failed_before + sum(grade is not Grade.RIGHT for grade in self.grades)


def is_spot_cured(check: Check) -> bool:
    """Whether a bad answer is put right on the spot: told so, or no build could cure it."""
    return bool(check.put_right) or check.sign not in CURED_BY_A_BUILD


def grade_of(check: Check, given: Answered) -> Grade:
    """How one answer came out; a read length decides where there is one."""
    if given.value_mm is not None and check.length is not None:
        return check.length.grade(given.value_mm)
    return check.answer(given.word).grade


def most_surprising(bad: Mapping[str, float]) -> str | None:
    """The check found wrong that is likeliest right in truth; None where none is in doubt.

    Parameters
    ----------
    bad
        Chance that each check found wrong is truly right, after everything that was heard [1].
    """
    key = max(bad, key=lambda each: bad[each], default=None)
    return key if key is not None and bad[key] >= LOOK_AGAIN.value else None


def most_doubtful(good: Mapping[str, float], least: float = LEAST_DOUBT.value) -> str | None:
    """The check found right that is likeliest wrong in truth; None where none is in doubt.

    Parameters
    ----------
    good
        Chance that each check found right at its only look is truly right [1].
    least
        Chance of being wrong below which none is in doubt [1].
    """
    key = min(good, key=lambda each: good[each], default=None)
    return key if key is not None and good[key] <= 1.0 - least else None
