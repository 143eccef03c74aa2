"""What the covariance of each pair of measures rests on."""

import csv
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files

from helmwright.anatomy.measures import measure_of
from helmwright.anatomy.surveys.table import BLEND, SURVEYS, UnknownSurveyError

YOUTH = "youth"
"""What the belief about youths is called here."""


class PairStanding(StrEnum):
    """How the covariance of two measures is known; the firmest first."""

    MEASURED = "measured"
    JOINED = "joined"
    ASSUMED = "assumed"


@dataclass(frozen=True, slots=True)
class _Pair:
    standing: PairStanding
    source: str


@cache
def _pairs(survey: str) -> dict[frozenset[str], _Pair]:
    text = files("helmwright.anatomy.surveys").joinpath("pair_standing.csv").read_text("utf-8")
    return {
        frozenset((row["measure"], row["other"])): _Pair(
            PairStanding(row["standing"]), row["source"]
        )
        for row in csv.DictReader(text.splitlines())
        if row["survey"] == survey
    }


def pair_standing(
    measure: str, other: str, survey: str = "joined"
) -> tuple[PairStanding, tuple[str, ...]]:
    """Standing of the covariance of two measures, and the keys of the sources behind it.

    Parameters
    ----------
    measure, other
        Keys of two different measures.
    survey
        The main survey of the prior, "joined" for the blend of both, or "youth" for heads up to
        16 years; between 16 and 20 a pair stands as the weaker of "youth" and "joined" does.

    Raises
    ------
    UnknownMeasureError, UnknownSurveyError
        If a key is none.
    ValueError
        If both are the same measure.

    Notes
    -----
    Measured: both were taken on the same people. Joined: carried over from the other survey
    through the measures that both surveys share. Assumed: at least one of the two is built from
    others with an assumed offset and spread, or carried down from adults. A blend stands as its
    weaker half does: measured only where both surveys measured the pair.
    """
    blended = SURVEYS if survey == BLEND else (survey,)
    if not set(blended) <= {*SURVEYS, YOUTH}:
        known = ", ".join((BLEND, *SURVEYS, YOUTH))
        raise UnknownSurveyError(f"no survey is called {survey!r}; there are {known}")
    keys = frozenset((measure_of(measure).key, measure_of(other).key))
    if len(keys) != 2:
        raise ValueError(f"a pair needs two different measures, not {measure} twice")
    pairs = [_pairs(each)[keys] for each in blended]
    weakest = max((pair.standing for pair in pairs), key=list(PairStanding).index)
    return weakest, tuple(dict.fromkeys(pair.source for pair in pairs))
