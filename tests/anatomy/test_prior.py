"""What is believed about a head before anybody touches it."""

from pathlib import Path

import numpy as np
import pytest

from helmwright.anatomy import (
    MEASURE_KEYS,
    CovariateError,
    PairStanding,
    Sex,
    UnknownMeasureError,
    adult_prior,
    pair_standing,
)
from helmwright.anatomy.prior import population
from helmwright.anatomy.surveys import survey_table
from helmwright.anatomy.surveys.table import SURVEYS, UnknownSurveyError
from helmwright.anatomy.surveys.youth_table import youth_table
from helmwright.sources import Source, records

KNOWN = {each.key for each in vars(records).values() if isinstance(each, Source)}
PAIRS = [(a, b) for place, a in enumerate(MEASURE_KEYS) for b in MEASURE_KEYS[place + 1 :]]
BUILT = {"tape_circumference", "brow_to_top", "jaw_pad_width"}


@pytest.mark.parametrize("survey", SURVEYS)
@pytest.mark.parametrize("sex", Sex)
def test_every_survey_table_is_a_covariance_with_a_source_and_a_count(survey, sex):
    table = survey_table(survey, sex)
    assert table.source in KNOWN
    assert table.n > 1000
    assert np.linalg.eigvalsh(table.normal.covariance).min() > 0.0


@pytest.mark.parametrize("survey", ["joined", *SURVEYS])
@pytest.mark.parametrize("sex", Sex)
def test_the_joined_population_is_positive_definite(survey, sex):
    normal = population(sex, survey)
    correlation = normal.covariance / np.outer(normal.sd, normal.sd)
    assert np.linalg.eigvalsh(correlation).min() > 1e-3


@pytest.mark.parametrize("survey", SURVEYS)
@pytest.mark.parametrize("sex", Sex)
def test_what_the_main_survey_measured_is_kept(survey, sex):
    table, whole = survey_table(survey, sex).normal, population(sex, survey)
    np.testing.assert_allclose(whole.marginal(table.names).mean, table.mean)
    np.testing.assert_allclose(whole.marginal(table.names).covariance, table.covariance)


def test_the_default_lies_between_the_two_surveys_and_is_wider_than_their_mean():
    army, niosh = (adult_prior(Sex.MALE, survey=s) for s in ("us_army_2012", "niosh_2003"))
    both = adult_prior(Sex.MALE)
    assert both.mean == pytest.approx((army.mean + niosh.mean) / 2)
    mean_variance = np.diag(army.covariance + niosh.covariance) / 2
    assert np.all(np.diag(both.covariance) >= mean_variance - 1e-9)


def test_brow_height_tape_and_jaw_width_are_built_from_their_parts():
    prior = adult_prior(Sex.MALE)
    mean, sd = (
        dict(zip(MEASURE_KEYS, values, strict=True))
        for values in (prior.mean, np.sqrt(np.diag(prior.covariance)))
    )
    assert mean["brow_to_top"] == pytest.approx(mean["tragion_to_top"] - 30.0)
    assert sd["brow_to_top"] == pytest.approx(np.hypot(sd["tragion_to_top"], 5.0))
    assert mean["tape_circumference"] == pytest.approx(mean["head_circumference"] - 5.0)
    assert sd["tape_circumference"] == pytest.approx(np.hypot(sd["head_circumference"], 3.0))
    halves = 0.5 * (mean["bizygomatic_breadth"] + mean["bigonial_breadth"])
    assert mean["jaw_pad_width"] == pytest.approx(halves)


def test_unstated_sex_is_a_mixture_with_the_share_asked_for():
    prior = adult_prior(male_share=0.8)
    assert prior.labels == ("male", "female")
    assert prior.weight_of("male") == pytest.approx(0.8)
    assert adult_prior(Sex.FEMALE).labels == ("female",)


def test_stature_and_weight_move_the_head_and_the_chance_of_sex():
    plain = adult_prior()
    large = adult_prior(stature_mm=1930.0, weight_kg=130.0)
    small = adult_prior(stature_mm=1560.0, weight_kg=55.0)
    assert (large.mean > plain.mean).all()
    assert (small.mean < plain.mean).all()
    assert small.weight_of("male") < plain.weight_of("male") < large.weight_of("male")
    assert large.parts[0].sd[0] < plain.parts[0].sd[0]


def man(weight_kg: float, stature_mm: float = 1850.0):
    return adult_prior(Sex.MALE, stature_mm=stature_mm, weight_kg=weight_kg).parts[0]


def test_past_the_surveys_heads_are_not_said_to_grow_on_but_to_be_less_known():
    # The surveys' mean and 2.5 standard deviations make 129 kg; means and spreads by weight.
    limit, heavy, heaviest = man(129.0), man(160.0), man(220.0)
    np.testing.assert_allclose(heavy.mean, limit.mean, atol=0.2)
    np.testing.assert_allclose(heaviest.mean, heavy.mean)
    assert (heaviest.sd > heavy.sd).all()
    assert (heavy.sd > limit.sd).all()
    assert man(75.0).sd == pytest.approx(man(125.0).sd)


