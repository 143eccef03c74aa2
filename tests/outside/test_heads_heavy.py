"""Heavy people: weight helps where the surveys have people, and past that no line is drawn on.

Linemen are heavier than almost everybody whom the surveys measured. Men of 100 kg and more check
the belief where people were; the few of 130 kg and more, women of 110, check that it does not run
on past them. The limit of the reach was chosen in sight of these rows, so that this is no
prediction; it shows what the limit is worth.
"""

import csv
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from helmwright.anatomy import Sex, adult_prior
from helmwright.anatomy.prior import population
from helmwright.belief import exactly

FILES = ("ansur2_heads.csv", "niosh2003_heads.csv")
COLUMNS = {
    "head_circumference": "head_circumference_mm",
    "head_length": "head_length_mm",
    "head_breadth": "head_breadth_mm",
    "bizygomatic_breadth": "bizygomatic_breadth_mm",
    "bigonial_breadth": "bigonial_breadth_mm",
    "bitragion_chin_arc": "bitragion_chin_arc_mm",
}
MEN_OF_100 = {
    "head_circumference": (587.30, 14.61),
    "head_length": (203.82, 6.46),
    "head_breadth": (157.33, 5.41),
    "tragion_to_top": (132.66, 6.13),
    "bitragion_chin_arc": (344.95, 11.72),
}
"""Mean and SD of the Army's 613 men of 100 kg and more; their weight 109.35, stature 1809.9."""

FROM_KG = {Sex.MALE: 130.0, Sex.FEMALE: 110.0}


@pytest.mark.outside("us_army_2012")
@pytest.mark.parametrize(("survey", "allowed"), [("us_army_2012", 1.2), ("joined", 2.5)])
@pytest.mark.parametrize("measure", MEN_OF_100)
def test_the_army_s_heavy_men_have_the_heads_that_their_weight_says(survey, allowed, measure):
    # Their own spread holds that of their weights besides: up to a sixth more for the chin.
    mean, sd = MEN_OF_100[measure]
    belief = adult_prior(Sex.MALE, survey=survey, stature_mm=1809.9, weight_kg=109.35).parts[0]
    at = belief.index(measure)
    assert belief.mean[at] == pytest.approx(mean, abs=allowed)
    assert belief.sd[at] == pytest.approx(sd, rel=0.17)


@cache
def heaviest(folder: Path, sex: Sex) -> list[dict[str, float]]:
    """The heaviest of both surveys, with what was measured of them."""
    found = []
    for name in FILES:
        with (folder / name).open(encoding="utf-8", newline="") as file:
            rows = [row for row in csv.DictReader(file) if row["sex"] == sex.value[0].upper()]
        for row in rows:
            if row["weight_kg"] and row["stature_mm"] and float(row["weight_kg"]) >= FROM_KG[sex]:
                named = {**COLUMNS, "stature": "stature_mm", "weight": "weight_kg"}
                found.append({key: float(row[c]) for key, c in named.items() if row.get(c)})
    assert len(found) > 50
    return found


def scores(folder: Path, sex: Sex, measure: str) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Error of the mean [mm] and standard score of each person; error of the straight line."""
    errors, standard, line = [], [], []
    for one in heaviest(folder, sex):
        if measure not in one:
            continue
        stature, weight = one["stature"], one["weight"]
        belief = adult_prior(sex, stature_mm=stature, weight_kg=weight).parts[0]
        at = belief.index(measure)
        errors.append(one[measure] - belief.mean[at])
        standard.append(errors[-1] / belief.sd[at])
        straight = population(sex, "joined").given(
            [exactly("stature", one["stature"], 225.0), exactly("weight", one["weight"], 6.25)]
        )
        line.append(one[measure] - straight.mean[straight.index(measure)])
    return np.array(errors), np.array(standard), np.array(line)


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize("sex", Sex)
@pytest.mark.parametrize("measure", COLUMNS)
def test_intervals_hold_the_heaviest_people_about_as_often_as_they_say(shared_data, sex, measure):
    # Four standard errors of a share of 64 people.
    _, standard, _ = scores(shared_data, sex, measure)
    assert np.mean(np.abs(standard) < 1.645) == pytest.approx(0.9, abs=0.15)


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize("measure", COLUMNS)
def test_the_heaviest_men_are_missed_by_less_than_half_of_what_the_straight_line_misses(
    shared_data, measure
):
    # The line runs on too far in every measure, by 8 mm at the chin. Women's circumference stays
    # 6 mm too large for the heaviest of them, where the line misses by 9.
    errors, _, line = scores(shared_data, Sex.MALE, measure)
    assert abs(errors.mean()) < 0.5 * abs(line.mean())
    assert line.mean() < -1.5
