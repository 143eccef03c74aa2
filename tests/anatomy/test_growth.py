"""Old readings of heads that still grow, and of heads that do not."""

import numpy as np
import pytest

from helmwright.anatomy import (
    MEASURE_KEYS,
    Reading,
    Sex,
    check_readings,
    combined,
    estimate_head,
    head_prior,
)
from helmwright.anatomy.growth import GROWTH_SPREAD
from helmwright.anatomy.outline import one_of_each
from helmwright.anatomy.prior import population
from helmwright.anatomy.youth import mean_growth

GIRTH = "head_circumference"


def boy(months: float, *measures: tuple[str, float], age: float = 12.0):
    readings = [Reading(key, value, months_ago=months) for key, value in measures]
    return estimate_head(readings, sex=Sex.MALE, age_years=age)


def test_an_old_reading_of_a_boy_gives_a_larger_and_less_certain_head_than_todays():
    today, old = boy(0.0, (GIRTH, 540.0)), boy(12.0, (GIRTH, 540.0))
    grown = mean_growth(Sex.MALE, 11.5, 12.5)[MEASURE_KEYS.index(GIRTH)]
    assert 3.0 < grown < 5.0
    assert 0.8 * grown < old.mean_of(GIRTH) - today.mean_of(GIRTH) < 1.05 * grown
    assert old.sd_of(GIRTH) > today.sd_of(GIRTH) + 0.2


@pytest.mark.parametrize("sex", Sex)
def test_heads_grow_before_the_first_age_of_a_survey_as_just_after_it(sex):
    """One youth survey begins at 8 years: before, it grows on as it begins, and does not stop."""
    before, after = (mean_growth(sex, age, age + 1.0)[0] for age in (7.0, 8.0))
    assert 0.75 * after < before < 1.5 * after


def test_a_reading_of_no_months_ago_is_a_reading_of_today():
    plain = estimate_head([Reading(GIRTH, 540.0)], sex=Sex.MALE, age_years=12)
    zero = estimate_head([Reading(GIRTH, 540.0, months_ago=0.0)], sex=Sex.MALE, age_years=12)
    np.testing.assert_array_equal(zero.mean, plain.mean)
    np.testing.assert_array_equal(zero.covariance, plain.covariance)


@pytest.mark.parametrize("sex", Sex)
@pytest.mark.parametrize("age", [9, 13, 17])
def test_the_older_the_reading_the_larger_and_the_less_certain_the_head(sex, age):
    heads = [
        estimate_head([Reading(GIRTH, 545.0, months_ago=ago)], sex=sex, age_years=age)
        for ago in (0.0, 3.0, 6.0, 12.0, 24.0)
    ]
    assert np.diff([head.mean_of(GIRTH) for head in heads]).min() > 0.0
    assert np.diff([head.sd_of(GIRTH) for head in heads]).min() > 0.0


@pytest.mark.parametrize("stated", [{}, {"age_years": 21}, {"age_years": 35}])
def test_an_adult_s_old_reading_hardly_moves(stated):
    today, old = (
        estimate_head([Reading(GIRTH, 590.0, months_ago=ago)], sex=Sex.MALE, **stated)
        for ago in (0.0, 12.0)
    )
    assert old.mean_of(GIRTH) == pytest.approx(today.mean_of(GIRTH), abs=0.3)
    assert today.sd_of(GIRTH) < old.sd_of(GIRTH) < today.sd_of(GIRTH) + 0.6


def test_nearly_everything_that_can_be_known_of_an_old_head_is_what_it_grew_by():
    # Readings of every kind a year old: what is left is growth and drift, besides the tape's error.
    sharp = boy(0.0, *[(GIRTH, 540.0)] * 3)
    old = boy(12.0, *[(GIRTH, 540.0)] * 3)
    grown = mean_growth(Sex.MALE, 11.5, 12.5)[MEASURE_KEYS.index(GIRTH)]
    drift = 0.1 * 16.8
    added = old.sd_of(GIRTH) ** 2 - sharp.sd_of(GIRTH) ** 2
    assert added == pytest.approx((GROWTH_SPREAD.value * grown) ** 2 + drift**2, rel=0.15)


