"""People to measure: heads drawn from a survey's summary or taken from its rows, and readings."""

import csv
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import (
    MEASURE_KEYS,
    HeadDraws,
    Reading,
    Sex,
    adult_prior,
    measure_of,
)
from helmwright.belief import Observation, exactly

Floats = npt.NDArray[np.float64]

SURVEYS = ("us_army_2012", "niosh_2003")
TAPE = ("tape_circumference",)
CALIPER = (*TAPE, "head_length", "head_breadth")
EARS = (*CALIPER, "tragion_to_top")
HEIGHT = (*CALIPER, "brow_to_top")
FIVE = (*HEIGHT, "jaw_pad_width")

_COLUMNS = {
    "head_circumference": "head_circumference_mm",
    "head_length": "head_length_mm",
    "head_breadth": "head_breadth_mm",
    "tragion_to_top": "tragion_top_mm",
    "bizygomatic_breadth": "bizygomatic_breadth_mm",
    "bigonial_breadth": "bigonial_breadth_mm",
    "bitragion_chin_arc": "bitragion_chin_arc_mm",
}
_FILES = {"us_army_2012": "ansur2_heads.csv", "niosh_2003": "niosh2003_heads.csv"}
_ROUNDING_MM2 = 1.0 / 12.0


class RowsMissingError(ValueError):
    """A folder has no rows of a survey."""


def drawn_heads(sex: Sex, survey: str, count: int, rng: np.random.Generator) -> HeadDraws:
    """Heads drawn from a survey's published summary.

    What the survey did not measure comes with them from its joined belief: tragion to top or
    bigonial breadth from the other survey's regression, brow, tape plane and cheek as assumed.
    """
    return HeadDraws(adult_prior(sex, survey=survey).draw(count, rng))


def surveyed_heads(
    folder: Path, sex: Sex, survey: str, count: int, rng: np.random.Generator
) -> HeadDraws:
    """Heads of a survey's rows, chosen at random, the rest drawn given what a row holds."""
    rows = _rows(folder / _FILES[survey], sex)
    chosen = rng.permutation(len(rows))[:count]
    prior = adult_prior(sex, survey=survey)
    values = [prior.given(_seen(rows[each])).draw(1, rng)[0] for each in chosen]
    return HeadDraws(np.array(values))


def _seen(row: dict[str, float]) -> list[Observation]:
    return [exactly(key, value, _ROUNDING_MM2) for key, value in row.items()]


@lru_cache(maxsize=8)
def _rows(path: Path, sex: Sex) -> list[dict[str, float]]:
    if not path.is_file():
        raise RowsMissingError(f"{path.parent} has no {path.name}: individual rows of the survey")
    with path.open(encoding="utf-8", newline="") as file:
        found = [row for row in csv.DictReader(file) if row["sex"] == sex.value[0].upper()]
    return [
        {key: float(row[column]) for key, column in _COLUMNS.items() if row.get(column)}
        for row in found
    ]


def readings_of(
    head: Floats, measures: Sequence[str], rng: np.random.Generator, *, times: int = 2
) -> tuple[Reading, ...]:
    """What one measurer reads off one head: each measure's own error, and the measurer's bias.

    Every measure has errors of its own, drawn whether it is asked for or not, so that a policy
    with more measures sees the same first readings.
    """
    bias = {key: rng.normal(0.0, measure_of(key).bias.value) for key in MEASURE_KEYS}
    found = []
    for key, value in zip(MEASURE_KEYS, head, strict=True):
        errors = rng.normal(0.0, measure_of(key).reading_error.value, times)
        if key in measures:
            found += [Reading(key, float(value + bias[key] + error)) for error in errors]
    return tuple(found)


def person(
    sex: Sex, survey: str, index: int, *, seed: int, rows: Path | None, eyebrows: float = 1.0
) -> Floats:
    """The measures of one head, the same for any count of heads, shape (10,) [mm].

    Parameters
    ----------
    sex, survey
        Whose rows or summary.
    index, seed
        Which head.
    rows
        Folder of individual survey rows; drawn from the summary where None.
    eyebrows
        Spread of the eyebrows' height over the ears, times so much [1].
    """
    stream = [seed, SURVEYS.index(survey), list(Sex).index(sex)]
    rng = np.random.default_rng([*stream, index, 5])
    if rows is None:
        values = drawn_heads(sex, survey, 1, rng).values[0]
    else:
        listed = _rows(rows / _FILES[survey], sex)
        order = np.random.default_rng(stream).permutation(len(listed))
        prior = adult_prior(sex, survey=survey)
        values = prior.given(_seen(listed[order[index % len(listed)]])).draw(1, rng)[0]
    return _browed(values, sex, survey, eyebrows)


def _browed(values: Floats, sex: Sex, survey: str, factor: float) -> Floats:
    """The head with its eyebrows so many times as far from their mean height above the ears."""
    ears, brow = (MEASURE_KEYS.index(key) for key in ("tragion_to_top", "brow_to_top"))
    prior = adult_prior(sex, survey=survey).mean
    mean, above = prior[ears] - prior[brow], values[ears] - values[brow]
    found = values.copy()
    found[brow] = values[ears] - (mean + factor * (above - mean))
    return found
