"""How findings change what is believed of head, helmet and fitter."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadEstimate
from helmwright.belief.particles import effective_size, next_step
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.cloud import Cloud, draw_cloud
from helmwright.fit.finding import Sign, Tried
from helmwright.fit.finding_chances import chances
from helmwright.fit.in_band import in_band
from helmwright.fit.outlook import Build
from helmwright.fit.rater import Rater
from helmwright.fit.seating import PadLaws
from helmwright.fit.verdict import Bands
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


def relearn(
    estimate: HeadEstimate,
    sheet: ModelSheet,
    tried: Sequence[Tried],
    count: int,
    rng: np.random.Generator,
    *,
    rater: Rater,
    bands: Bands | None = None,
    laws: PadLaws | None = None,
) -> tuple[Cloud, tuple[Learned, ...]]:
    """What is believed of a head after a reading was added: drawn anew, every try-on learned again.

    Parameters
    ----------
    estimate
        With the new reading.
    sheet, count, rng, rater, bands, laws
        As for `draw_cloud`.
    tried
        Everything found so far.
    """
    cloud = draw_cloud(estimate, sheet, count, rng, rater=rater, bands=bands, laws=laws)
    learned = []
    for place, each in enumerate(tried):
        cloud, how = learn(cloud, tried[:place], each, rater=rater, rng=rng)
        learned.append(how)
    return cloud, tuple(learned)


@dataclass(frozen=True, slots=True)
class TruthChances:
    """How likely a build truly is in band, as believed.

    Parameters
    ----------
    zones
        By zone, those without a pad left out [1].
    brow
        The brow height's [1].
    fits
        Everything at once [1].
    """

    zones: dict[Zone, float]
    brow: float
    fits: float


def truth_chances(cloud: Cloud, build: Build) -> TruthChances:
    """Chance that each zone, the brow, and all at once truly are in band."""
    return TruthChances(
        zones={
            zone: truth_chance(cloud, build, Sign.ZONE, zone)
            for zone in ZONES
            if cloud.sheet.pad(zone).seats
        },
        brow=truth_chance(cloud, build, Sign.BROW),
        fits=float(cloud.rest(build).right.mean()),
    )


def truth_chance(cloud: Cloud, build: Build, sign: Sign, zone: Zone | None = None) -> float:
    """Chance that what one check looks at truly is in its band."""
    rest, trial = cloud.rest(build), cloud.trial(build.shell)
    return float(in_band(trial, build, rest, sign, zone).mean())


def foreseen(
    cloud: Cloud, build: Build, sign: Sign, zone: Zone | None = None, *, rater: Rater
) -> Floats:
    """Chances of under, right and over if one check were made now, shape (3,)."""
    rest, trial = cloud.rest(build), cloud.trial(build.shell)
    bias = cloud.felt_bias
    return np.asarray(chances(rater, trial, build, rest, sign, zone, bias).mean(axis=0))
