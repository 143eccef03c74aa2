"""A survey's summary: means, standard deviations and correlations, by sex."""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np

from helmwright.anatomy.sex import Sex
from helmwright.belief import Normal

SURVEYS = ("us_army_2012", "niosh_2003")
"""Keys of the surveys carried; each is also the key of a source record and the name of a file."""

BLEND = "joined"
"""What the equal blend of them is called."""


class UnknownSurveyError(ValueError):
    """A survey was named that the package does not carry."""


@dataclass(frozen=True, eq=False)
class SurveyTable:
    """One survey's published summary for one sex.

    Parameters
    ----------
    source
        Key of its source record.
    title
        Its name for a person.
    sex
        Whom it describes.
    n
        How many people were measured.
    normal
        Normal belief with its means and covariances; mm, and kg for weight.
    """

    source: str
    title: str
    sex: Sex
    n: int
    normal: Normal


@cache
def survey_table(survey: str, sex: Sex) -> SurveyTable:
    """The summary of one survey for one sex.

    Raises
    ------
    UnknownSurveyError
        If the package carries no such survey.
    """
    if survey not in SURVEYS:
        raise UnknownSurveyError(f"no survey is called {survey!r}; there are {', '.join(SURVEYS)}")
    text = files("helmwright.anatomy.surveys").joinpath(f"{survey}.toml").read_text("utf-8")
    data = tomllib.loads(text)
    part = data[sex.value]
    sd = np.array(part["sd"])
    covariance = np.array(part["correlation"]) * np.outer(sd, sd)
    normal = Normal(tuple(data["measures"]), np.array(part["mean"]), covariance)
    return SurveyTable(data["source"], data["title"], sex, part["n"], normal)
