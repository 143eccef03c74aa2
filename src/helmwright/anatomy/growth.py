"""What a head has grown by since it was read."""

from collections.abc import Sequence
from math import sqrt

from helmwright.anatomy.measures import MEASURE_KEYS
from helmwright.anatomy.part import age_of, sex_of
from helmwright.anatomy.prior import population
from helmwright.anatomy.reading import Combined
from helmwright.anatomy.sex import Sex
from helmwright.anatomy.surveys.table import BLEND
from helmwright.anatomy.youth import mean_growth
from helmwright.belief import Mixture, Normal
from helmwright.belief.normal import Floats
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

GROWTH_SPREAD = Figure(
    0.5,
    "1",
    ASSUMED,
    note="SD of one person's growth about the mean growth of that sex and age, as a share of it.",
)
YEARLY_DRIFT = Figure(
    0.1,
    "1",
    ASSUMED,
    note=(
        "What anybody's measure drifts by in a year beside growth, SD as a share of the SD of the "
        "adult population; grows with the square root of the time."
    ),
)

YOUNGEST_READ = 6.0
"""No survey here says how heads of younger children grow [years]."""

_RATE = "growth since it was read"
_MONTHS = 12.0


def grown_name(group: Combined) -> str:
    """Name of the unknown that holds what a measure has grown by since it was read."""
    return f"{group.measure} grown in {group.months_ago:g} months"


def with_growth(prior: Mixture, groups: Sequence[Combined]) -> Mixture:
    """The prior with what each old reading's measure has grown by since; the same without any.

    Notes
    -----
    Growth of measure j is `G_j r + d_j`: G_j the mean growth of that sex and age over the time,
    r one person's share of it, common to all measures and dates, with mean 1 and the spread of
    GROWTH_SPREAD, and d_j a drift with mean 0. The reading then saw the measure of today less its
    growth.
    """
    old = {grown_name(group): group for group in groups if group.months_ago > 0.0}
    if not old:
        return prior
    parts = tuple(
        _grown(part, label, old) for part, label in zip(prior.parts, prior.labels, strict=True)
    )
    return Mixture(prior.weights, parts, prior.labels)


def _grown(part: Normal, label: str, old: dict[str, Combined]) -> Normal:
    sex, age = sex_of(label), age_of(label)
    part = part.extended(_RATE, {}, offset=1.0, variance=GROWTH_SPREAD.value**2)
    for name, group in old.items():
        years = group.months_ago / _MONTHS
        place = MEASURE_KEYS.index(group.measure)
        mean = float(mean_growth(sex, age - years, age)[place]) if age is not None else 0.0
        drift = YEARLY_DRIFT.value * float(_adult_sd(sex)[place]) * sqrt(years)
        part = part.extended(name, {_RATE: mean}, offset=0.0, variance=drift**2)
    return part


def _adult_sd(sex: Sex) -> Floats:
    return population(sex, BLEND).marginal(MEASURE_KEYS).sd
