"""How large a head is on the tape that size charts speak of, fast enough for a whole roster."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from math import sqrt
from typing import Any, Literal

from helmwright.anatomy import AgeError, CovariateError, Over, Reading, combined, estimate_head
from helmwright.anatomy.measures import TAPE_LAYERS
from helmwright.records import models
from helmwright.records.readers.heads import (
    NINE_OF_TEN,
    forecast_of,
    readings_of,
    stated_of,
    worn_of,
)

TAPE = "tape_circumference"
NINE_OF_TEN_SD = 1.6448536269514722
"""Standard deviations on either side of a normal mean that hold nine of ten."""


@dataclass(frozen=True, slots=True)
class TapeSize:
    """The tape around a head, over what will be worn.

    Parameters
    ----------
    middle_mm
        The reading, or what is likeliest [mm].
    low_mm, high_mm
        Nine of ten such heads lie between [mm].
    origin
        A reading of the tape itself, an estimate from other readings, or a forecast from the body.
    """

    middle_mm: float
    low_mm: float
    high_mm: float
    origin: Literal["read", "estimated", "forecast"]


def tape_size(
    player: models.Player, rows: Sequence[models.Reading], today: date
) -> TapeSize | None:
    """The size of one head; None where nobody of that age or body is in the surveys.

    Notes
    -----
    A tape over what will be worn speaks for itself: mean of the readings that agree, and
    1.645 sqrt(TEM^2 / n + bias^2) to either side (`anatomy.error_variance`; the errors are
    assumed). The surveys add nothing to it that an eye would see: their SD is five times as
    large. Everything else is the head estimate, remembered by what it is made from.
    """
    readings = readings_of(player, rows, today)
    worn = worn_of(player)
    try:
        if not readings:
            return TapeSize(*forecast_of(player, today), "forecast")
        return _read(readings, worn) or _estimated(
            readings, worn, tuple(sorted(stated_of(player, today).items()))
        )
    except (AgeError, CovariateError):
        return None


def _read(readings: Sequence[Reading], worn: tuple[Over, ...] | None) -> TapeSize | None:
    taped = [one for one in readings if one.measure == TAPE]
    if not taped or any(one.months_ago for one in taped):
        return None
    kinds = taped[-1].kinds
    if worn is not None and Over.UNSTATED not in kinds and set(kinds) != set(worn):
        return None
    groups = combined([one for one in taped if one.kinds == kinds])
    weights = [1.0 / group.variance_mm2 for group in groups]
    sums = zip(weights, groups, strict=True)
    mean = sum(weight * group.value_mm for weight, group in sums) / sum(weights)
    off = NINE_OF_TEN_SD / sqrt(sum(weights))
    return TapeSize(mean, mean - off, mean + off, "read")


@lru_cache(maxsize=4096)
def _estimated(
    readings: tuple[Reading, ...],
    worn: tuple[Over, ...] | None,
    stated: tuple[tuple[str, object], ...],
) -> TapeSize:
    known: Any = dict(stated)
    head = estimate_head(readings, worn=worn, **known)
    layers = TAPE_LAYERS * sum(head.thickness(kind)[0] for kind in head.worn)
    low, high = head.interval(TAPE, NINE_OF_TEN)
    return TapeSize(head.mean_of(TAPE) + layers, low + layers, high + layers, "estimated")
