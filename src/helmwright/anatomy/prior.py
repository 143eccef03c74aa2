"""What is believed about a head before anybody touches it."""

from dataclasses import replace
from functools import cache
from math import sqrt
from typing import TypedDict

import numpy as np

from helmwright.anatomy.covering import bared
from helmwright.anatomy.measures import MEASURE_KEYS
from helmwright.anatomy.sex import Sex
from helmwright.anatomy.surveys.table import BLEND, SURVEYS, UnknownSurveyError, survey_table
from helmwright.belief import Mixture, Normal, Observation, blended, exactly, joined
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, FAA_DESIGN_STANDARD

EYEBROW_HEIGHT = Figure(
    30.0,
    "mm",
    ASSUMED,
    spread=5.0,
    note=(
        "Eyebrow above the tragions. The bridge of the nose is 19 to 21 above them "
        f"({FAA_DESIGN_STANDARD.key}); spreads of 4 to 10 are tenable."
    ),
)
TAPE_OFFSET = Figure(
    -5.0,
    "mm",
    ASSUMED,
    spread=3.0,
    note="Trade's tape plane less the surveys' plane; -5 to -7 on three head surfaces.",
)
CHEEK_TISSUE = Figure(
    0.0,
    "mm",
    ASSUMED,
    spread=2.5,
    note="Width at the jaw pads less the mean of cheekbone and jaw-corner breadths.",
)
MALE_SHARE = Figure(
    0.95, "1", ASSUMED, note="Share of males on a football roster, where sex is not stated."
)
STATURE_ERROR = Figure(
    15.0, "mm", ASSUMED, note="Error SD of a stature as rosters state it, with rounding."
)
WEIGHT_ERROR = Figure(2.5, "kg", ASSUMED, note="Error SD of a weight as rosters state it.")
SURVEY_REACH = Figure(
    2.5,
    "1",
    ASSUMED,
    note=(
        "How many standard deviations from the surveys' mean a stature or weight may lie and "
        "count in full; past that the surveys hold one person in a hundred."
    ),
)
PAST_REACH = Figure(
    0.5,
    "1",
    ASSUMED,
    note=(
        "Doubt about a stature or weight past that limit, SD as a share of the distance past it: "
        "no growth and growth on the straight line lie within two of it."
    ),
)

_NEXT = {"us_army_2012": "niosh_2003", "niosh_2003": "us_army_2012"}


class Stated(TypedDict, total=False):
    """What is known of a person before any reading; see `head_prior` for each."""

    sex: Sex | None
    stature_mm: float | None
    weight_kg: float | None
    male_share: float
    survey: str
    age_years: float | None
    ages: tuple[float, float] | None


class CovariateError(ValueError):
    """A stature or weight was given that nobody on a roster has."""


@cache
def population(sex: Sex, survey: str) -> Normal:
    """Belief over the ten measures, stature and weight for one sex.

    Parameters
    ----------
    sex
        Whose tables.
    survey
        Main survey: "us_army_2012" or "niosh_2003". What it did not measure is joined from the
        other. "joined" blends the two with equal weight: each alone is too sure of the other's
        people, and a roster is neither an army nor a workforce.

    Notes
    -----
    On top of the joined surveys: brow to top = tragion to top - eyebrow height; tape
    circumference = head circumference + offset; width at the jaw pads = mean of bizygomatic and
    bigonial breadth + soft tissue. The three added terms are independent of all else; their means
    and spreads are assumed (EYEBROW_HEIGHT, TAPE_OFFSET, CHEEK_TISSUE).
    """
    mains = SURVEYS if survey == BLEND else (survey,)
    if not set(mains) <= set(SURVEYS):
        known = ", ".join((BLEND, *SURVEYS))
        raise UnknownSurveyError(f"no survey is called {survey!r}; there are {known}")
    whole = blended([_completed(main, sex) for main in mains])
    whole = built(whole, "brow_to_top", {"tragion_to_top": 1.0}, EYEBROW_HEIGHT, sign=-1.0)
    whole = built(whole, "tape_circumference", {"head_circumference": 1.0}, TAPE_OFFSET)
    halves = {"bizygomatic_breadth": 0.5, "bigonial_breadth": 0.5}
    whole = built(whole, "jaw_pad_width", halves, CHEEK_TISSUE)
    return whole.marginal([*MEASURE_KEYS, "stature", "weight"])


def _completed(main: str, sex: Sex) -> Normal:
    return joined(survey_table(main, sex).normal, survey_table(_NEXT[main], sex).normal)


