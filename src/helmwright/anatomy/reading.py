"""One number off a tape or caliper, and how repeats of it combine."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import isfinite, sqrt
from statistics import fmean

from helmwright.anatomy.measures import measure_of
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

TWO_SIDED_95 = 1.959963984540054
"""Standard normal quantile that clean pairs exceed one time in twenty, either way."""


LONGEST_AGO = 600.0
"""Readings are not older than this [months]."""


class Over(StrEnum):
    """What a reading was taken over."""

    BARE = "bare"
    THICK_HAIR = "thick hair"
    CAP = "cap"


LAYER: dict[Over, Figure] = {
    Over.THICK_HAIR: Figure(
        1.5, "mm", ASSUMED, spread=1.0, note="Hair left under a tape drawn in until it gives out."
    ),
    Over.CAP: Figure(1.0, "mm", ASSUMED, spread=0.5, note="A thin cap worn under the helmet."),
}
"""Thickness between the head and the tape [mm], for everything but a bare head."""


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

    Raises
    ------
    UnknownMeasureError
        If there is no such measure.
    ValueError
        If the value is no length, or `over` is none of the words.
    """

    measure: str
    value_mm: float
    over: Over = Over.BARE
    months_ago: float = 0.0

    def __post_init__(self) -> None:
        """Check measure, value and covering."""
        name = measure_of(self.measure).name
        if not (isfinite(self.value_mm) and self.value_mm > 0.0):
            raise ValueError(f"{name}: a reading must be more than 0 mm, got {self.value_mm}")
        if not 0.0 <= self.months_ago <= LONGEST_AGO:
            raise ValueError(
                f"{name}: read {self.months_ago:g} months ago; it must be 0 to {LONGEST_AGO:g}"
            )
        object.__setattr__(self, "over", Over(self.over))


@dataclass(frozen=True, slots=True)
class Combined:
    """All the readings of one measure over one covering at one time, as one value with its error.

    Parameters
    ----------
    measure, over
        What was read, and over what.
    value_mm
        Mean of the readings [mm].
    variance_mm2
        Error variance of the mean [mm2].
    count
        How many readings.
    apart_mm
        Largest less smallest [mm].
    months_ago
        How long ago they were taken [months].
    """

    measure: str
    over: Over
    value_mm: float
    variance_mm2: float
    count: int
    apart_mm: float
    months_ago: float = 0.0

    @property
    def wants_third(self) -> bool:
        """Whether two readings lie further apart than clean ones should."""
        return self.count == 2 and self.apart_mm > repeat_limit(self.measure)


def repeat_limit(measure: str) -> float:
    """Difference of two readings [mm] past which a third is asked for.

    Notes
    -----
    Two clean readings differ with SD `sqrt(2) TEM`, so the limit `1.96 sqrt(2) TEM` is exceeded
    by one clean pair in twenty.

    References
    ----------
    Gupta and Zakaria 2014, page 34, for the technical error of measurement (TEM).
    """
    return TWO_SIDED_95 * sqrt(2.0) * measure_of(measure).reading_error.value


def error_variance(measure: str, count: int) -> float:
    """Error variance [mm2] of the mean of `count` readings by one person.

    Notes
    -----
    `TEM^2 / n + bias^2`: repeats average the reading error away, not the person's own bias.
    """
    known = measure_of(measure)
    return known.reading_error.value**2 / count + known.bias.value**2


def combined(readings: Sequence[Reading]) -> tuple[Combined, ...]:
    """Readings put together by measure, covering and time, in the order first met."""
    groups: dict[tuple[str, Over, float], list[float]] = {}
    for reading in readings:
        key = (reading.measure, reading.over, reading.months_ago)
        groups.setdefault(key, []).append(reading.value_mm)
    return tuple(
        Combined(
            measure,
            over,
            fmean(values),
            error_variance(measure, len(values)),
            len(values),
            max(values) - min(values),
            months_ago,
        )
        for (measure, over, months_ago), values in groups.items()
    )


def technical_error(pairs: Sequence[tuple[float, float]]) -> float:
    """Technical error of measurement of pairs of readings of the same people, in their unit.

    Raises
    ------
    ValueError
        If there is no pair.

    Notes
    -----
    `TEM = sqrt(sum d^2 / 2 N)`: the square root of the variance of one reading's random error.

    References
    ----------
    Gupta and Zakaria 2014, page 34.
    """
    if not pairs:
        raise ValueError("the technical error of measurement needs at least one pair of readings")
    return sqrt(sum((first - second) ** 2 for first, second in pairs) / (2.0 * len(pairs)))
