"""Heads from 8 years to adult, and ages that are stated, unstated or out of the question."""

import numpy as np
import pytest

from helmwright.anatomy import (
    MEASURE_KEYS,
    AgeError,
    CovariateError,
    Reading,
    Sex,
    adult_prior,
    estimate_head,
    head_prior,
)
from helmwright.anatomy.age import adult_share
from helmwright.anatomy.part import age_of, part_label, sex_of
from helmwright.anatomy.prior import population
from helmwright.anatomy.surveys.smooth import rising_fit
from helmwright.anatomy.youth import CARRIED, YOUTH_EYEBROW_HEIGHT, mean_growth, population_at
from helmwright.belief import Normal, blended

AGES = np.arange(8.0, 21.01, 0.25)


@pytest.mark.parametrize("sex", Sex)
def test_at_every_age_the_belief_is_a_covariance_as_surveyed_and_bared(sex):
    for age in AGES:
        for normal in (population_at(sex, float(age)), head_prior(sex, age_years=age).parts[0]):
            correlation = normal.covariance / np.outer(normal.sd, normal.sd)
            assert np.linalg.eigvalsh(correlation).min() > 1e-3


@pytest.mark.parametrize("sex", Sex)
def test_neither_mean_nor_covariance_jumps_anywhere_from_eight_to_adult(sex):
    # In a hundredth of a year no mean moves by more than 0.12 mm (12 mm a year) and no SD by more
    # than a hundredth of itself. No age here is whole: those would mean years.
    for age in np.arange(8.003, 20.1, 0.1):
        one, next_one = (head_prior(sex, age_years=float(at)).parts[0] for at in (age, age + 0.01))
        assert np.abs(next_one.mean - one.mean).max() < 0.12
        assert np.abs(next_one.sd / one.sd - 1.0).max() < 0.01
        moved = (next_one.covariance - one.covariance) / np.outer(one.sd, one.sd)
        assert np.abs(moved).max() < 0.02


@pytest.mark.parametrize("sex", Sex)
def test_from_twenty_on_the_belief_is_the_adults_own(sex):
    assert population_at(sex, 20.0) is population(sex, "joined")
    assert population_at(sex, 19.99).mean == pytest.approx(population(sex, "joined").mean, abs=0.01)
    stated = head_prior(sex, age_years=24)
    np.testing.assert_array_equal(stated.mean, adult_prior(sex).mean)
    np.testing.assert_array_equal(stated.covariance, adult_prior(sex).covariance)


def test_the_adults_share_runs_from_nothing_to_all_without_a_bend():
    assert [adult_share(age) for age in (8.0, 16.0, 18.0, 20.0, 40.0)] == [0.0, 0.0, 0.5, 1.0, 1.0]
    slopes = np.diff([adult_share(age) for age in np.arange(15.0, 21.0, 0.01)])
    assert slopes.min() >= 0.0
    assert np.abs(np.diff(slopes)).max() < 1e-4


def test_with_neither_age_nor_ages_the_prior_is_the_adult_one():
    for stated in ({}, {"weight_kg": 100.0, "male_share": 0.7}, {"sex": Sex.FEMALE}):
        plain, head = adult_prior(**stated), head_prior(**stated)
        assert head.labels == plain.labels
        np.testing.assert_array_equal(head.weights, plain.weights)
        for mine, theirs in zip(head.parts, plain.parts, strict=True):
            np.testing.assert_array_equal(mine.mean, theirs.mean)
            np.testing.assert_array_equal(mine.covariance, theirs.covariance)


@pytest.mark.parametrize("sex", Sex)
def test_the_belief_lies_halfway_between_the_two_youth_surveys_and_is_wider(sex):
    us, uk, both = (
        population_at(sex, 10.0, survey) for survey in ("snyder_1977", "uk_1990", "joined")
    )
    np.testing.assert_allclose(both.mean, 0.5 * (us.mean + uk.mean))
    apart = uk.mean - us.mean
    girth, length = both.index("head_circumference"), both.index("head_length")
    assert apart[girth] > 9.0
    assert apart[length] == pytest.approx(0.0)
    variances = 0.5 * (us.sd**2 + uk.sd**2)
    assert both.sd[girth] ** 2 == pytest.approx(variances[girth] + 0.25 * apart[girth] ** 2)
    assert population_at(sex, 20.0, "uk_1990") is population(sex, "joined")
    one = head_prior(sex, age_years=10.0001, survey="uk_1990")
    assert one.parts[0].mean[length] == pytest.approx(uk.mean[length], abs=0.01)


