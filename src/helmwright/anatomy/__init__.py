"""Heads: measures, readings, what is believed before and after them."""

from helmwright.anatomy.estimate import (
    HeadDraws,
    HeadEstimate,
    ImplausibleReadingError,
    estimate_from,
    estimate_head,
)
from helmwright.anatomy.measures import (
    FIVE_MEASURES,
    MEASURE_KEYS,
    MEASURES,
    Measure,
    UnknownMeasureError,
    measure_of,
)
from helmwright.anatomy.prior import CovariateError, adult_prior
from helmwright.anatomy.reading import (
    Combined,
    Over,
    Reading,
    combined,
    error_variance,
    repeat_limit,
    technical_error,
)
from helmwright.anatomy.sex import Sex
from helmwright.anatomy.surveys import PairStanding, pair_standing

__all__ = [
    "FIVE_MEASURES",
    "MEASURES",
    "MEASURE_KEYS",
    "Combined",
    "CovariateError",
    "HeadDraws",
    "HeadEstimate",
    "ImplausibleReadingError",
    "Measure",
    "Over",
    "PairStanding",
    "Reading",
    "Sex",
    "UnknownMeasureError",
    "adult_prior",
    "combined",
    "error_variance",
    "estimate_from",
    "estimate_head",
    "measure_of",
    "pair_standing",
    "repeat_limit",
    "technical_error",
]