def test_an_old_reading_is_conditioned_on_as_by_simulation():
    # Heads of today and what each grew by, drawn forward; those whose old reading came out near
    # the one at hand are kept. Nothing of the conditioning is used but the prior.
    rng = np.random.default_rng(41)
    months, read, error = 24.0, 530.0, 3.354
    prior = head_prior(Sex.MALE, age_years=13)
    today = prior.draw(400_000, rng)
    rate = 1.0 + GROWTH_SPREAD.value * rng.standard_normal(len(today))
    grown = mean_growth(Sex.MALE, 11.5, 13.5)
    at = MEASURE_KEYS.index(GIRTH)
    drift = 0.1 * np.sqrt(2.0) * float(population(Sex.MALE, "joined").marginal([GIRTH]).sd[0])
    then = today[:, at] - grown[at] * rate - drift * rng.standard_normal(len(today))
    kept = np.abs(then + error * rng.standard_normal(len(today)) - read) < 0.5
    head = boy(months, (GIRTH, read), age=13)
    for key in (GIRTH, "head_length", "jaw_pad_width"):
        values = today[kept, MEASURE_KEYS.index(key)]
        # Some 8,000 kept: four standard errors of mean and of SD.
        assert head.mean_of(key) == pytest.approx(values.mean(), abs=4.0 * head.sd_of(key) / 85.0)
        assert head.sd_of(key) == pytest.approx(values.std(), rel=0.04)


def test_measures_of_one_old_day_share_how_fast_this_person_grew():
    # A new tape that shows fast growth raises the old caliper's length of today as well.
    caliper = ("head_length", 188.0)
    slow, fast = (
        estimate_head(
            [
                Reading(GIRTH, 540.0, months_ago=24.0),
                Reading(*caliper, months_ago=24.0),
                Reading(GIRTH, now),
            ],
            sex=Sex.MALE,
            age_years=14,
        )
        for now in (545.0, 560.0)
    )
    assert fast.mean_of("head_length") > slow.mean_of("head_length") + 0.5


def test_readings_of_different_days_are_not_averaged():
    groups = combined([Reading(GIRTH, 540.0, months_ago=10.0), Reading(GIRTH, 545.0)])
    assert [(group.value_mm, group.months_ago) for group in groups] == [(540.0, 10.0), (545.0, 0.0)]


def test_checks_hold_the_latest_reading_of_a_measure_against_the_rest():
    old, new = Reading(GIRTH, 505.0, months_ago=30.0), Reading(GIRTH, 530.0)
    (latest,) = (one_of_each(combined(pair))[GIRTH] for pair in ([new, old],))
    assert latest.value_mm == 530.0
    for pair in ([old, new], [new, old]):
        assert check_readings(pair, sex=Sex.MALE, age_years=11) == ()


def test_a_new_reading_outweighs_an_old_one_that_says_otherwise():
    both = estimate_head(
        [Reading(GIRTH, 530.0, months_ago=36.0), Reading(GIRTH, 560.0)],
        sex=Sex.MALE,
        age_years=13,
    )
    new = estimate_head([Reading(GIRTH, 560.0)], sex=Sex.MALE, age_years=13)
    old = boy(36.0, (GIRTH, 530.0), age=13)
    apart = new.mean_of(GIRTH) - old.mean_of(GIRTH)
    assert new.mean_of(GIRTH) - both.mean_of(GIRTH) < 0.5 * apart


def test_growth_is_that_of_the_age_which_the_readings_make_likely():
    small, large = (
        estimate_head([Reading(GIRTH, value, months_ago=12.0)], sex=Sex.MALE, ages=(14, 19))
        for value in (535.0, 600.0)
    )
    moved = [
        head.mean_of(GIRTH)
        - estimate_head([Reading(GIRTH, value)], sex=Sex.MALE, ages=(14, 19)).mean_of(GIRTH)
        for head, value in ((small, 535.0), (large, 600.0))
    ]
    assert moved[0] > moved[1] > 0.0


@pytest.mark.parametrize("months", [-1.0, 1e4, float("nan")])
def test_a_reading_from_the_future_or_from_another_life_is_refused(months):
    with pytest.raises(ValueError, match="months ago"):
        Reading(GIRTH, 540.0, months_ago=months)
