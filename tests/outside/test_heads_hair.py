"""The hair in the surveys' circumferences of women, against the surveys' own numbers."""

import numpy as np
import pytest

from helmwright.anatomy import Sex, adult_prior, excess_over_ellipse, head_prior
from helmwright.anatomy.covering import GIRLS_HAIR, SURVEY_HAIR
from helmwright.anatomy.outline import GROUP_EXCESS
from helmwright.anatomy.prior import population
from helmwright.belief import Normal, exactly
from tests.outside.surveyed import as_surveyed

SURVEYS = ("us_army_2012", "niosh_2003")
RESIDUALS = {"us_army_2012": (6.21, 10.85), "niosh_2003": (8.73, 13.75)}
"""SD of circumference given length and breadth, men and women, from the rows [mm]."""


def mean_excess(belief: Normal) -> float:
    one = belief.marginal(["head_circumference", "head_length", "head_breadth"]).mean
    return excess_over_ellipse(float(one[0]), float(one[1]), float(one[2]))


def residual(belief: Normal) -> float:
    after = belief.given(
        [
            exactly(name, belief.predicted({name: 1.0})[0])
            for name in ("head_length", "head_breadth")
        ]
    )
    return float(after.marginal(["head_circumference"]).sd[0])


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize(("survey", "place"), [("us_army_2012", 0), ("niosh_2003", 1)])
def test_the_hair_is_what_the_womens_mean_excess_has_beyond_the_mens(survey, place):
    women, men = (GROUP_EXCESS[sex][place].value for sex in (Sex.FEMALE, Sex.MALE))
    assert SURVEY_HAIR[survey].value == pytest.approx(women - men, abs=0.06)


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize("survey", SURVEYS)
def test_its_spread_is_what_the_womens_residual_has_beyond_the_mens(survey):
    men, women = RESIDUALS[survey]
    assert SURVEY_HAIR[survey].spread == pytest.approx(np.sqrt(women**2 - men**2), abs=0.06)


@pytest.mark.outside("snyder_1977")
def test_the_girls_excess_is_little_beyond_the_boys():
    # Means 8.7 of boys and 10.5 of girls of 8 to 18, SD 9.8 and 8.8: no spread beyond the boys'.
    assert GIRLS_HAIR.value == pytest.approx(10.5 - 8.7, abs=0.06)
    assert GIRLS_HAIR.spread == 0.0


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize("survey", [*SURVEYS, "joined"])
def test_bared_womens_heads_are_as_square_and_as_varied_as_mens(survey):
    women = adult_prior(Sex.FEMALE, survey=survey).parts[0]
    men = adult_prior(Sex.MALE, survey=survey).parts[0]
    assert mean_excess(women) == pytest.approx(mean_excess(men), abs=1.0)
    assert residual(women) == pytest.approx(residual(men), abs=0.6)
    correlation = women.covariance / np.outer(women.sd, women.sd)
    assert np.linalg.eigvalsh(correlation).min() > 1e-3


@pytest.mark.outside("us_army_2012", "niosh_2003")
@pytest.mark.parametrize("survey", [*SURVEYS, "joined"])
@pytest.mark.parametrize("sex", Sex)
def test_with_their_hair_back_on_heads_are_as_they_were_surveyed(survey, sex):
    surveyed = population(sex, survey)
    again = (
        as_surveyed(adult_prior(sex, survey=survey), survey).parts[0].marginal(surveyed.names[:2])
    )
    for name in ("head_circumference", "tape_circumference"):
        mean, variance = again.predicted({name: 1.0})
        assert (mean, variance) == pytest.approx(surveyed.predicted({name: 1.0}))


@pytest.mark.outside("us_army_2012", "niosh_2003", "snyder_1977")
def test_hair_comes_over_the_years_as_the_adult_surveys_do():
    surveyed_less_bare = []
    for age in (12.5, 16.5, 18.5, 19.5, 25.5):
        bare = head_prior(Sex.FEMALE, age_years=age)
        whole = as_surveyed(bare, "joined")
        surveyed_less_bare.append(float(whole.mean[-2] - bare.mean[0]))
    assert surveyed_less_bare == sorted(surveyed_less_bare)
    assert surveyed_less_bare[0] == pytest.approx(1.8)
    assert surveyed_less_bare[-1] == pytest.approx(10.2)
