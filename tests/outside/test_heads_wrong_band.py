"""The chance that a tape's error puts a head into the wrong circumference band."""

from itertools import pairwise

import numpy as np
import pytest
from scipy.stats import multivariate_normal, norm

from helmwright.anatomy import Over, Reading, Sex, adult_prior, error_variance, estimate_head
from helmwright.belief import Normal
from helmwright.catalogue import load_packaged
from helmwright.fit.covering import worn_tape
from helmwright.fit.size_risk import size_risk

# This project's own count on the Army's published records, with normal errors added.
# Percent, by bin width [mm] and SD of the error [mm]; 1.73 is the mean of three readings of 3.
RESAMPLED = {
    (10, 2.0): 15.1,
    (10, 3.0): 23.2,
    (10, 5.0): 38.7,
    (10, 7.0): 50.9,
    (10, 3.0 / np.sqrt(3.0)): 13.1,
    (20, 2.0): 7.7,
    (20, 3.0): 11.8,
    (20, 5.0): 19.9,
    (20, 7.0): 27.9,
    (20, 3.0 / np.sqrt(3.0)): 6.6,
    (25, 2.0): 6.7,
    (25, 3.0): 10.0,
    (25, 5.0): 16.4,
    (25, 7.0): 22.7,
    (25, 3.0 / np.sqrt(3.0)): 5.9,
}


def with_reading(error: float) -> Normal:
    """Belief over a man's circumference and a reading of it."""
    part = adult_prior(Sex.MALE).parts[0].marginal(["head_circumference"])
    return part.extended("read", {"head_circumference": 1.0}, offset=0.0, variance=error**2)


def drawn(width: int, error: float) -> float:
    """Share of draws whose reading falls into another band, percent."""
    draws = with_reading(error).draw(200_000, np.random.default_rng(13))
    bands = np.floor((draws - 510.0) / width)
    return 100.0 * float(np.mean(bands[:, 0] != bands[:, 1]))


def integrated(width: int, error: float) -> float:
    """The same from rectangle probabilities of the bivariate normal distribution, percent."""
    belief = with_reading(error)
    law = multivariate_normal(belief.mean, belief.covariance)
    edges = np.arange(510.0 - 2 * width, 660.0, width)
    same = sum(law.cdf([high, high], lower_limit=[low, low]) for low, high in pairwise(edges))
    return 100.0 * (1.0 - float(same))


@pytest.mark.outside("scipy_stats")
@pytest.mark.parametrize(("width", "error"), [(10, 3.0), (20, 3.0), (20, 5.0), (25, 7.0)])
def test_draws_miss_the_band_as_often_as_the_closed_form_says(width, error):
    # Four standard errors of a share of 200,000 draws.
    assert drawn(width, error) == pytest.approx(integrated(width, error), abs=0.45)


@pytest.mark.outside("wrong_band_simulation", "us_army_2012")
@pytest.mark.parametrize(("width", "error"), RESAMPLED)
def test_draws_miss_the_band_as_often_as_resampled_men_do(width, error):
    # The records are whole millimeters, heaped, and their bands start elsewhere: 1.5 points.
    assert drawn(width, error) == pytest.approx(RESAMPLED[width, error], abs=1.5)


def stated_and_true(count: int) -> tuple[float, float]:
    """Mean stated risk of `count` men's tapes, evenly likely, and the closed form of it [1]."""
    part = adult_prior(Sex.MALE).parts[0].marginal(["tape_circumference"])
    variance = error_variance("tape_circumference", 1)
    read = np.sqrt(part.covariance[0, 0] + variance)
    places = (np.arange(count) + 0.5) / count
    sheet, rng, risks = load_packaged("ouzel"), np.random.default_rng(17), []
    for value in part.mean[0] + read * norm.ppf(places):
        head = estimate_head([Reading("tape_circumference", float(value), Over.BARE)], sex=Sex.MALE)
        found = size_risk(head, sheet, worn_tape(head, 1000, rng))
        assert found is not None
        risks.append(found.chance)
    both = part.extended("read", {"tape_circumference": 1.0}, offset=0.0, variance=variance)
    law = multivariate_normal(both.mean, both.covariance)
    shells = [(shell.chart_low_mm, shell.chart_high_mm) for shell in sheet.shells]
    edges = [(200.0, shells[0][0]), *shells, (shells[-1][1], 900.0)]
    same = sum(law.cdf([high, high], lower_limit=[low, low]) for low, high in edges)
    return float(np.mean(risks)), 1.0 - float(same)


@pytest.mark.outside("scipy_stats", "us_army_2012")
def test_the_risk_stated_with_each_reading_comes_to_the_closed_form_over_all_of_them():
    # 400 places stand for all readings; bands of 20 mm hold some 50 of them.
    stated, true = stated_and_true(400)
    assert stated == pytest.approx(true, abs=0.01)
    # By the table above, for a reading error of 3 and a person's bias of 1.5: 12 to 14 of 100.
    assert true == pytest.approx(0.133, abs=0.02)
