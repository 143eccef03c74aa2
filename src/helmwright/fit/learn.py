"""How findings change what is believed of head, helmet and fitter."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.belief.particles import effective_size, next_step
from helmwright.catalogue.zone import Zone
from helmwright.fit.cloud import Cloud
from helmwright.fit.finding import Sign, Tried
from helmwright.fit.in_band import in_band
from helmwright.fit.outlook import Build
from helmwright.fit.rater import Rater
from helmwright.fit.walk import Everything, Walk

Floats = npt.NDArray[np.float64]

DRAWS = 1024
"""Draws of a visit's belief."""

LEAST_SHARE = 0.5
"""Share of the draws that the effective size never falls below."""

NEARLY_ALL = 0.95
"""Share of the draws at which, or above, an effective size costs hardly a draw."""


@dataclass(frozen=True, slots=True)
class Learned:
    """How well the draws took in what was found.

    Parameters
    ----------
    effective
        How many equally likely draws the old ones would have been worth under the new findings,
        before anything was done about it.
    temperatures
        The powers of the new likelihood at which the draws were made equal again; the last is 1.
    accepted
        Share of the moves that were accepted, one for each round of them.
    log_evidence
        Estimate of the logarithm of the chance (or density) of the new findings given the old.
    """

    effective: float
    temperatures: tuple[float, ...]
    accepted: tuple[float, ...]
    log_evidence: float


def learn(
    cloud: Cloud,
    before: Sequence[Tried],
    new: Tried,
    *,
    rater: Rater,
    rng: np.random.Generator,
    rounds: int = 2,
) -> tuple[Cloud, Learned]:
    """Take in what was found at one try-on.

    Parameters
    ----------
    cloud
        What was believed, everything before taken in.
    before
        Everything found before, so that the moves know it.
    new
        What was found now; the build may be one of those before.
    rater
        Who found it.
    rng
        The random generator.
    rounds
        How often the draws are moved once everything is taken in.

    Returns
    -------
    The cloud of as many equally likely draws given everything, and how it went.

    Notes
    -----
    The new likelihood is taken in by powers t between 0 and 1, each as much larger as leaves an
    effective size of half the draws. At each, the draws are resampled and moved; a move is accepted
    with the ratio of prior times likelihood of all findings, the new one's to the power t, so that
    it leaves just that distribution as it is. Where the new findings leave an effective size of
    nearly all, nothing is moved: hardly a draw was lost.

    References
    ----------
    Del Moral, Doucet and Jasra 2006, J. R. Stat. Soc. B 68:411, from memory.
    """
    walk = Walk.of(cloud, Everything(rater, before, new))
    effective = effective_size(walk.new)
    reached, evidence = 0.0, 0.0
    temperatures: list[float] = []
    accepted: list[float] = []
    while reached < 1.0:
        left = 1.0 - reached
        step = next_step(walk.new, left, LEAST_SHARE * len(cloud))
        evidence += _log_mean_exp(step * walk.new)
        reached = 1.0 if step == left else reached + step
        walk = walk.resampled(step * walk.new, rng)
        temperatures.append(reached)
        if effective < NEARLY_ALL * len(cloud):
            for _ in range(rounds if reached == 1.0 else 1):
                walk, share = walk.moved(reached, rng)
                accepted.append(share)
    return walk.cloud, Learned(effective, tuple(temperatures), tuple(accepted), evidence)


def _log_mean_exp(values: Floats) -> float:
    most = float(values.max())
    return most + float(np.log(np.exp(values - most).mean()))


def truth_chance(cloud: Cloud, build: Build, sign: Sign, zone: Zone | None = None) -> float:
    """Chance that what one check looks at truly is in its band."""
    rest, trial = cloud.rest(build), cloud.trial(build.shell)
    return float(in_band(trial, build, rest, sign, zone).mean())
