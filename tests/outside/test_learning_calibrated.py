"""Simulation-based calibration: a truth drawn from the belief ranks anywhere among what is learned.

The moves against a posterior in closed form, and the whole of learning by ranks.
"""

from functools import cache

import numpy as np
import pytest
from scipy.stats import chi2

from helmwright.belief import Normal, Observation
from helmwright.belief.moves import Step
from helmwright.catalogue import Zone
from helmwright.fit.cloud import Cloud
from helmwright.fit.finding import Tried
from helmwright.fit.learn import learn
from tests.fit.clouds import RATER, answered, cloud_of, good_build
from tests.fit.ordinary import moved, pressure

TRUTHS, DRAWS, BINS = 96, 63, 8


@pytest.mark.outside("scipy_stats")
def test_moves_leave_a_posterior_in_closed_form_as_it_is():
    """Two numbers, one reading of their sum: draws of the posterior, moved, stay draws of it."""
    count, reading, variance = 40_000, 1.7, 0.25
    prior = Normal(("x", "y", "z"), np.zeros(3), np.eye(3))
    posterior = prior.given([Observation({"x": 1.0, "y": 1.0}, reading, variance, "sum")])
    rng = np.random.default_rng(4)
    draws = posterior.draw(count, rng)
    basis = np.array([[1.0], [0.0], [0.0]])
    step = Step.fitted(draws, basis, 0.7)

    def log_chance(rows):
        return -0.5 * (reading - rows[:, 0] - rows[:, 1]) ** 2 / variance

    for _ in range(5):
        there = step.proposed(draws, rng)
        gain = step.log_odds(there) - step.log_odds(draws) + log_chance(there) - log_chance(draws)
        taken = np.log(rng.random(count)) < gain
        draws = np.where(taken[:, None], there, draws)
        assert 0.05 < taken.mean() < 0.95
    assert draws.mean(axis=0) == pytest.approx(posterior.mean, abs=4.5 / np.sqrt(count))
    assert np.cov(draws.T) == pytest.approx(posterior.covariance, abs=7.0 / np.sqrt(count))


def looked_at(cloud: Cloud) -> np.ndarray:
    """What the ranks are taken of, shape (5, n)."""
    rest = cloud.rest(good_build())
    return np.array(
        [
            rest.brow_mm,
            pressure(rest, Zone.FRONT),
            rest.zone_stroke_mm[:, 3],
            cloud.felt_bias,
            cloud.heads.of("head_length"),
        ]
    )


@cache
def ranks() -> np.ndarray:
    """Ranks of truths among what was learned of them at two try-ons, shape (truths, 5)."""
    rng = np.random.default_rng(21)
    truths = cloud_of(TRUTHS, 77)
    first, second = good_build(), moved(good_build(), front=1, crown=-1)
    found = [answered(truths, build, rng) for build in (first, second)]
    true = looked_at(truths)
    ranked = []
    for place in range(TRUTHS):
        tried = [Tried(first, found[0][place]), Tried(second, found[1][place])]
        cloud = cloud_of(DRAWS, 1000 + place)
        for at, each in enumerate(tried):
            cloud, _ = learn(cloud, tried[:at], each, rater=RATER, rng=rng)
        ranked.append((looked_at(cloud) < true[:, place, None]).sum(axis=1))
    return np.array(ranked)


@pytest.mark.outside("talts_2018")
@pytest.mark.parametrize("quantity", range(5))
def test_a_truth_ranks_anywhere_among_what_was_learned_of_it(quantity):
    counts = np.bincount(ranks()[:, quantity] * BINS // (DRAWS + 1), minlength=BINS)
    expected = TRUTHS / BINS
    misfit = ((counts - expected) ** 2 / expected).sum()
    # A thousandth: five quantities are looked at.
    assert misfit < chi2.ppf(0.999, BINS - 1), counts


@pytest.mark.outside("talts_2018")
@pytest.mark.parametrize("quantity", range(5))
def test_truths_rank_neither_too_much_in_the_middle_nor_at_the_ends(quantity):
    """The spread of ranks is that of a uniform number: beliefs neither too wide nor too sharp."""
    share = (ranks()[:, quantity] + 0.5) / (DRAWS + 1)
    spread = np.mean((share - 0.5) ** 2)
    # Of a uniform number the square about the middle has mean 1/12 and variance 1/180.
    assert spread == pytest.approx(1.0 / 12.0, abs=3.5 * np.sqrt(1.0 / 180.0 / TRUTHS))
