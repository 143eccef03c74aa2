"""Heads from 8 years to adult: the youth surveys, and the way over to the adult ones."""

from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np

from helmwright.anatomy.age import LEAVES_YOUTH, adult_share
from helmwright.anatomy.measures import MEASURE_KEYS
from helmwright.anatomy.prior import CHEEK_TISSUE, TAPE_OFFSET, built, population
from helmwright.anatomy.sex import Sex
from helmwright.anatomy.surveys.smooth import Rising, even_fit, rising_fit
from helmwright.anatomy.surveys.table import BLEND
from helmwright.anatomy.surveys.youth_table import (
    Cells,
    YouthTable,
    reference_circumference,
    youth_table,
)
from helmwright.belief import Normal, blended, joined
from helmwright.belief.normal import Floats
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, SNYDER_1977, UK_1990

YOUTH_EYEBROW_HEIGHT = Figure(
    30.0,
    "mm",
    ASSUMED,
    spread=6.0,
    note=(
        "Eyebrow above the tragions, as in adults. By differences of three readings the bridge of "
        f"the nose of {SNYDER_1977.key} lies 21 to 27 above them at every age from 8 to 17, no "
        "lower in the young."
    ),
)
CARRIED_DOUBT = Figure(
    0.25,
    "1",
    ASSUMED,
    note=(
        "Doubt about a youth's mean that was carried down from adults in proportion, SD as a share "
        "of what it was carried."
    ),
)

YOUTH_SURVEYS = (SNYDER_1977.key, UK_1990.key)
"""Keys of the youth surveys, where one of them is asked for alone."""

CARRIED = ("bigonial_breadth", "bitragion_chin_arc")
"""Measures that no youth survey here has."""

BY = "bizygomatic_breadth"
"""The measure in proportion to which they are carried."""

_GIRTH = "head_circumference"
_APART = ("tragion_to_top", "bizygomatic_breadth")
"""What was not taken of the children whose head length was."""


@dataclass(frozen=True, eq=False)
class _Curve:
    """Mean and standard deviation of one measure by age."""

    mean: Rising
    spread: Floats
    low: float
    high: float

    def sd(self, age_years: float) -> float:
        at = min(max(age_years, self.low), self.high)
        return float(np.polynomial.polynomial.polyval(at, self.spread))


@lru_cache(maxsize=512)
def population_at(sex: Sex, age_years: float, survey: str = BLEND) -> Normal:
    """Belief over the ten measures, stature and weight for one sex at an exact age.

    Parameters
    ----------
    sex
        Whose tables.
    age_years
        Exact age, from 8 on [years].
    survey
        Whose adults, with both youth surveys blended (see `population`); or one of YOUTH_SURVEYS,
        whose youths alone, with the adults of both.

    Notes
    -----
    With w the adult share of that age, y the youths' belief and a the adults': the normal with the
    mean and covariance of the mixture of y and a with weights 1 - w and w. It is `population`
    itself from ADULT_AGE on, and positive semi-definite in between because both ends are.
    """
    share = adult_share(age_years)
    adult = population(sex, BLEND if survey in YOUTH_SURVEYS else survey)
    if share == 1.0:
        return adult
    youth = _youth(sex, age_years, survey)
    if share == 0.0:
        return youth
    return blended([youth, adult], weights=(1.0 - share, share))


def youth_measured(sex: Sex, age_years: float, survey: str = BLEND) -> Normal:
    """Belief over what the youth surveys measured, with stature and weight, at an exact age.

    Notes
    -----
    Means by age are rising curves through the survey's cells, spreads quadratics, correlations
    those within age. Head length was taken of other children than height and cheekbones: these are
    joined through what both groups share. The circumference comes twice, from the United States
    in the 1970s and from the UK 1990 reference, which reads 9 to 15 mm more of children; the two
    are blended as the adult surveys are, so that what they differ by widens the belief. UK 1990 is
    joined to the other measures through the circumference. `survey` names one of them alone.
    """
    snyder = _snyder(sex, age_years)
    if survey == SNYDER_1977.key:
        return snyder
    age, median, sd = reference_circumference(sex)
    spread = float(np.interp(age_years, age, sd))
    # Before its first age on a straight line, as the other survey's curve (`Rising.at`).
    early = min(age_years - age[0], 0.0) * (median[1] - median[0]) / (age[1] - age[0])
    middle = float(np.interp(age_years, age, median) + early)
    reference = Normal((_GIRTH,), np.array([middle]), np.array([[spread**2]]))
    whole = joined(reference, snyder)
    return whole if survey == UK_1990.key else blended([snyder, whole])


