"""How well one person measures: the technical error that his own repeats tell."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import sqrt
from statistics import fmean

from scipy.special import chdtrc, chdtri

from helmwright.anatomy.covering import Over, Touch
from helmwright.anatomy.measures import measure_of
from helmwright.anatomy.reading import (
    TWO_SIDED_95,
    Combined,
    Reading,
    combined,
    repeat_squares,
)
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

USUAL_WORTH = Figure(
    12.0, "1", ASSUMED, note="How many pairs the usual technical error counts for beside one's own."
)
RARE = Figure(
    0.05,
    "1",
    ASSUMED,
    note="Chance, of a measurer with the usual error, below which repeats count as past the usual.",
)
LEAST_SHARED = 5
"""People whom two must both have measured before one is held against the other (assumed)."""

Takers = Mapping[tuple[str, str], float]


@dataclass(frozen=True, slots=True)
class MeasurerError:
    """One person's error in one measure.

    Parameters
    ----------
    by, measure
        Who, and which measure.
    pairs
        Repeats beyond the first, over all people [1].
    squares_mm2
        Sum of squared deviations of the repeats from each person's mean [mm2].
    """

    by: str
    measure: str
    pairs: int
    squares_mm2: float

    def __post_init__(self) -> None:
        """Refuse an error that rests on nothing."""
        if self.pairs < 1 or self.squares_mm2 < 0.0:
            raise ValueError(f"{self.by}: an error needs at least one repeat, got {self.pairs}")

    @property
    def own_mm(self) -> float:
        """Technical error by this person's repeats alone [mm]."""
        return sqrt(self.squares_mm2 / self.pairs)

    @property
    def usual_mm(self) -> float:
        """The measure's usual technical error [mm]."""
        return measure_of(self.measure).reading_error.value

    @property
    def used_mm(self) -> float:
        """Technical error that the estimate uses for this person [mm].

        Notes
        -----
        The error variance has a scaled inverse chi-square distribution, conjugate to normal
        errors: before, nu0 = USUAL_WORTH degrees of freedom and the usual TEM^2 as its scale;
        after n repeats, nu0 + n degrees and the scale (nu0 TEM^2 + SS) / (nu0 + n), which is what
        is used.

        References
        ----------
        Gelman and others, Bayesian Data Analysis, chapter 2 (from memory).
        """
        worth = USUAL_WORTH.value
        whole = worth * self.usual_mm**2 + self.squares_mm2
        return sqrt(whole / (worth + self.pairs))

    @property
    def interval_mm(self) -> tuple[float, float]:
        """Central 90 percent of that person's technical error [mm]."""
        freedom = USUAL_WORTH.value + self.pairs
        low, high = (sqrt(freedom / float(chdtri(freedom, tail))) for tail in (0.05, 0.95))
        return self.used_mm * low, self.used_mm * high

    @property
    def is_past_usual(self) -> bool:
        """Whether repeats so far apart are rare for somebody with the usual error."""
        return float(chdtrc(self.pairs, self.squares_mm2 / self.usual_mm**2)) < RARE.value


@dataclass(frozen=True, slots=True)
class MeasurerGap:
    """What one person reads more than another on the same people.

    Parameters
    ----------
    by, other, measure
        Who reads more than whom, and which measure.
    people
        Whom both measured.
    gap_mm
        Mean difference [mm].
    error_mm
        Its standard error, by the technical errors of both [mm].
    """

    by: str
    other: str
    measure: str
    people: int
    gap_mm: float
    error_mm: float

    @property
    def is_clear(self) -> bool:
        """Whether the reading errors alone would make such a gap less than one time in twenty."""
        return self.gap_mm > TWO_SIDED_95 * self.error_mm


def measurer_errors(heads: Iterable[Sequence[Reading]]) -> tuple[MeasurerError, ...]:
    """The error of each person who measures, by measure, from the repeats on each head.

    Parameters
    ----------
    heads
        The readings of each person who was measured. Readings of nobody's are left out, and so is
        one that was set aside.

    Returns
    -------
    Only where there are repeats, in the order first met.
    """
    repeats: dict[tuple[str, str], list[list[float]]] = {}
    for readings in heads:
        for (by, measure), values in _repeated(readings):
            repeats.setdefault((by, measure), []).append(values)
    found = []
    for (by, measure), each in repeats.items():
        squares, pairs = repeat_squares(each)
        if pairs:
            found.append(MeasurerError(by, measure, pairs, squares))
    return tuple(found)


def _repeated(readings: Sequence[Reading]) -> Iterable[tuple[tuple[str, str], list[float]]]:
    for group in combined([reading for reading in readings if reading.by]):
        values = [reading.value_mm for reading in readings if reading.alike == group.alike]
        if group.set_aside_mm is not None:
            values.remove(group.set_aside_mm)
        yield (group.by, group.measure), values


def measurer_gaps(
    heads: Iterable[Sequence[Reading]], errors: Takers | None = None
) -> tuple[MeasurerGap, ...]:
    """What two people read apart on the same heads, where enough were measured by both.

    Parameters
    ----------
    heads
        The readings of each person who was measured.
    errors
        Technical errors [mm] by person and measure; the measure's own where there is none.
    """
    pairs: dict[tuple[str, str, str], list[tuple[float, float]]] = {}
    for readings in heads:
        groups = [group for group in combined(readings) if group.by]
        for one, two in combinations(sorted(groups, key=lambda each: each.by), 2):
            if _but_for_the_person(one) == _but_for_the_person(two):
                variance = sum(
                    _variance(each.by, each.measure, each.count, errors or {})
                    for each in (one, two)
                )
                key = (one.by, two.by, one.measure)
                pairs.setdefault(key, []).append((one.value_mm - two.value_mm, variance))
    gaps = (_gap(key, each) for key, each in pairs.items() if len(each) >= LEAST_SHARED)
    return tuple(gaps)


def _but_for_the_person(group: Combined) -> tuple[str, tuple[Over, ...], Touch, float]:
    """What two people's readings must share to be held against each other."""
    return group.measure, group.kinds, group.touch, group.months_ago


def _variance(by: str, measure: str, count: int, errors: Takers) -> float:
    usual = measure_of(measure).reading_error.value
    return errors.get((by, measure), usual) ** 2 / count


def _gap(key: tuple[str, str, str], pairs: Sequence[tuple[float, float]]) -> MeasurerGap:
    first, second, measure = key
    mean = fmean(difference for difference, _ in pairs)
    error = sqrt(sum(variance for _, variance in pairs)) / len(pairs)
    by, other = (first, second) if mean >= 0.0 else (second, first)
    return MeasurerGap(by, other, measure, len(pairs), abs(mean), error)
