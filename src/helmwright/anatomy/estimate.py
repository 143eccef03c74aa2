"""The head estimate: belief over all measures, given the readings."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Unpack

import numpy as np

from helmwright.anatomy.growth import grown_name, with_growth
from helmwright.anatomy.head_prior import head_prior
from helmwright.anatomy.measures import MEASURE_KEYS, measure_of
from helmwright.anatomy.part import age_of, sex_of
from helmwright.anatomy.prior import Stated
from helmwright.anatomy.reading import LAYER, Combined, Over, Reading, combined
from helmwright.anatomy.sex import Sex
from helmwright.belief import Mixture, Observation
from helmwright.belief.normal import Floats


class ImplausibleReadingError(ValueError):
    """A reading can be that measure of nobody."""


@dataclass(frozen=True, eq=False)
class HeadDraws:
    """Heads drawn from an estimate.

    Parameters
    ----------
    values
        The measures of each head [mm], shape `(n, 10)`, columns in the order of MEASURES.
    """

    values: Floats

    def __post_init__(self) -> None:
        """Check the shape and freeze the numbers."""
        values = np.array(self.values, dtype=np.float64)
        if values.ndim != 2 or values.shape[1] != len(MEASURE_KEYS):
            raise ValueError(f"draws need the shape (n, {len(MEASURE_KEYS)}), got {values.shape}")
        values.setflags(write=False)
        object.__setattr__(self, "values", values)

    def __len__(self) -> int:
        return int(self.values.shape[0])

    def of(self, measure: str) -> Floats:
        """One measure of each head [mm], shape `(n,)`."""
        return np.asarray(self.values[:, MEASURE_KEYS.index(measure_of(measure).key)])


@dataclass(frozen=True, eq=False)
class HeadEstimate:
    """Belief over the ten measures of one head.

    Parameters
    ----------
    prior
        What was believed before any reading.
    readings
        Everything that was read.
    belief
        What is believed now.
    stated
        What the prior was made from; None where it came from elsewhere.
    """

    prior: Mixture
    readings: tuple[Reading, ...]
    belief: Mixture
    stated: Stated | None = None

    @property
    def mean(self) -> Floats:
        """Means [mm], shape `(10,)`, in the order of MEASURES."""
        return self.belief.mean

    @property
    def covariance(self) -> Floats:
        """Covariances [mm2], shape `(10, 10)`."""
        return self.belief.covariance

    @property
    def sd(self) -> Floats:
        """Standard deviations [mm], shape `(10,)`."""
        return np.sqrt(np.diag(self.covariance))

    @property
    def male_chance(self) -> float:
        """Chance that the head is a male's [1]."""
        return self.belief.weight_where(lambda label: sex_of(label) is Sex.MALE)

    @property
    def age_chances(self) -> dict[int, float]:
        """Chance of each completed year of age [1]; empty for an adult of no stated age."""
        chances: dict[int, float] = {}
        for weight, label in zip(self.belief.weights, self.belief.labels, strict=True):
            age = age_of(label)
            if age is not None:
                chances[int(age)] = chances.get(int(age), 0.0) + float(weight)
        return dict(sorted(chances.items()))

    @property
    def read(self) -> tuple[str, ...]:
        """Keys of the measures that were read, in the order of MEASURES."""
        keys = {reading.measure for reading in self.readings}
        return tuple(key for key in MEASURE_KEYS if key in keys)

    def mean_of(self, measure: str) -> float:
        """Mean of one measure [mm]."""
        return float(self.mean[MEASURE_KEYS.index(measure_of(measure).key)])

    def sd_of(self, measure: str) -> float:
        """Standard deviation of one measure [mm]."""
        return float(self.sd[MEASURE_KEYS.index(measure_of(measure).key)])

    def interval(self, measure: str, level: float = 0.9) -> tuple[float, float]:
        """Central interval [mm] that holds one measure with the chance `level`."""
        return self.belief.interval(measure_of(measure).key, level)

    def draw(self, count: int, rng: np.random.Generator) -> HeadDraws:
        """Heads drawn from the belief."""
        return HeadDraws(self.belief.draw(count, rng))

    def given(self, reading: Reading) -> "HeadEstimate":
        """The estimate after one more reading; a repeat is combined with those before it."""
        return replace(estimate_from(self.prior, (*self.readings, reading)), stated=self.stated)

    def by_survey(self, survey: str) -> "HeadEstimate | None":
        """The estimate from the same readings by one survey alone; None where none can be made."""
        if self.stated is None:
            return None
        stated: Stated = {**self.stated, "survey": survey}
        return estimate_head(self.readings, **stated)


def estimate_head(readings: Sequence[Reading], **stated: Unpack[Stated]) -> HeadEstimate:
    """Belief over all ten measures given the readings of one head.

    Parameters
    ----------
    readings
        Any number, none included; repeats of a measure are combined.
    **stated
        Sex, stature_mm, weight_kg, age_years, ages, male_share, survey; see `head_prior`. With
        no age stated the head is an adult's.

    Raises
    ------
    ImplausibleReadingError
        If a reading can be that measure of nobody; `check_readings` says more about it.
    CovariateError
        If stature or weight is not plausible.
    AgeError
        If an age is outside 8 to 90 years.

    Examples
    --------
    >>> head = estimate_head([Reading("tape_circumference", 575.0)], sex=Sex.MALE)
    >>> 575.0 < head.mean_of("head_circumference") < 582.0
    True
    """
    return replace(estimate_from(head_prior(**stated), readings), stated=stated)


def estimate_from(prior: Mixture, readings: Sequence[Reading]) -> HeadEstimate:
    """Belief over all ten measures from any prior over them.

    Notes
    -----
    Whatever lies between head and tape is a further unknown, one for each kind of covering, with
    its own mean and spread; a reading over it sees `measure + k thickness`, k being the measure's
    count of layers (2 pi around, 2 across, 1 up). It is inferred with the head and then left out:
    hair is not read as shape.
    """
    for reading in readings:
        _refuse_implausible(reading)
    groups = combined(readings)
    wide = with_layers(prior, groups)
    belief = wide.given([observation_of(group) for group in groups]).marginal(MEASURE_KEYS)
    return HeadEstimate(prior, tuple(readings), belief)


def with_layers(prior: Mixture, groups: Sequence[Combined]) -> Mixture:
    """The prior with the growth since old readings, and the covering that each was taken over."""
    prior = with_growth(prior, groups)
    for over in Over:
        if over in LAYER and any(group.over is over for group in groups):
            layer = LAYER[over]
            variance = (layer.spread or 0.0) ** 2
            prior = prior.extended(over.value, {}, offset=layer.value, variance=variance)
    return prior


def observation_of(group: Combined) -> Observation:
    """What the combined readings of a measure say, as a linear observation."""
    weights = {group.measure: 1.0}
    layers = measure_of(group.measure).layer
    if group.over in LAYER and layers:
        weights[group.over.value] = layers
    if group.months_ago > 0.0:
        weights[grown_name(group)] = -1.0
    return Observation(weights, group.value_mm, group.variance_mm2, group.measure)


def _refuse_implausible(reading: Reading) -> None:
    measure = measure_of(reading.measure)
    if not measure.is_plausible(reading.value_mm):
        raise ImplausibleReadingError(
            f"{measure.name} {reading.value_mm:.0f} mm is outside {measure.low_mm:.0f} to "
            f"{measure.high_mm:.0f} mm: measure again"
        )
