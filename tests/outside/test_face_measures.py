"""Faces against published measures."""

import csv

import numpy as np
import pytest

from helmwright.anatomy import HeadDraws, Sex, adult_prior
from helmwright.anatomy.covering import SURVEY_HAIR
from helmwright.anatomy.face import (
    BROW_THICKNESS,
    CORNEA_HEIGHT,
    FACE_LENGTH_MEN,
    FACE_LENGTH_WOMEN,
    NOSE_SHARE,
    draw_faces,
)

COUNT = 20_000
BOTH = pytest.mark.parametrize("sex", list(Sex))


def faces_of(sex):
    heads = HeadDraws(adult_prior(sex, survey="us_army_2012").draw(COUNT, np.random.default_rng(1)))
    return heads, draw_faces(heads, np.random.default_rng(2), labels=(sex.value,))


@pytest.mark.outside("us_army_2012")
@pytest.mark.parametrize(
    ("sex", "mean", "sd"), [(Sex.MALE, 122.64, 6.67), (Sex.FEMALE, 113.09, 6.09)]
)
def test_faces_are_as_long_and_as_varied_as_the_survey_found(sex, mean, sd):
    _, faces = faces_of(sex)
    assert faces.length_mm.mean() == pytest.approx(mean, abs=0.3)
    assert faces.length_mm.std() == pytest.approx(sd, abs=0.3)


@pytest.mark.outside("us_army_2012")
@pytest.mark.parametrize(("sex", "published"), [(Sex.MALE, 34.78), (Sex.FEMALE, 35.51)])
def test_longer_faces_go_with_larger_heads_as_in_the_survey(sex, published):
    """Covariances, mm2: hair adds to the spread of women's circumferences, not to these."""
    heads, faces = faces_of(sex)
    found = np.cov(heads.of("head_circumference"), faces.length_mm)[0, 1]
    assert found == pytest.approx(published, abs=3.0)


@pytest.mark.outside("niosh_2003")
@pytest.mark.parametrize(("letter", "line"), [("M", FACE_LENGTH_MEN), ("F", FACE_LENGTH_WOMEN)])
def test_the_line_of_one_survey_holds_for_the_heads_of_the_other(shared_data, letter, line):
    """The other survey's people were measured by others; 3 mm of mean is what that may make."""
    keys = ("head_circumference_mm", "menton_sellion_mm")
    with (shared_data / "niosh2003_heads.csv").open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["sex"] == letter]
    pairs = np.array([[float(row[key]) for key in keys] for row in rows if all(map(row.get, keys))])
    around, length = pairs.T
    start, slope = line
    if letter == "F":
        around = around - SURVEY_HAIR["niosh_2003"].value
    left = length - (start.value + slope.value * around)
    assert abs(left.mean()) < 3.0
    assert left.std() == pytest.approx(start.spread, rel=0.2)
    assert np.mean(np.abs(left - left.mean()) < 1.645 * start.spread) == pytest.approx(
        0.9, abs=0.05
    )


@pytest.mark.outside("faa_design_standard")
@pytest.mark.parametrize(("sex", "published"), [(Sex.MALE, 112.0), (Sex.FEMALE, 105.0)])
def test_the_bridge_of_the_nose_lies_as_far_below_the_top_as_published(sex, published):
    heads, faces = faces_of(sex)
    below = heads.of("tragion_to_top") - faces.bridge_mm[:, 1]
    assert np.median(below) == pytest.approx(published, abs=2.0)


@pytest.mark.outside("niosh_2003_face")
def test_the_share_of_mens_noses_gives_womens():
    """52.0 of 122.7 mm in men; women's faces of 113.4 have noses of 48.2."""
    assert NOSE_SHARE.value * 113.4 == pytest.approx(48.2, abs=0.5)


@pytest.mark.outside("brow_above_limbus")
@pytest.mark.parametrize(("sex", "published"), [(Sex.MALE, 19.4), (Sex.FEMALE, 19.7)])
def test_from_the_cornea_to_the_lowest_hairs_of_the_brow_is_as_published(sex, published):
    heads, faces = faces_of(sex)
    hairs = heads.of("tragion_to_top") - heads.of("brow_to_top") - BROW_THICKNESS.value
    cornea = faces.eye_mm[:, 1] - CORNEA_HEIGHT.value / 2.0
    assert (hairs - cornea).mean() == pytest.approx(published, abs=0.3)


@pytest.mark.outside("us_army_2012")
@BOTH
def test_a_chin_arc_is_a_tenth_to_a_quarter_longer_than_straight_lines(sex):
    """Where the chin is assumed to be, the surveyed arc must still go around the face."""
    heads, faces = faces_of(sex)
    straight = np.sqrt((faces.chin_mm**2).sum(axis=1) + faces.half_breadth_mm**2)
    fullness = heads.of("bitragion_chin_arc") / 2.0 / straight
    assert 1.1 < fullness.mean() < 1.25
    assert np.quantile(fullness, 0.01) > 1.0
