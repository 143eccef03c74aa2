"""What is believed of anybody's head before a reading, by sex and age, stated or not."""

from dataclasses import dataclass
from itertools import pairwise
from math import floor

import numpy as np

from helmwright.anatomy.age import ADULT_AGE, AgeError, checked_age, is_whole
from helmwright.anatomy.covering import bared
from helmwright.anatomy.part import part_label
from helmwright.anatomy.prior import MALE_SHARE, adult_prior, seen_body, sexes_and_shares
from helmwright.anatomy.sex import Sex
from helmwright.anatomy.surveys.table import BLEND
from helmwright.anatomy.youth import YOUTH_SURVEYS, population_at
from helmwright.belief import Mixture, Normal


@dataclass(frozen=True, slots=True)
class _Span:
    """Ages between which all are alike likely [years]; `share` of the whole range."""

    low: float
    high: float
    share: float

    @property
    def middle(self) -> float:
        return 0.5 * (self.low + self.high)


def head_prior(
    sex: Sex | None = None,
    *,
    male_share: float = MALE_SHARE.value,
    survey: str = BLEND,
    stature_mm: float | None = None,
    weight_kg: float | None = None,
    age_years: float | None = None,
    ages: tuple[float, float] | None = None,
) -> Mixture:
    """Belief over the ten measures of a head, before any reading of it.

    Parameters
    ----------
    sex, male_share, survey, stature_mm, weight_kg
        As for `adult_prior`; with an age, `survey` may be one of the youth surveys too.
    age_years
        Age; a whole number means completed years, anything else an exact age [years].
    ages
        Where the age is not stated: the youngest and the oldest it may be, all between alike
        likely; whole numbers mean completed years [years].

    Returns
    -------
    Mixture
        Over MEASURE_KEYS; one part for each sex and, from a range, each year of age, labeled by
        both (`helmwright.anatomy.part`). With neither age nor ages: `adult_prior`, exactly.

    Raises
    ------
    AgeError
        If an age is outside 8 to 90 years, or a range runs backward.
    CovariateError
        If stature or weight is not plausible.

    Notes
    -----
    A completed year stands for all exact ages in it: the belief at its middle, widened by what
    heads grow within it (a twelfth of the square of the year's growth).
    """
    spans = _spans(age_years, ages)
    if not spans:
        return adult_prior(
            sex,
            male_share=male_share,
            survey=survey,
            stature_mm=stature_mm,
            weight_kg=weight_kg,
        )
    places = [
        (each, share * span.share, span)
        for each, share in sexes_and_shares(sex, male_share)
        for span in spans
    ]
    adults = BLEND if survey in YOUTH_SURVEYS else survey
    whole = Mixture(
        np.array([share for _, share, _ in places]),
        tuple(
            bared(_within(each, span, survey), part_label(each, span.middle), adults)
            for each, _, span in places
        ),
        tuple(part_label(each, span.middle) for each, _, span in places),
    )
    young = spans[0].low < ADULT_AGE.value
    return seen_body(whole, stature_mm=stature_mm, weight_kg=weight_kg, young=young)


def age_interval(
    age_years: float | None, ages: tuple[float, float] | None
) -> tuple[float, float] | None:
    """Youngest and oldest exact age [years] that is meant; None for an adult of no stated age."""
    spans = _spans(age_years, ages)
    return (spans[0].low, spans[-1].high) if spans else None


def _spans(age_years: float | None, ages: tuple[float, float] | None) -> tuple[_Span, ...]:
    """Years of age that may be meant; all adult ones are one."""
    if age_years is not None:
        low = checked_age(age_years)
        return (_Span(low, low + 1.0 if is_whole(low) else low, 1.0),)
    if ages is None:
        return ()
    low, last = (checked_age(each) for each in ages)
    if last < low:
        raise AgeError(f"ages {low:g} to {last:g} run backward: give the youngest first")
    high = last + 1.0 if is_whole(last) else last
    if high == low:
        return (_Span(low, high, 1.0),)
    adult = ADULT_AGE.value
    inner = [float(year) for year in range(floor(low) + 1, int(min(np.ceil(high), adult + 1.0)))]
    edges = [low, *inner, high]
    whole = high - low
    return tuple(_Span(a, b, (b - a) / whole) for a, b in pairwise(edges) if b > a)


def _within(sex: Sex, span: _Span, survey: str) -> Normal:
    middle = population_at(sex, span.middle, survey)
    if span.low == span.high or span.low >= ADULT_AGE.value:
        return middle
    grown = population_at(sex, span.high, survey).mean - population_at(sex, span.low, survey).mean
    spread = np.outer(grown, grown) / 12.0
    return Normal(middle.names, middle.mean, middle.covariance + spread)