@pytest.mark.parametrize("sex", Sex)
def test_heads_grow_in_every_measure_from_year_to_year(sex):
    means = np.stack([population_at(sex, age).mean for age in np.arange(8.0, 16.01, 0.5)])
    assert np.diff(means, axis=0).min() > -1e-9
    assert (means[-1] > means[0]).all()


def test_what_no_youth_was_measured_for_is_an_adult_s_made_smaller_and_less_certain():
    adult = population(Sex.MALE, "joined")
    for age in (9.0, 12.0, 15.0):
        youth = population_at(Sex.MALE, age)
        cheek = youth.index("bizygomatic_breadth")
        ratio = youth.mean[cheek] / adult.mean[cheek]
        for name in CARRIED:
            at = youth.index(name)
            moved = adult.mean[at] - youth.mean[at]
            assert youth.mean[at] == pytest.approx(ratio * adult.mean[at])
            assert youth.sd[at] > 0.25 * moved
            assert youth.sd[at] == pytest.approx(
                np.hypot(ratio * adult.sd[at], 0.25 * moved), rel=0.15
            )


def test_a_youth_s_brow_tape_and_jaw_are_built_from_their_parts():
    youth = population_at(Sex.FEMALE, 11.0)
    mean, sd = (dict(zip(youth.names, values, strict=True)) for values in (youth.mean, youth.sd))
    assert mean["brow_to_top"] == pytest.approx(mean["tragion_to_top"] - 30.0)
    spread = YOUTH_EYEBROW_HEIGHT.spread or 0.0
    assert sd["brow_to_top"] == pytest.approx(np.hypot(sd["tragion_to_top"], spread))
    assert mean["tape_circumference"] == pytest.approx(mean["head_circumference"] - 5.0)
    halves = 0.5 * (mean["bizygomatic_breadth"] + mean["bigonial_breadth"])
    assert mean["jaw_pad_width"] == pytest.approx(halves)


def test_a_completed_year_is_its_middle_widened_by_what_heads_grow_in_it():
    year, middle = head_prior(Sex.MALE, age_years=12), head_prior(Sex.MALE, age_years=12.5)
    np.testing.assert_allclose(year.mean, middle.mean)
    grown = population_at(Sex.MALE, 13.0).mean - population_at(Sex.MALE, 12.0).mean
    added = np.diag(year.covariance - middle.covariance)
    assert added == pytest.approx(grown[: len(MEASURE_KEYS)] ** 2 / 12.0)
    assert year.labels == ("male at 12.5",)


def test_an_unstated_age_is_a_mixture_over_the_years_of_its_range():
    prior = head_prior(Sex.MALE, ages=(8, 12))
    assert [age_of(label) for label in prior.labels] == [8.5, 9.5, 10.5, 11.5, 12.5]
    np.testing.assert_allclose(prior.weights, 0.2)
    years = [head_prior(Sex.MALE, age_years=year) for year in range(8, 13)]
    np.testing.assert_allclose(prior.mean, np.mean([year.mean for year in years], axis=0))
    both = head_prior(ages=(8, 12), male_share=0.9)
    assert len(both.parts) == 10
    assert both.weight_where(lambda label: sex_of(label) is Sex.MALE) == pytest.approx(0.9)


def test_a_range_may_end_between_birthdays_and_all_adult_years_are_one_part():
    assert [age_of(label) for label in head_prior(Sex.MALE, ages=(10.5, 11.5)).labels] == [
        10.75,
        11.25,
    ]
    wide = head_prior(Sex.MALE, ages=(18, 29))
    assert [age_of(label) for label in wide.labels] == [18.5, 19.5, 25.0]
    np.testing.assert_allclose(wide.weights, [1 / 12, 1 / 12, 10 / 12])
    assert head_prior(Sex.MALE, ages=(12.25, 12.25)).labels == ("male at 12.25",)


def test_a_stated_age_wins_over_the_range_that_unstated_ones_come_from():
    stated = head_prior(Sex.MALE, age_years=9, ages=(8, 14))
    np.testing.assert_array_equal(stated.mean, head_prior(Sex.MALE, age_years=9).mean)


def test_readings_and_body_tell_the_age_where_none_is_stated():
    small, large = (
        estimate_head([Reading("tape_circumference", girth)], ages=(8, 17)).age_chances
        for girth in (505.0, 585.0)
    )
    assert list(small) == list(range(8, 18))
    assert sum(small.values()) == pytest.approx(1.0)
    assert small[8] > 0.1 > large[8]
    assert large[17] > 0.1 > small[17]
    short = estimate_head([], ages=(8, 17), stature_mm=1300.0).age_chances
    assert short[8] + short[9] > 0.7
    assert estimate_head([]).age_chances == {}


