"""Heads: measures, readings, what is believed before and after them."""

from helmwright.anatomy.age import AgeError
from helmwright.anatomy.consistency import check_readings
from helmwright.anatomy.covering import Over, Touch
from helmwright.anatomy.estimate import (
    HeadDraws,
    HeadEstimate,
    ImplausibleReadingError,
    estimate_from,
    estimate_head,
)
from helmwright.anatomy.finding import Finding, FindingKind
from helmwright.anatomy.head_prior import head_prior
from helmwright.anatomy.measurer import (
    MeasurerError,
    MeasurerGap,
    measurer_errors,
    measurer_gaps,
)
from helmwright.anatomy.measures import (
    FIVE_MEASURES,
    LIGHT_TAPE_HOW,
    MEASURE_KEYS,
    MEASURES,
    Measure,
    UnknownMeasureError,
    measure_of,
    spoken_name,
)
from helmwright.anatomy.outline import excess_over_ellipse, group_excess_finding
from helmwright.anatomy.prior import CovariateError, Stated, adult_prior
from helmwright.anatomy.reading import (
    Combined,
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
    "LIGHT_TAPE_HOW",
    "MEASURES",
    "MEASURE_KEYS",
    "AgeError",
    "Combined",
    "CovariateError",
    "Finding",
    "FindingKind",
    "HeadDraws",
    "HeadEstimate",
    "ImplausibleReadingError",
    "Measure",
    "MeasurerError",
    "MeasurerGap",
    "Over",
    "PairStanding",
    "Reading",
    "Sex",
    "Stated",
    "Touch",
    "UnknownMeasureError",
    "adult_prior",
    "check_readings",
    "combined",
    "error_variance",
    "estimate_from",
    "estimate_head",
    "excess_over_ellipse",
    "group_excess_finding",
    "head_prior",
    "measure_of",
    "measurer_errors",
    "measurer_gaps",
    "pair_standing",
    "repeat_limit",
    "spoken_name",
    "technical_error",
]
