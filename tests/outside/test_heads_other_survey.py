"""A prior from one survey held against the other's people, and each against its own.

Where individual rows lie beside the checkout, readings are made of them with the errors that the
estimate assumes, and its intervals for everything the row holds are counted. Within a survey the
intervals must be right to 4 points: four standard errors of some 1,500 rows, and rounding to
whole millimeters. From one survey to the other they may miss by up to 14 points: the surveys'
means differ by up to 2.5 mm and their spreads by a tenth, more for women's cheekbones.
"""

import csv
from pathlib import Path

import numpy as np
import pytest
from scipy.special import ndtr

from helmwright.anatomy import Reading, Sex, adult_prior, check_readings, error_variance
from helmwright.anatomy.surveys import survey_table
from helmwright.belief import exactly
from tests.outside.surveyed import as_surveyed

LEVELS = (0.5, 0.8, 0.9)
COLUMNS = {
    "head_circumference": "head_circumference_mm",
    "head_length": "head_length_mm",
    "head_breadth": "head_breadth_mm",
    "tragion_to_top": "tragion_top_mm",
    "bizygomatic_breadth": "bizygomatic_breadth_mm",
    "bigonial_breadth": "bigonial_breadth_mm",
    "bitragion_chin_arc": "bitragion_chin_arc_mm",
}
FILES = {"us_army_2012": "ansur2_heads.csv", "niosh_2003": "niosh2003_heads.csv"}
THREE = ("head_circumference", "head_length", "head_breadth")


def heads(folder: Path, survey: str, sex: Sex) -> list[dict[str, float]]:
    with (folder / FILES[survey]).open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["sex"] == sex.value[0].upper()]
    whole = [
        {key: float(row[column]) for key, column in COLUMNS.items() if row.get(column)}
        for row in rows
    ]
    complete = [head for head in whole if all(key in head for key in THREE)]
    assert len(complete) > 800
    return complete


def coverage(
    folder: Path, survey: str, prior: str, sex: Sex, read: tuple[str, ...]
) -> dict[str, list[float]]:
    """Share of a survey's people inside the 50, 80 and 90 percent intervals of the estimate."""
    part = as_surveyed(adult_prior(sex, survey=prior), prior).parts[0]
    rng = np.random.default_rng(23)
    places: dict[str, list[float]] = {}
    for head in heads(folder, survey, sex)[:1500]:
        errors = {key: error_variance(key, 2) for key in read}
        after = part.given(
            [exactly(k, head[k] + np.sqrt(errors[k]) * rng.normal(), errors[k]) for k in read]
        )
        for key, value in head.items():
            at = after.index(key)
            places.setdefault(key, []).append(ndtr((value - after.mean[at]) / after.sd[at]))
    return {
        key: [float(np.mean(np.abs(np.array(each) - 0.5) < level / 2)) for level in LEVELS]
        for key, each in places.items()
    }


CASES = [(sex, read) for sex in Sex for read in (("head_circumference",), THREE)]


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize("survey", FILES)
@pytest.mark.parametrize(("sex", "read"), CASES)
def test_intervals_hold_their_share_of_the_surveys_own_people(shared_data, survey, sex, read):
    for measure, shares in coverage(shared_data, survey, survey, sex, read).items():
        assert shares == pytest.approx(LEVELS, abs=0.045), measure


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize("survey", FILES)
@pytest.mark.parametrize(("sex", "read"), CASES)
def test_intervals_from_one_survey_nearly_hold_for_the_others_people(
    shared_data, survey, sex, read
):
    (other,) = set(FILES) - {survey}
    for measure, shares in coverage(shared_data, survey, other, sex, read).items():
        assert shares == pytest.approx(LEVELS, abs=0.14), measure


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize("survey", FILES)
@pytest.mark.parametrize(("sex", "read"), CASES)
def test_the_blend_of_both_holds_better_for_either_s_people(shared_data, survey, sex, read):
    # It has seen both, so this is no prediction; it shows what the default is worth to each.
    for measure, shares in coverage(shared_data, survey, "joined", sex, read).items():
        assert shares == pytest.approx(LEVELS, abs=0.09), measure


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize("survey", FILES)
@pytest.mark.parametrize(("sex", "read"), CASES)
def test_the_default_s_interval_for_nine_in_ten_holds_nine_in_ten_in_every_measure(
    shared_data, survey, sex, read
):
    # Within 3 points and rounding, for either survey's people and all measures that it took.
    for measure, shares in coverage(shared_data, survey, "joined", sex, read).items():
        assert shares[-1] == pytest.approx(0.9, abs=0.035), measure


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize(("sex", "read"), CASES)
def test_the_civilians_prior_predicts_nine_in_ten_soldiers_in_every_measure(shared_data, sex, read):
    # The wider survey predicts the narrower; the other way round up to 12 points are missing.
    shares = coverage(shared_data, "us_army_2012", "niosh_2003", sex, read)
    assert set(shares) == set(COLUMNS) - {"bigonial_breadth"}
    for measure, share in shares.items():
        assert share[-1] == pytest.approx(0.9, abs=0.045), measure


