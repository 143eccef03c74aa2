"""Published groups of heads as cases: what the prior expects of them, and what it flags."""

from math import atanh, sqrt

import numpy as np
import pytest

from helmwright.anatomy import (
    FindingKind,
    Sex,
    adult_prior,
    excess_over_ellipse,
    group_excess_finding,
)
from helmwright.anatomy.prior import population

# High-school players, college players, non-players; 30 each. Means [mm].
CIRCUMFERENCE = (589.4, 573.8, 577.7)
LENGTH = (201.1, 198.0, 198.1)
BREADTH = (152.0, 154.2, 155.8)
JAW = (122.7, 119.4, 118.0)
GROUP = 30


def standard_errors(measure: str, mean: float, count: int) -> float:
    """How far a group's mean lies from the men of the prior, in standard errors."""
    part = population(Sex.MALE, "joined").marginal([measure])
    return float((mean - part.mean[0]) / (part.sd[0] / sqrt(count)))


def correlation(first: str, second: str) -> float:
    part = population(Sex.MALE, "joined").marginal([first, second])
    return float(part.covariance[0, 1] / part.sd.prod())


@pytest.mark.outside("foot_head")
@pytest.mark.parametrize(
    ("measure", "means"),
    [
        ("head_circumference", CIRCUMFERENCE[1:]),
        ("head_length", LENGTH),
        ("head_breadth", BREADTH),
        ("bigonial_breadth", JAW),
    ],
)
def test_groups_of_thirty_have_the_mean_heads_that_the_prior_expects(measure, means):
    # Three standard errors of a mean of 30.
    assert all(abs(standard_errors(measure, mean, GROUP)) < 3.0 for mean in means)


@pytest.mark.outside("foot_head")
def test_the_high_school_groups_circumferences_are_out_of_line():
    assert standard_errors("head_circumference", CIRCUMFERENCE[0], GROUP) > 4.0
    excesses = [
        excess_over_ellipse(girth, length, breadth)
        for girth, length, breadth in zip(CIRCUMFERENCE, LENGTH, BREADTH, strict=True)
    ]
    school, college, others = (group_excess_finding([excess] * GROUP) for excess in excesses)
    assert school is not None
    assert school.kind is FindingKind.OUTLINE
    assert "run long" in school.message
    assert college is None
    assert others is None


@pytest.mark.outside("foot_head")
@pytest.mark.parametrize(
    ("first", "second", "published"),
    [
        ("head_circumference", "head_length", 0.776),
        ("head_circumference", "head_breadth", 0.497),
        ("head_length", "head_breadth", 0.327),
        ("head_circumference", "bigonial_breadth", 0.464),
    ],
)
def test_correlations_within_the_groups_are_those_of_the_prior(first, second, published):
    # Fisher's z of a pooled correlation of 90 people in three groups has SD 1 / sqrt(84).
    apart = (atanh(published) - atanh(correlation(first, second))) * sqrt(84.0)
    assert abs(apart) < 2.6


FRETS = [(185.7, 9.8, 151.1, 7.4, 0.735), (183.8, 10.0, 149.2, 6.7, 0.839)]


@pytest.mark.outside("frets_1921")
@pytest.mark.parametrize(("length", "_length_sd", "breadth", "_breadth_sd", "_r"), FRETS)
def test_the_mean_brother_of_1921_is_a_head_the_prior_allows(
    length, _length_sd, breadth, _breadth_sd, _r
):
    prior = adult_prior(Sex.MALE)
    for measure, mean in (("head_length", length), ("head_breadth", breadth)):
        low, high = prior.interval(measure, 0.98)
        assert low < mean < high
    assert 70.0 < 100.0 * breadth / length < 88.0


@pytest.mark.outside("frets_1921")
@pytest.mark.parametrize(("length", "length_sd", "_breadth", "_breadth_sd", "r"), FRETS)
def test_the_brothers_of_1921_are_no_sample_of_the_priors_people(
    length, length_sd, _breadth, _breadth_sd, r
):
    # A limit of the prior, stated: shorter heads, wider spread, far stronger correlation.
    assert standard_errors("head_length", length, 25) < -6.0
    assert length_sd > 1.3 * population(Sex.MALE, "joined").marginal(["head_length"]).sd[0]
    apart = (atanh(r) - atanh(correlation("head_length", "head_breadth"))) * sqrt(22.0)
    assert apart > 3.0


@pytest.mark.outside("us_army_2012", "niosh_2003")
def test_drawn_men_exceed_the_ellipse_as_the_survey_s_men_do():
    # Mean within 0.7, SD within 10 percent: the perimeter bends a little over normal draws.
    for survey, mean, sd in (("us_army_2012", 16.2, 6.3), ("niosh_2003", 23.3, 8.9)):
        names = ["head_circumference", "head_length", "head_breadth"]
        draws = population(Sex.MALE, survey).marginal(names).draw(4000, np.random.default_rng(17))
        excess = [excess_over_ellipse(*row) for row in draws]
        assert np.mean(excess) == pytest.approx(mean, abs=0.7)
        assert np.std(excess) == pytest.approx(sd, rel=0.1)


@pytest.mark.outside("us_army_2012")
@pytest.mark.parametrize(("sex", "mean", "sd"), [(Sex.MALE, 77.4, 3.6), (Sex.FEMALE, 77.9, 3.7)])
def test_drawn_heads_have_the_cephalic_index_of_the_survey(sex, mean, sd):
    draws = population(sex, "us_army_2012").draw(20_000, np.random.default_rng(19))
    names = population(sex, "us_army_2012").names
    index = 100.0 * draws[:, names.index("head_breadth")] / draws[:, names.index("head_length")]
    # Four standard errors of the mean, and rounding; 5 percent on the SD.
    assert index.mean() == pytest.approx(mean, abs=0.15)
    assert index.std() == pytest.approx(sd, rel=0.05)