def test_twice_as_far_past_the_surveys_adds_four_times_the_variance():
    within, beyond, twice = (man(weight).covariance for weight in (129.0, 149.3, 169.3))
    end = 88.275 + 2.5 * 16.42
    ratio = ((169.3 - end) / (149.3 - end)) ** 2
    np.testing.assert_allclose(twice - within, ratio * (beyond - within), rtol=2e-3)


def test_a_giant_is_no_larger_headed_than_the_tallest_whom_the_surveys_hold():
    tall, giant = man(110.0, 1926.0), man(110.0, 2150.0)
    np.testing.assert_allclose(giant.mean, tall.mean, atol=0.1)
    assert (giant.sd >= tall.sd).all()


def test_a_weight_past_the_surveys_still_tells_the_sexes_apart():
    shares = [adult_prior(male_share=0.5, weight_kg=kg).weight_of("male") for kg in (115, 130, 145)]
    assert shares[0] < shares[1] < shares[2]


@pytest.mark.parametrize(("stature", "weight"), [(180.0, None), (None, 500.0), (71.0, None)])
def test_a_stature_or_weight_of_nobody_is_refused(stature, weight):
    with pytest.raises(CovariateError, match="check the roster"):
        adult_prior(stature_mm=stature, weight_kg=weight)


def test_a_share_that_is_none_and_a_survey_that_is_none_are_refused():
    with pytest.raises(ValueError, match="between 0 and 1"):
        adult_prior(male_share=1.5)
    with pytest.raises(UnknownSurveyError, match="joined, us_army_2012, niosh_2003"):
        adult_prior(survey="mars_1999")
    with pytest.raises(UnknownSurveyError):
        survey_table("mars_1999", Sex.MALE)
    with pytest.raises(UnknownSurveyError):
        pair_standing("head_length", "head_breadth", "mars_1999")


def standing_of(pair: tuple[str, str], own: set[str]) -> PairStanding:
    """What a pair rests on in a prior whose main survey measured `own`."""
    if set(pair) & BUILT:
        return PairStanding.ASSUMED
    return PairStanding.MEASURED if set(pair) <= own else PairStanding.JOINED


@pytest.mark.parametrize("survey", SURVEYS)
def test_the_standing_of_every_pair_follows_from_what_each_survey_measured(survey):
    own = set(survey_table(survey, Sex.MALE).normal.names)
    for pair in PAIRS:
        one, other = pair
        standing, sources = pair_standing(one, other, survey)
        assert pair_standing(other, one, survey) == (standing, sources)
        assert set(sources) <= KNOWN
        assert standing is standing_of(pair, own)


def test_a_pair_of_the_blend_is_measured_only_where_both_surveys_measured_it():
    own = [set(survey_table(survey, Sex.MALE).normal.names) for survey in SURVEYS]
    for pair in PAIRS:
        standing, sources = pair_standing(*pair)
        assert standing is standing_of(pair, own[0] & own[1])
        named = {"assumed"} if standing is PairStanding.ASSUMED else set(sources) & set(SURVEYS)
        assert set(sources) == named
        if standing is PairStanding.MEASURED:
            assert sources == SURVEYS


def test_height_and_jaw_are_joined_in_the_blend():
    assert pair_standing("tragion_to_top", "head_length") == (
        PairStanding.JOINED,
        ("us_army_2012",),
    )
    assert pair_standing("bigonial_breadth", "head_breadth") == (
        PairStanding.JOINED,
        ("niosh_2003",),
    )


def test_a_pair_of_one_measure_or_of_none_is_refused():
    with pytest.raises(ValueError, match="two different"):
        pair_standing("head_length", "head_length")
    with pytest.raises(UnknownMeasureError):
        pair_standing("head_length", "hat_size")


def test_a_youth_s_pairs_stand_as_the_youth_surveys_took_them():
    table = youth_table(Sex.MALE)
    own = set(table.measures)
    for pair in PAIRS:
        standing, sources = pair_standing(*pair, "youth")
        if not set(pair) <= own:
            assert (standing, sources) == (PairStanding.ASSUMED, ("assumed",))
            continue
        one, other = (table.measures.index(each) for each in pair)
        together = table.pairs[one, other] > 0
        assert standing is (PairStanding.MEASURED if together else PairStanding.JOINED)
        assert sources == ("snyder_1977",)


LETTERS = {"M": PairStanding.MEASURED, "J": PairStanding.JOINED, "A": PairStanding.ASSUMED}


def test_the_page_about_heads_shows_the_standing_of_every_pair():
    page = (Path(__file__).parents[2] / "docs" / "explanation" / "head.md").read_text("utf-8")
    table = page.partition("<!-- pairs -->\n")[2].partition("\n\n")[0]
    rows = [
        [cell.strip() for cell in line.strip("|").split("|")] for line in table.splitlines()[2:]
    ]
    assert [row[0] for row in rows] == [key.replace("_", " ") for key in MEASURE_KEYS]
    for down, row in enumerate(rows):
        for across, letter in enumerate(row[1:]):
            if down == across:
                assert letter == ""
                continue
            survey = "joined" if across > down else "youth"
            standing, _ = pair_standing(MEASURE_KEYS[down], MEASURE_KEYS[across], survey)
            assert LETTERS[letter] is standing