def test_the_chance_of_male_stays_the_share_over_all_ages():
    head = estimate_head([], ages=(8, 14), male_share=0.8)
    assert head.male_chance == pytest.approx(0.8)
    assert estimate_head([], sex=Sex.FEMALE, age_years=10).male_chance == 0.0


def test_stature_and_weight_help_with_youths_too():
    plain = head_prior(Sex.MALE, age_years=12)
    heavy = head_prior(Sex.MALE, age_years=12, weight_kg=60.0, stature_mm=1600.0)
    girth = MEASURE_KEYS.index("head_circumference")
    assert heavy.mean[girth] > plain.mean[girth] + 5.0
    assert heavy.parts[0].sd[girth] < plain.parts[0].sd[girth]


def test_a_light_child_has_a_weight_and_an_adult_of_it_has_not():
    head_prior(Sex.MALE, age_years=8, weight_kg=25.0, stature_mm=1150.0)
    head_prior(Sex.MALE, ages=(8, 12), weight_kg=25.0)
    with pytest.raises(CovariateError, match="30 to 230"):
        head_prior(Sex.MALE, weight_kg=25.0)
    with pytest.raises(CovariateError, match="15 to 230"):
        head_prior(Sex.MALE, age_years=8, weight_kg=9.0)


@pytest.mark.parametrize(
    ("stated", "words"),
    [
        ({"age_years": 7}, "from 8 years on"),
        ({"age_years": 91}, "check it"),
        ({"age_years": -3}, "check it"),
        ({"ages": (5, 9)}, "from 8 years on"),
        ({"ages": (12, 9)}, "youngest first"),
    ],
)
def test_an_age_of_nobody_or_of_no_survey_is_refused(stated, words):
    with pytest.raises(AgeError, match=words):
        head_prior(**stated)


def test_a_label_tells_sex_and_age_and_nothing_is_lost_on_the_way():
    assert part_label(Sex.MALE) == "male"
    assert age_of("male") is None
    for sex in Sex:
        for age in (8.0, 12.5, 1.0 / 3.0 + 10.0):
            label = part_label(sex, age)
            assert (sex_of(label), age_of(label)) == (sex, age)


def test_a_rising_curve_meets_cells_that_rise_and_levels_those_that_fall():
    at = np.linspace(6.5, 18.5, 13)
    line = rising_fit(at, 500.0 + 5.0 * at, np.ones(13))
    assert [line.at(age) for age in (6.5, 11.0, 18.5)] == pytest.approx([532.5, 555.0, 592.5])
    assert line.at(5.5) == pytest.approx(527.5)
    assert line.at(25.0) == pytest.approx(592.5)
    falling = rising_fit(at, 600.0 - 5.0 * at, np.ones(13))
    assert falling.at(6.5) == pytest.approx(falling.at(18.5)) == pytest.approx(537.5)


def test_an_outlying_cell_of_few_children_hardly_moves_the_curve():
    at = np.linspace(6.5, 18.5, 13)
    values, weights = 500.0 + 5.0 * at, np.full(13, 100.0)
    values[6], weights[6] = values[6] + 20.0, 1.0
    assert rising_fit(at, values, weights).at(at[6]) == pytest.approx(562.5, abs=0.3)


def test_growth_adds_up_over_time_and_ends_at_twenty():
    for sex in Sex:
        halves = mean_growth(sex, 11.0, 11.5) + mean_growth(sex, 11.5, 12.0)
        assert halves == pytest.approx(mean_growth(sex, 11.0, 12.0), abs=1e-9)
        across = mean_growth(sex, 15.0, 16.0) + mean_growth(sex, 16.0, 17.0)
        assert across == pytest.approx(mean_growth(sex, 15.0, 17.0), abs=0.05)
        assert not mean_growth(sex, 20.0, 25.0).any()
        assert (mean_growth(sex, 13.0, 14.0) > 0.0).all()


def test_a_weighted_blend_has_the_moments_of_the_mixture():
    one = Normal(("a", "b"), np.array([0.0, 1.0]), np.array([[1.0, 0.3], [0.3, 2.0]]))
    other = Normal(("a", "b"), np.array([4.0, 0.0]), np.array([[2.0, 0.1], [0.1, 1.0]]))
    blend = blended([one, other], weights=(3.0, 1.0))
    draws = np.concatenate(
        [each.draw(n, np.random.default_rng(5)) for each, n in ((one, 150_000), (other, 50_000))]
    )
    assert blend.mean == pytest.approx(draws.mean(axis=0), abs=0.02)
    assert blend.covariance == pytest.approx(np.cov(draws.T), abs=0.06)
    same = blended([one, other], weights=(1.0, 0.0))
    np.testing.assert_allclose(same.covariance, one.covariance)
    with pytest.raises(ValueError, match="weight of 0 or more"):
        blended([one, other], weights=(1.0,))
