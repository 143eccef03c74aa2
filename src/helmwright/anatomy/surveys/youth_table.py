"""What the youth surveys found: cells by sex and age, and correlations within age."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np

from helmwright.anatomy.sex import Sex
from helmwright.belief.normal import Floats


@dataclass(frozen=True, eq=False)
class Cells:
    """One measure of one sex, age by age.

    Parameters
    ----------
    age_years
        Middle of each cell [years], shape `(k,)`: a completed year runs on for half a year more.
    count
        How many were measured, shape `(k,)`.
    mean, sd
        Mean and standard deviation in each cell, shape `(k,)` [mm], of weight [kg].
    """

    age_years: Floats
    count: Floats
    mean: Floats
    sd: Floats


@dataclass(frozen=True, eq=False)
class YouthTable:
    """One sex of a youth survey.

    Parameters
    ----------
    measures
        Names, in the order of the correlations.
    cells
        By measure.
    correlation
        Within age, nan where two measures were never taken of one child, shape `(d, d)`.
    pairs
        How many children had both, shape `(d, d)`.
    """

    measures: tuple[str, ...]
    cells: Mapping[str, Cells]
    correlation: Floats
    pairs: Floats


@cache
def youth_table(sex: Sex) -> YouthTable:
    """The youth survey of 1977, one sex."""
    data = _read("snyder_1977")
    measures, part = tuple(data["measures"]), data[sex.value]
    middles = np.array(data["completed_years"], dtype=np.float64) + 0.5
    return YouthTable(
        measures,
        {
            name: Cells(middles, *(np.array(part[name][key], float) for key in ("n", "mean", "sd")))
            for name in measures
        },
        np.array(part["within_age"]["correlation"]),
        np.array(part["within_age"]["pairs"], dtype=np.float64),
    )


@cache
def reference_circumference(sex: Sex) -> tuple[Floats, Floats, Floats]:
    """Exact ages [years], medians and SDs [mm] of the UK 1990 reference, each of shape `(k,)`."""
    part = _read("uk_1990")[sex.value]
    age, median, sd = (np.array(part[key], float) for key in ("age_years", "median", "sd"))
    return age, median, sd


def _read(name: str) -> dict[str, Any]:
    text = files("helmwright.anatomy.surveys").joinpath(f"{name}.toml").read_text("utf-8")
    return tomllib.loads(text)
