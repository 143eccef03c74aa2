"""What is learned, against Bayes' theorem on a grid: few unknowns, everything else known."""

from functools import cache

import numpy as np
import pytest

from helmwright.catalogue import Zone
from helmwright.fit.cloud import Cloud
from helmwright.fit.finding import Finding, Grade, Sign, Tried
from helmwright.fit.finding_chances import log_likelihood
from helmwright.fit.learn import learn
from tests.fit.clouds import RATER, all_right, cloud_of, good_build, held, own_of, unknown_column
from tests.fit.ordinary import moved

FRONT_AND_BIAS = [
    unknown_column(cloud_of(1), own_of(Zone.FRONT)),
    cloud_of(1).columns.bias,
]
FIRST = Tried(
    good_build(),
    all_right(
        Finding(Sign.ZONE, Grade.OVER, Zone.FRONT),
        Finding(Sign.ZONE, Grade.OVER, Zone.NAPE),
        brow_mm=28.0,
    ),
)
SECOND = Tried(
    moved(good_build(), front=-1, nape=-1), all_right(Finding(Sign.ZONE, Grade.UNDER, Zone.FRONT))
)
DRAWS = 2048


def log_chance(cloud: Cloud, tried: Tried) -> np.ndarray:
    build = tried.build
    return log_likelihood(
        RATER, cloud.trial(build.shell), build, cloud.rest(build), tried.findings, cloud.felt_bias
    )


@cache
def enumerated() -> tuple[np.ndarray, np.ndarray, float, np.ndarray]:
    """Means and covariances after both try-ons, log evidence of the first, weights after it."""
    line = np.linspace(-4.5, 4.5, 91)
    cells = np.array([(front, bias) for front in line for bias in line])
    prior = np.exp(-0.5 * (cells**2).sum(axis=1))
    prior /= prior.sum()
    cloud = held(FRONT_AND_BIAS, cells)
    first = prior * np.exp(log_chance(cloud, FIRST))
    both = first * np.exp(log_chance(cloud, SECOND))
    weight = both / both.sum()
    mean = weight @ cells
    covariance = (cells - mean).T @ (weight[:, None] * (cells - mean))
    after_first = first / first.sum()
    return mean, covariance, float(np.log(first.sum())), after_first @ cells


@cache
def learned(seed: int) -> tuple[np.ndarray, float, np.ndarray]:
    """Both numbers after both try-ons, the first's log evidence, and its plain weighted means."""
    rng = np.random.default_rng(seed)
    cloud = held(FRONT_AND_BIAS, rng.standard_normal((DRAWS, 2)))
    weight = np.exp(log_chance(cloud, FIRST))
    weighted = weight @ cloud.standard[:, FRONT_AND_BIAS] / weight.sum()
    after, first = learn(cloud, [], FIRST, rater=RATER, rng=rng)
    after, _ = learn(after, [FIRST], SECOND, rater=RATER, rng=rng)
    return after.standard[:, FRONT_AND_BIAS], first.log_evidence, weighted


@pytest.mark.outside("bayes_1763")
def test_the_weights_of_one_try_on_are_those_of_the_grid():
    _, _, log_evidence, mean = enumerated()
    runs = np.array([learned(seed)[2] for seed in range(6)])
    evidence = np.array([learned(seed)[1] for seed in range(6)])
    error = np.maximum(runs.std(axis=0, ddof=1), 0.01) / np.sqrt(6)
    assert np.all(np.abs(runs.mean(axis=0) - mean) < 4.5 * error)
    assert evidence.mean() == pytest.approx(log_evidence, abs=0.06)
    # The findings do tell something: the grid's means are no longer those of the prior.
    assert np.abs(mean).max() > 0.2


@pytest.mark.outside("bayes_1763")
def test_draws_that_were_resampled_and_moved_after_two_try_ons_are_those_of_the_grid():
    mean, covariance, _, _ = enumerated()
    drawn = np.array([learned(seed)[0] for seed in range(6)])
    means = drawn.mean(axis=1)
    sd = np.sqrt(np.diag(covariance))
    error = np.maximum(means.std(axis=0, ddof=1), sd / np.sqrt(DRAWS)) / np.sqrt(6)
    assert np.all(np.abs(means.mean(axis=0) - mean) < 4.5 * error)
    pooled = np.cov(drawn.reshape(-1, 2).T)
    assert np.sqrt(np.diag(pooled)) == pytest.approx(sd, rel=0.05)
    correlation = covariance[0, 1] / sd.prod()
    assert pooled[0, 1] / sd.prod() == pytest.approx(correlation, abs=0.06)