def built(
    normal: Normal, name: str, weights: dict[str, float], term: Figure, *, sign: float = 1.0
) -> Normal:
    """The belief with one more quantity: a weighted sum and an assumed term with its spread."""
    spread = term.spread or 0.0
    return normal.extended(name, weights, offset=sign * term.value, variance=spread**2)


def adult_prior(
    sex: Sex | None = None,
    *,
    male_share: float = MALE_SHARE.value,
    survey: str = BLEND,
    stature_mm: float | None = None,
    weight_kg: float | None = None,
) -> Mixture:
    """Belief over the ten measures of an adult, before any reading of the head.

    Parameters
    ----------
    sex
        Where stated; otherwise both, and the readings decide between them.
    male_share
        Chance of male before anything is read, where sex is not stated [1].
    survey
        See `population`.
    stature_mm, weight_kg
        As the roster states them [mm], [kg]; left open where not given.

    Returns
    -------
    Mixture
        Over MEASURE_KEYS, one part per sex, labeled by it.

    Raises
    ------
    CovariateError
        If stature or weight is not plausible.
    ValueError
        If `male_share` lies outside 0 to 1.

    Notes
    -----
    A stature or weight further than SURVEY_REACH from the mean of the surveys counts as that
    limit, with a doubt of PAST_REACH of its distance past it: heads are known to grow with weight
    only as far as people were measured. Between the sexes the stated value itself decides.
    The heads are bare: the hair that is in the surveys' circumferences of women is taken off
    (`helmwright.anatomy.covering.bared`).
    """
    places = sexes_and_shares(sex, male_share)
    whole = Mixture(
        np.array([share for _, share in places]),
        tuple(bared(population(each, survey), each.value, survey) for each, _ in places),
        tuple(each.value for each, _ in places),
    )
    return seen_body(whole, stature_mm=stature_mm, weight_kg=weight_kg)


def sexes_and_shares(sex: Sex | None, male_share: float) -> tuple[tuple[Sex, float], ...]:
    """The stated sex alone, or both with their chances [1].

    Raises
    ------
    ValueError
        If `male_share` lies outside 0 to 1.
    """
    if not 0.0 <= male_share <= 1.0:
        raise ValueError(f"male share {male_share} must lie between 0 and 1")
    if sex is not None:
        return ((Sex(sex), 1.0),)
    return ((Sex.MALE, male_share), (Sex.FEMALE, 1.0 - male_share))


ADULT_STATURES_MM, YOUTH_STATURES_MM = (1200.0, 2300.0), (1000.0, 2300.0)
ADULT_WEIGHTS_KG, YOUTH_WEIGHTS_KG = (30.0, 230.0), (15.0, 230.0)
"""Between which a stature and a weight are plausible."""


def seen_body(
    whole: Mixture, *, stature_mm: float | None, weight_kg: float | None, young: bool = False
) -> Mixture:
    """Belief over the measures alone, after a stature and a weight where they are stated.

    Raises
    ------
    CovariateError
        If one is not plausible, at any age from 8 up where `young`, else for an adult.
    """
    statures = YOUTH_STATURES_MM if young else ADULT_STATURES_MM
    weights = YOUTH_WEIGHTS_KG if young else ADULT_WEIGHTS_KG
    stated = [
        exactly(name, value, error.value**2)
        for name, value, error in (
            ("stature", _within(stature_mm, *statures, "stature", "mm"), STATURE_ERROR),
            ("weight", _within(weight_kg, *weights, "weight", "kg"), WEIGHT_ERROR),
        )
        if value is not None
    ]
    parts = (part.given([_within_reach(part, one) for one in stated]) for part in whole.parts)
    return Mixture(whole.given(stated).weights, tuple(parts), whole.labels).marginal(MEASURE_KEYS)


def _within_reach(part: Normal, stated: Observation) -> Observation:
    """A stated value, drawn in to the limit of the surveys and doubted by what it lies past it."""
    mean, variance = part.predicted(stated.weights)
    reach = SURVEY_REACH.value * sqrt(variance)
    counted = min(max(stated.value, mean - reach), mean + reach)
    doubt = PAST_REACH.value * (stated.value - counted)
    return replace(stated, value=counted, doubt=doubt**2)


def _within(value: float | None, low: float, high: float, name: str, unit: str) -> float | None:
    if value is not None and not low <= value <= high:
        raise CovariateError(
            f"{name} {value:g} {unit} is outside {low:g} to {high:g} {unit}: check the roster"
        )
    return value