def _snyder(sex: Sex, age_years: float) -> Normal:
    table, curves = youth_table(sex), _curves(sex)
    mean = np.array([curves[name].mean.at(age_years) for name in table.measures])
    sd = np.array([curves[name].sd(age_years) for name in table.measures])
    with_length = tuple(name for name in table.measures if name not in _APART)
    with_height = tuple(name for name in table.measures if name != "head_length")
    main, donor = (_group(table, mean, sd, names) for names in (with_length, with_height))
    return joined(main, donor).marginal(table.measures)


def _group(table: YouthTable, mean: Floats, sd: Floats, names: tuple[str, ...]) -> Normal:
    places = [table.measures.index(name) for name in names]
    scale = np.outer(sd[places], sd[places])
    return Normal(names, mean[places], table.correlation[np.ix_(places, places)] * scale)


@cache
def _curves(sex: Sex) -> dict[str, _Curve]:
    return {name: _curve(cells) for name, cells in youth_table(sex).cells.items()}


def _curve(cells: Cells) -> _Curve:
    # The error variance of a mean is sd^2 / n, that of an SD sd^2 / 2 n; sd pooled over the cells.
    mean = rising_fit(cells.age_years, cells.mean, cells.count / cells.sd**2)
    spread = even_fit(cells.age_years, cells.sd, cells.count)
    return _Curve(mean, spread, float(cells.age_years[0]), float(cells.age_years[-1]))


@lru_cache(maxsize=512)
def _youth(sex: Sex, age_years: float, survey: str) -> Normal:
    """The youths' belief over the ten measures, stature and weight."""
    known = youth_measured(sex, age_years, survey)
    adult = population(sex, BLEND if survey in YOUTH_SURVEYS else survey)
    whole = joined(known, _carried(adult, known))
    whole = _doubted(whole, adult)
    whole = built(whole, "brow_to_top", {"tragion_to_top": 1.0}, YOUTH_EYEBROW_HEIGHT, sign=-1.0)
    whole = built(whole, "tape_circumference", {_GIRTH: 1.0}, TAPE_OFFSET)
    halves = {BY: 0.5, "bigonial_breadth": 0.5}
    whole = built(whole, "jaw_pad_width", halves, CHEEK_TISSUE)
    return whole.marginal([*MEASURE_KEYS, "stature", "weight"])


def _carried(adult: Normal, known: Normal) -> Normal:
    """The adults' belief, with what youths were not measured for made smaller in proportion."""
    names = (*known.names, *CARRIED)
    part = adult.marginal(names)
    ratio = known.mean[known.index(BY)] / adult.mean[adult.index(BY)]
    scale = np.array([ratio if name in CARRIED else 1.0 for name in names])
    return Normal(names, part.mean * scale, part.covariance * np.outer(scale, scale))


def _doubted(whole: Normal, adult: Normal) -> Normal:
    """What was carried, made less certain by a share of how far it was carried."""
    covariance = whole.covariance.copy()
    for name in CARRIED:
        at = whole.index(name)
        moved = adult.mean[adult.index(name)] - whole.mean[at]
        covariance[at, at] += (CARRIED_DOUBT.value * moved) ** 2
    return Normal(whole.names, whole.mean, covariance)


GROWTH_STEP = 1.0 / 24.0
"""Step over which growth is summed [years]."""


@lru_cache(maxsize=4096)
def mean_growth(sex: Sex, from_years: float, to_years: float) -> Floats:
    """What heads of one sex grow by, on average, between two exact ages.

    Returns
    -------
    Array of shape `(10,)` in the order of MEASURES [mm].

    Notes
    -----
    `integral of (1 - w(a)) m'(a) da` over the age a, with m the youths' mean and w the adult
    share: growth dies out as adult age comes near. What youth and adult surveys differ by for
    other reasons, hair and technique, is not counted as growth.
    """
    count = max(int(np.ceil((to_years - from_years) / GROWTH_STEP)), 1)
    edges = np.linspace(from_years, to_years, count + 1)
    left = np.array([1.0 - adult_share(age) for age in 0.5 * (edges[1:] + edges[:-1])])
    if not left.any():
        return np.zeros(len(MEASURE_KEYS))
    if to_years <= LEAVES_YOUTH.value:
        edges, left = edges[[0, -1]], left[:1]
    means = np.stack([_youth_mean(sex, float(age)) for age in edges])
    return np.asarray(left @ np.diff(means, axis=0))


def _youth_mean(sex: Sex, age_years: float) -> Floats:
    return _youth(sex, age_years, BLEND).mean[: len(MEASURE_KEYS)]
