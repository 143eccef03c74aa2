"""The head estimate: belief over all measures, given the readings."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Unpack

import numpy as np
import numpy.typing as npt

from helmwright.anatomy.covering import (
    LAYER_NAMES,
    Over,
    Touch,
    firm_name,
    loose_name,
    weights_over,
    with_coverings,
)
from helmwright.anatomy.growth import grown_name, with_growth
from helmwright.anatomy.head_prior import head_prior
from helmwright.anatomy.measures import MEASURE_KEYS, measure_of
from helmwright.anatomy.part import age_of, sex_of
from helmwright.anatomy.prior import Stated
from helmwright.anatomy.reading import Combined, Reading, combined
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
    layers
        Thicknesses of the coverings drawn with the heads [mm], shape `(n,)` each, by their names
        in the belief.
    """

    values: Floats
    layers: Mapping[str, Floats] = field(default_factory=lambda: MappingProxyType({}))

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

    def firm(self, kind: Over) -> Floats:
        """Thickness of a covering under a drawn-in tape [mm], shape `(n,)`; 0 where unknown."""
        return self.layers.get(firm_name(kind), np.zeros(len(self)))

    def loose(self, kind: Over) -> Floats:
        """What a light tape rides on beyond that [mm], shape `(n,)`; 0 where unknown."""
        return self.layers.get(loose_name(kind), np.zeros(len(self)))


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
    whole
        The belief with the thicknesses of the coverings beside the measures; None where there is
        none.
    said_worn
        What was said to be worn under the helmet; None where nobody said.
    """

    prior: Mixture
    readings: tuple[Reading, ...]
    belief: Mixture
    stated: Stated | None = None
    whole: Mixture | None = None
    said_worn: tuple[Over, ...] | None = None

    @property
    def worn(self) -> tuple[Over, ...]:
        """What will be worn under the helmet, hair before headwear; empty for a bare head."""
        worn = worn_by(self.readings, self.said_worn)
        return tuple(kind for kind in worn if kind is not Over.BARE)

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
    def likeliest(self) -> str:
        """Label of the likeliest part: a sex and maybe an age."""
        return self.belief.labels[int(np.argmax(self.belief.weights))]

    @property
    def read(self) -> tuple[str, ...]:
        """Keys of the measures that were read, in the order of MEASURES."""
        keys = {reading.measure for reading in self.readings}
        return tuple(key for key in MEASURE_KEYS if key in keys)

    @property
    def is_sized(self) -> bool:
        """Whether the size of the head was read at all, by tape or by length and breadth."""
        return "tape_circumference" in self.read or {"head_length", "head_breadth"} <= {*self.read}

    def mean_of(self, measure: str) -> float:
        """Mean of one measure [mm]."""
        return float(self.mean[MEASURE_KEYS.index(measure_of(measure).key)])

    def sd_of(self, measure: str) -> float:
        """Standard deviation of one measure [mm]."""
        return float(self.sd[MEASURE_KEYS.index(measure_of(measure).key)])

    def interval(self, measure: str, level: float = 0.9) -> tuple[float, float]:
        """Central interval [mm] that holds one measure with the chance `level`."""
        return self.belief.interval(measure_of(measure).key, level)

    @property
    def middle(self) -> HeadDraws:
        """One head, with every measure and every covering at its mean."""
        if self.whole is None:
            return HeadDraws(self.mean[None, :])
        return _split(self.whole.mean[None, :], self.whole)

    def thickness(self, kind: Over) -> tuple[float, float]:
        """Mean and SD of a covering's firm thickness [mm]; 0 and 0 where it is not there."""
        whole, name = self.whole, firm_name(kind)
        if whole is None or name not in whole.names:
            return 0.0, 0.0
        one = whole.marginal([name])
        return float(one.mean[0]), float(np.sqrt(one.covariance[0, 0]))

    def draw(self, count: int, rng: np.random.Generator) -> HeadDraws:
        """Heads drawn from the belief, each with the coverings that go with it.

        The coverings come from a generator of their own: what is said of hair does not deal out
        other heads.
        """
        values, part_of = self.belief.draw_by_part(count, rng)
        if self.whole is None:
            return HeadDraws(values)
        layers = self.whole.completed(values, part_of, rng.spawn(1)[0])
        return _split(np.column_stack([values, layers]), self.whole)

    @property
    def drawn_from(self) -> Mixture:
        """The belief that heads are placed in: over the measures, and the coverings if any."""
        return self.belief if self.whole is None else self.whole

    def placed(self, standard: Floats, part_of: npt.NDArray[np.intp]) -> HeadDraws:
        """Heads made of standard normal numbers.

        Parameters
        ----------
        standard
            Shape (n, d), d being the quantities of `drawn_from`.
        part_of
            Which of its parts each head is of, shape (n,).
        """
        return _split(self.drawn_from.placed(standard, part_of), self.drawn_from)

    def given(self, reading: Reading) -> "HeadEstimate":
        """The estimate after one more reading; a repeat is combined with those before it."""
        after = estimate_from(self.prior, (*self.readings, reading), self.said_worn)
        return replace(after, stated=self.stated)

    def by_survey(self, survey: str) -> "HeadEstimate | None":
        """The estimate from the same readings by one survey alone; None where none can be made."""
        if self.stated is None:
            return None
        stated: Stated = {**self.stated, "survey": survey}
        return estimate_head(self.readings, worn=self.said_worn, **stated)

    def under(self, prior: Mixture) -> "HeadEstimate":
        """The estimate from the same readings under another prior."""
        return estimate_from(prior, self.readings, self.said_worn)