@pytest.mark.outside("us_army_2012")
def test_height_joined_into_the_niosh_prior_predicts_the_army_s_people(shared_data):
    # The one measure that this prior has only through the join: as good as a survey of its own.
    shares = coverage(shared_data, "us_army_2012", "niosh_2003", Sex.MALE, THREE)
    assert shares["tragion_to_top"] == pytest.approx(LEVELS, abs=0.045)


@pytest.mark.outside("niosh_2003")
def test_the_jaw_joined_into_the_army_prior_predicts_the_niosh_people(shared_data):
    shares = coverage(shared_data, "niosh_2003", "us_army_2012", Sex.MALE, THREE)
    assert shares["bigonial_breadth"] == pytest.approx(LEVELS, abs=0.045)


def flagged(folder: Path, slips: dict[str, float]) -> float:
    """Share of 400 men whose readings raise a finding, some read wrong by a constant."""
    rng = np.random.default_rng(29)
    count = 0
    for head in heads(folder, "us_army_2012", Sex.MALE)[:400]:
        errors = {key: np.sqrt(error_variance(key, 1)) * rng.normal() for key in THREE}
        readings = [Reading(key, head[key] + errors[key] + slips.get(key, 0.0)) for key in THREE]
        count += bool(check_readings(readings))
    return count / 400.0


@pytest.mark.outside("us_army_2012")
def test_few_clean_heads_are_flagged(shared_data):
    # The limits are 1st and 99th percentiles widened by the error, and 2.8 SD: up to 5 percent.
    assert flagged(shared_data, {}) < 0.05


@pytest.mark.outside("us_army_2012")
@pytest.mark.parametrize(
    ("measure", "least"), [("head_circumference", 0.2), ("head_length", 0.9), ("head_breadth", 0.9)]
)
@pytest.mark.parametrize("slip", [-25.4, 25.4])
def test_many_readings_that_are_an_inch_off_are_flagged(shared_data, measure, least, slip):
    # Sex unstated. What two calipers leave open of a circumference is 8 mm and, with hair, more on
    # one side: an inch too much is seen one time in four, an inch too little two in three. Only the
    # tape's second reading guards against it.
    assert flagged(shared_data, {measure: slip}) > least


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize("sex", Sex)
def test_by_their_summaries_nine_in_ten_of_one_survey_are_about_nine_in_ten_of_the_other(sex):
    # Normal shares of the other survey's people inside the 90 percent interval of the Army's.
    army = as_surveyed(adult_prior(sex, survey="us_army_2012"), "us_army_2012")
    niosh = survey_table("niosh_2003", sex).normal
    for measure in ("head_circumference", "head_length", "head_breadth", "bitragion_chin_arc"):
        low, high = army.interval(measure, 0.9)
        at = niosh.index(measure)
        inside = ndtr((high - niosh.mean[at]) / niosh.sd[at]) - ndtr(
            (low - niosh.mean[at]) / niosh.sd[at]
        )
        assert 0.82 < inside < 0.93
