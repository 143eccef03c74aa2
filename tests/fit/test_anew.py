"""A helmet put on once more is not quite the same."""

import numpy as np
import pytest

from helmwright.anatomy import Reading, Sex, estimate_head
from helmwright.catalogue import load_packaged
from helmwright.fit import Build, Rater
from helmwright.fit.anew import BROW_ANEW, ZONE_ANEW, Anew, hearing
from helmwright.fit.cloud import draw_cloud

SHEET = load_packaged("ouzel")
HEAD = estimate_head([Reading("tape_circumference", 575.0)], sex=Sex.MALE)
BUILD = Build(3, SHEET.delivered)


@pytest.fixture(scope="module")
def cloud():
    return draw_cloud(HEAD, SHEET, 400, np.random.default_rng(1), rater=Rater())


def test_what_is_new_has_the_stated_spread_and_no_lean(cloud):
    again = Anew.drawn(cloud, np.random.default_rng(2))
    plain, new = cloud.trial(3).unknowns, again.trial(3).unknowns
    zones, brow = new.zone_mm - plain.zone_mm, new.brow_mm - plain.brow_mm
    assert zones.std() == pytest.approx(ZONE_ANEW.value, rel=0.05)
    assert brow.std() == pytest.approx(BROW_ANEW.value, rel=0.15)
    assert abs(zones.mean()) < 4 * ZONE_ANEW.value / np.sqrt(zones.size)
    assert abs(brow.mean()) < 4 * BROW_ANEW.value / np.sqrt(brow.size)


def test_a_build_that_is_right_on_a_head_need_not_be_right_when_put_on_again(cloud):
    again = Anew.drawn(cloud, np.random.default_rng(2))
    before, after = (each.trial(3).rest(BUILD).right for each in (cloud, again))
    assert 0.02 < (before != after).mean() < 0.3
    assert len(again) == len(cloud)


def test_heads_and_fitter_stay(cloud):
    again = Anew.drawn(cloud, np.random.default_rng(2))
    assert again.felt_bias is cloud.felt_bias
    assert again.heads is cloud.heads
    assert again.trial(3).unknowns.foam is cloud.trial(3).unknowns.foam


def test_what_a_fitter_says_tells_less_of_another_try_on_than_of_this_one():
    plain, heard = Rater(), hearing(Rater())
    assert heard.brow_noise_mm**2 - plain.brow_noise_mm**2 == pytest.approx(BROW_ANEW.value**2)
    assert heard.stroke_noise_mm**2 - plain.stroke_noise_mm**2 == pytest.approx(ZONE_ANEW.value**2)
    assert heard.felt_bias == plain.felt_bias