def _split(values: Floats, whole: Mixture) -> HeadDraws:
    """Draws of a belief over measures and coverings, parted into the two."""
    known = len(MEASURE_KEYS)
    layers = {name: values[:, known + place] for place, name in enumerate(whole.names[known:])}
    return HeadDraws(values[:, :known], MappingProxyType(layers))


def estimate_head(
    readings: Sequence[Reading],
    *,
    worn: Iterable[Over] | None = None,
    **stated: Unpack[Stated],
) -> HeadEstimate:
    """Belief over all ten measures given the readings of one head.

    Parameters
    ----------
    readings
        Any number, none included; repeats of a measure are combined.
    worn
        What will be worn under the helmet; what the readings were taken over where None.
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
    return replace(estimate_from(head_prior(**stated), readings, worn), stated=stated)


def estimate_from(
    prior: Mixture, readings: Sequence[Reading], worn: Iterable[Over] | None = None
) -> HeadEstimate:
    """Belief over all ten measures from any prior over them.

    Notes
    -----
    Whatever lies between head and tape is a further unknown, a firm and a loose thickness for each
    kind of covering, each with its own mean and spread; a reading over it sees
    `measure + k firm` (`+ k loose` under a light tape), k being the measure's count of layers (2 pi
    around, 2 across, 1 up). It is inferred with the head, so that the two stay joined in the
    draws, and left out of the measures: hair is not read as shape.
    """
    for reading in readings:
        _refuse_implausible(reading)
    groups = combined(readings)
    said = None if worn is None else tuple(worn)
    wide = with_layers(prior, groups, worn_by(readings, said))
    whole = wide.given([observation_of(group, wide) for group in groups])
    layers = tuple(name for name in whole.names if name in LAYER_NAMES)
    kept = whole.marginal((*MEASURE_KEYS, *layers)) if layers else None
    belief = whole.marginal(MEASURE_KEYS)
    return HeadEstimate(prior, tuple(readings), belief, whole=kept, said_worn=said)


def worn_by(readings: Sequence[Reading], said: Iterable[Over] | None = None) -> tuple[Over, ...]:
    """What is worn under the helmet, hair before headwear.

    Parameters
    ----------
    readings
        Everything that one was taken over is worn where nobody says more; a reading over hair that
        was named, or over a bare head, speaks for the others.
    said
        What was said to be worn. Under headwear stays the hair of which nobody spoke.
    """
    over = {k for each in readings if measure_of(each.measure).layer for k in each.kinds}
    over -= {Over.UNSTATED}
    worn = over if said is None else set(said)
    if all(kind.is_headwear for kind in over | worn) and (worn or said is None):
        worn = worn | {Over.UNSTATED}
    return tuple(kind for kind in Over if kind in worn)


def with_layers(prior: Mixture, groups: Sequence[Combined], worn: Iterable[Over] = ()) -> Mixture:
    """The prior with what old readings have grown by, and every covering taped over or worn."""
    prior = with_growth(prior, groups)
    over = [(kind, group) for group in groups for kind in group.kinds]
    seen = {kind for kind, group in over if weights_over(group.measure, (kind,), group.touch)}
    light = {kind for kind, group in over if group.touch is Touch.LIGHT and kind in seen}
    return with_coverings(prior, frozenset(seen) | frozenset(worn), frozenset(light))


def observation_of(group: Combined, wide: Mixture) -> Observation:
    """What the combined readings of a measure say, as a linear observation under `wide`.

    A covering of which `wide` holds no thickness has none there: hair of which a man said nothing.
    """
    layers = weights_over(group.measure, group.kinds, group.touch)
    held = {name: weight for name, weight in layers.items() if name in wide.names}
    if group.months_ago > 0.0:
        held[grown_name(group)] = -1.0
    return Observation(
        {group.measure: 1.0, **held}, group.value_mm, group.variance_mm2, group.measure
    )


def _refuse_implausible(reading: Reading) -> None:
    measure = measure_of(reading.measure)
    if not measure.is_plausible(reading.value_mm):
        raise ImplausibleReadingError(
            f"{measure.name} {reading.value_mm:.0f} mm is outside {measure.low_mm:.0f} to "
            f"{measure.high_mm:.0f} mm: measure again"
        )
