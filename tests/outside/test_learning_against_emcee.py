"""What is learned, against an ensemble sampler of another kind on the same likelihood.

A normal prior and ordered answers of a fitter who never slips: slips make tails in which either
sampler wants many more draws, and are held to a grid elsewhere.
"""

from functools import cache

import emcee
import numpy as np
import pytest

from helmwright.catalogue import Zone
from helmwright.fit import Rater
from helmwright.fit.finding import Finding, Grade, Sign, Tried
from helmwright.fit.finding_chances import log_likelihood
from helmwright.fit.learn import learn
from tests.fit.clouds import all_right, cloud_of, good_build, held, own_of, unknown_column

SURE = Rater(slip=0.0)
BROW = 1 + 8 + sum(len(pad.seats) for pad in cloud_of(1).sheet.pads)
"""Place of the brow's error among the unknowns: after the zones' and the contacts'."""

FREE = [
    *(
        unknown_column(cloud_of(1), place)
        for place in (0, own_of(Zone.FRONT), own_of(Zone.REAR), BROW)
    ),
    cloud_of(1).columns.bias,
]
FOUND = Tried(
    good_build(),
    all_right(
        Finding(Sign.ZONE, Grade.UNDER, Zone.FRONT),
        Finding(Sign.ZONE, Grade.OVER, Zone.NAPE),
        brow_mm=33.0,
    ),
)
MOVES = [(emcee.moves.DEMove(), 0.8), (emcee.moves.DESnookerMove(), 0.2)]
WALKERS, BURN, KEPT = 120, 100, 300
WORTH = 300.0
"""Independent draws that 1024 learned ones are worth at the least: run to run, more than these."""


def log_posterior(values: np.ndarray) -> np.ndarray:
    cloud = held(FREE, values)
    build = FOUND.build
    found = log_likelihood(
        SURE, cloud.trial(build.shell), build, cloud.rest(build), FOUND.findings, cloud.felt_bias
    )
    return found - 0.5 * (values**2).sum(axis=1)


@cache
def sampled() -> tuple[np.ndarray, np.ndarray]:
    """The other sampler's draws, shape (steps, walkers, 5), and its autocorrelation times."""
    rng = np.random.default_rng(8)
    sampler = emcee.EnsembleSampler(WALKERS, len(FREE), log_posterior, vectorize=True, moves=MOVES)
    sampler.random_state = np.random.RandomState(8).get_state()
    sampler.run_mcmc(rng.standard_normal((WALKERS, len(FREE))), BURN + KEPT)
    return sampler.get_chain(discard=BURN), sampler.get_autocorr_time(discard=BURN, tol=0)


@cache
def learned() -> np.ndarray:
    """Ours, six times over, shape (6, draws, 5)."""
    runs = []
    for seed in range(6):
        rng = np.random.default_rng(seed)
        cloud = held(FREE, rng.standard_normal((1024, len(FREE))))
        runs.append(learn(cloud, [], FOUND, rater=SURE, rng=rng)[0].standard[:, FREE])
    return np.array(runs)


@pytest.mark.outside("emcee_2013")
def test_means_agree_within_the_errors_of_both():
    theirs, times = sampled()
    ours = learned()
    worth = theirs.shape[0] * theirs.shape[1] / times
    their_error = theirs.std(axis=(0, 1)) / np.sqrt(worth)
    our_error = ours.std(axis=(0, 1)) / np.sqrt(WORTH * len(ours))
    apart = np.abs(ours.mean(axis=(0, 1)) - theirs.mean(axis=(0, 1)))
    assert np.all(apart < 4.0 * np.hypot(their_error, our_error))
    assert np.abs(theirs.mean(axis=(0, 1))).max() > 0.4


@pytest.mark.outside("emcee_2013")
def test_spreads_and_correlations_agree():
    theirs, ours = sampled()[0].reshape(-1, len(FREE)), learned().reshape(-1, len(FREE))
    assert ours.std(axis=0) == pytest.approx(theirs.std(axis=0), rel=0.08)
    assert np.corrcoef(ours.T) == pytest.approx(np.corrcoef(theirs.T), abs=0.11)
    # Findings have made what was independent hang together.
    assert np.abs(np.corrcoef(theirs.T) - np.eye(len(FREE))).max() > 0.15
