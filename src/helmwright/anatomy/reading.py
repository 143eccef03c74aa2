"""One number off a tape or caliper, and how repeats of it combine."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import isfinite, sqrt
from statistics import fmean

from helmwright.anatomy.covering import Over, Touch
from helmwright.anatomy.measures import measure_of

TWO_SIDED_95 = 1.959963984540054
"""Standard normal quantile that clean pairs exceed one time in twenty, either way."""

LONGEST_AGO = 600.0
"""Readings are not older than this [months]."""

Alike = tuple[str, tuple[Over, ...], Touch, str, float]
"""What readings share that are repeats of one another."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One number off a tape or caliper.

    Parameters
    ----------
    measure
        Key of the measure.
    value_mm
        What was read [mm].
    over
        What it was taken over; the words of `Over` will do.
    months_ago
        How long ago it was taken [months]; heads that still grow have grown since.
    beneath
        Hair under the headwear that it was taken over, where somebody said so.
    touch
        How firmly a tape was drawn; the words of `Touch` will do.
    by
        Who took it, as written; empty where nobody said.
    tem_mm
        Technical error of that person in this measure, where it is known better than the
        measure's own [mm].

    Raises
    ------
    UnknownMeasureError
        If there is no such measure.
    ValueError
        If the value is no length, or `over`, `beneath` or `touch` is none of the words.
    """

    measure: str
    value_mm: float
    over: Over = Over.UNSTATED
    months_ago: float = 0.0
    beneath: Over | None = None
    touch: Touch = Touch.DRAWN_IN
    by: str = ""
    tem_mm: float | None = None

    def __post_init__(self) -> None:
        """Check measure, value and covering."""
        name = measure_of(self.measure).name
        if not (isfinite(self.value_mm) and self.value_mm > 0.0):
            raise ValueError(f"{name}: a reading must be more than 0 mm, got {self.value_mm}")
        if not 0.0 <= self.months_ago <= LONGEST_AGO:
            raise ValueError(
                f"{name}: read {self.months_ago:g} months ago; it must be 0 to {LONGEST_AGO:g}"
            )
        if self.tem_mm is not None and not self.tem_mm > 0.0:
            raise ValueError(f"{name}: a person's error must be more than 0 mm, got {self.tem_mm}")
        object.__setattr__(self, "over", Over(self.over))
        object.__setattr__(self, "touch", Touch(self.touch))
        if self.beneath is not None:
            object.__setattr__(self, "beneath", _hair(Over(self.beneath)))

    @property
    def kinds(self) -> tuple[Over, ...]:
        """Everything that it was taken over, hair before headwear."""
        return _layered(self.over, self.beneath)

    @property
    def alike(self) -> Alike:
        """What its repeats share with it."""
        return self.measure, self.kinds, self.touch, self.by, self.months_ago


def _layered(over: Over, beneath: Over | None) -> tuple[Over, ...]:
    """Hair and headwear; under headwear lies some hair, whether or not somebody spoke of it."""
    hair = Over.UNSTATED if beneath is None and over.is_headwear else beneath
    return (over,) if hair is None else (hair, over)


def _hair(kind: Over) -> Over:
    if kind.is_headwear:
        raise ValueError(f"beneath a cap there is hair, not a {kind.value}")
    return kind


@dataclass(frozen=True, slots=True)
class Combined:
    """One person's readings of one measure over one covering at one time, as one value.

    Parameters
    ----------
    measure, over
        What was read, and over what.
    value_mm
        Mean of the readings that agree [mm].
    variance_mm2
        Error variance of the mean [mm2].
    count
        How many readings.
    apart_mm
        Largest less smallest [mm].
    months_ago
        How long ago they were taken [months].
    beneath, touch, by
        As in a reading.
    limit_mm
        Difference of two readings past which a third is asked for [mm].
    set_aside_mm
        A reading that stands apart from others that agree, and is left out of the mean [mm].
    """

    measure: str
    over: Over
    value_mm: float
    variance_mm2: float
    count: int
    apart_mm: float
    months_ago: float = 0.0
    beneath: Over | None = None
    touch: Touch = Touch.DRAWN_IN
    by: str = ""
    limit_mm: float = field(default=float("inf"))
    set_aside_mm: float | None = None

    @property
    def kinds(self) -> tuple[Over, ...]:
        """Everything that the readings were taken over, hair before headwear."""
        return _layered(self.over, self.beneath)

    @property
    def alike(self) -> Alike:
        """What the readings in it share."""
        return self.measure, self.kinds, self.touch, self.by, self.months_ago

    @property
    def wants_third(self) -> bool:
        """Whether two readings lie further apart than clean ones should."""
        return self.count == 2 and self.apart_mm > self.limit_mm


def repeat_limit(measure: str, tem_mm: float | None = None) -> float:
    """Difference of two readings [mm] past which a third is asked for.

    Parameters
    ----------
    measure
        Its key.
    tem_mm
        Technical error of the person who reads [mm]; the measure's own where None.

    Notes
    -----
    Two clean readings differ with SD `sqrt(2) TEM`, so the limit `1.96 sqrt(2) TEM` is exceeded
    by one clean pair in twenty.

    References
    ----------
    Gupta and Zakaria 2014, page 34, for the technical error of measurement (TEM).
    """
    return TWO_SIDED_95 * sqrt(2.0) * _error(measure, tem_mm)


def error_variance(measure: str, count: int, tem_mm: float | None = None) -> float:
    """Error variance [mm2] of the mean of `count` readings by one person.

    Notes
    -----
    `TEM^2 / n + bias^2`: repeats average the reading error away, not the person's own bias.
    """
    return _error(measure, tem_mm) ** 2 / count + measure_of(measure).bias.value ** 2


def _error(measure: str, tem_mm: float | None) -> float:
    return measure_of(measure).reading_error.value if tem_mm is None else tem_mm


def combined(readings: Sequence[Reading]) -> tuple[Combined, ...]:
    """Readings put together by measure, covering, touch, person and time, as first met.

    Notes
    -----
    Every reading goes into the mean, with one exception, which is told and never silent: of three
    or more, one that stands further than the limit from all the others, while these agree within
    it, is set aside.
    """
    groups: dict[Alike, list[Reading]] = {}
    for reading in readings:
        groups.setdefault(reading.alike, []).append(reading)
    return tuple(_combined(group) for group in groups.values())


def _combined(group: Sequence[Reading]) -> Combined:
    first, values = group[0], [reading.value_mm for reading in group]
    limit = repeat_limit(first.measure, first.tem_mm)
    odd = stands_apart(values, limit)
    kept = list(values)
    if odd is not None:
        kept.remove(odd)
    return Combined(
        first.measure,
        first.over,
        fmean(kept),
        error_variance(first.measure, len(kept), first.tem_mm),
        len(values),
        max(values) - min(values),
        first.months_ago,
        first.beneath,
        first.touch,
        first.by,
        limit,
        odd,
    )


def stands_apart(values: Sequence[float], limit: float) -> float | None:
    """The one of three or more values that the others, agreeing within the limit, leave alone."""
    ordered = sorted(values)
    if len(ordered) < 3:
        return None
    gaps = [high - low for low, high in pairwise(ordered)]
    if gaps[-1] > limit and ordered[-2] - ordered[0] <= limit:
        return ordered[-1]
    if gaps[0] > limit and ordered[-1] - ordered[1] <= limit:
        return ordered[0]
    return None


def technical_error(repeats: Sequence[Sequence[float]]) -> float:
    """Technical error of measurement of repeated readings of the same people, in their unit.

    Parameters
    ----------
    repeats
        Two or more readings of each person.

    Raises
    ------
    ValueError
        If nobody was read twice.

    Notes
    -----
    `TEM = sqrt(sum over people of (sum x^2 - (sum x)^2 / K) / sum over people of (K - 1))`, K
    readings each: the square root of the variance of one reading's random error. For pairs this
    is `sqrt(sum d^2 / 2 N)`.

    References
    ----------
    Gupta and Zakaria 2014, page 34, for pairs; Ulijaszek and Kerr 1999, for K readings.
    """
    squares, freedom = repeat_squares(repeats)
    if not freedom:
        raise ValueError("the technical error of measurement needs at least one pair of readings")
    return sqrt(squares / freedom)


def repeat_squares(repeats: Sequence[Sequence[float]]) -> tuple[float, int]:
    """Sum of squared deviations from each person's mean, and its degrees of freedom."""
    squares = sum(sum((x - fmean(each)) ** 2 for x in each) for each in repeats if each)
    return float(squares), sum(max(len(each) - 1, 0) for each in repeats)
