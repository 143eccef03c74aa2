"""How findings change what is believed of head, helmet and fitter."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadEstimate
from helmwright.belief.particles import effective_size, next_step, resampled
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.cloud import Cloud, draw_cloud
from helmwright.fit.finding import Finding, Sign, Tried
from helmwright.fit.finding_chances import chances, log_likelihood
from helmwright.fit.in_band import in_band
from helmwright.fit.outlook import Build
from helmwright.fit.rater import Rater
from helmwright.fit.seating import PadLaws
from helmwright.fit.verdict import Bands
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]

DRAWS = 1024
"""Draws of a visit's belief."""

LEAST_SHARE = 0.5
"""Share of the draws that the effective size never falls below."""

WANTED_ACCEPTANCE = Figure(
    0.3, "1", ASSUMED, note="share of moves that are to be accepted; steps are sized for it"
)


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
        Share of the moves that were accepted, by kind.
    log_evidence
        Estimate of the logarithm of the chance (or density) of the new findings given the old.
    """

    effective: float
    temperatures: tuple[float, ...]
    accepted: tuple[float, ...]
    log_evidence: float


@dataclass(frozen=True)
class _Found:
    """Findings by build, those before and the new ones."""

    rater: Rater
    before: dict[Build, list[Finding]]
    new: Tried

    def before_on(self, cloud: Cloud) -> Floats:
        """Log-likelihood of everything before, shape (n,)."""
        total = np.zeros(len(cloud))
        for build, findings in self.before.items():
            total += self._of(cloud, build, findings)
        return total

    def new_on(self, cloud: Cloud) -> Floats:
        """Log-likelihood of what is new, shape (n,)."""
        return self._of(cloud, self.new.build, self.new.findings)

    def _of(self, cloud: Cloud, build: Build, findings: Sequence[Finding]) -> Floats:
        return log_likelihood(
            self.rater, cloud.trial(build.shell), build, cloud.rest(build), findings,
            cloud.felt_bias,
        )  # fmt: skip


@dataclass
class _Walk:
    """The draws as they are, with the log-likelihoods they were accepted with."""

    cloud: Cloud
    before: Floats
    new: Floats
    steps: dict[str, float]

    def resample(self, log_weights: Floats, rng: np.random.Generator) -> None:
        which = resampled(log_weights, rng)
        self.cloud = self.cloud.chosen(which)
        self.before, self.new = self.before[which], self.new[which]


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
        How often the draws are moved at each temperature.

    Returns
    -------
    The cloud of as many equally likely draws given everything, and how it went.

    Notes
    -----
    The new likelihood is taken in by powers t between 0 and 1, each as much larger as leaves an
    effective size of half the draws. At each, the draws are resampled and moved by preconditioned
    Crank-Nicolson steps on their standard normal numbers, z' = sqrt(1 - b^2) z + b e: these leave
    the prior as it is, so that a move is accepted with the ratio of the likelihoods of all
    findings, the new one's to the power t, and the posterior stays exactly as it is. Heads and what
    is not known of them move in turn. The step b is sized for an acceptance of 0.3 by what earlier
    moves came to.

    References
    ----------
    Del Moral, Doucet and Jasra 2006, J. R. Stat. Soc. B 68:411. Cotter, Roberts, Stuart and White
    2013, Stat. Sci. 28:424. Both from memory.
    """
    found = _Found(rater, _by_build(before), new)
    walk = _Walk(cloud, found.before_on(cloud), found.new_on(cloud), {"head": 0.5, "rest": 0.5})
    effective = effective_size(walk.new)
    reached, evidence = 0.0, 0.0
    temperatures: list[float] = []
    accepted: list[float] = []
    while reached < 1.0:
        step = next_step(walk.new, 1.0 - reached, LEAST_SHARE * len(cloud))
        evidence += _log_mean_exp(step * walk.new)
        reached = min(reached + step, 1.0)
        walk.resample(step * walk.new, rng)
        temperatures.append(reached)
        for _ in range(rounds):
            accepted += [_move(walk, found, reached, kind, rng) for kind in ("rest", "head")]
    return walk.cloud, Learned(effective, tuple(temperatures), tuple(accepted), evidence)


def _move(walk: _Walk, found: _Found, power: float, kind: str, rng: np.random.Generator) -> float:
    """One step of every draw; the share that was accepted."""
    proposed = _proposed(walk.cloud, kind, walk.steps[kind], rng)
    before, new = found.before_on(proposed), found.new_on(proposed)
    gain = before - walk.before + power * (new - walk.new)
    taken = np.log(rng.random(gain.size)) < gain
    walk.cloud = walk.cloud.taking(proposed, taken)
    walk.before = np.where(taken, before, walk.before)
    walk.new = np.where(taken, new, walk.new)
    share = float(taken.mean())
    walk.steps[kind] = float(
        np.clip(walk.steps[kind] * np.exp(share - WANTED_ACCEPTANCE.value), 0.05, 1.0)
    )
    return share


def _proposed(cloud: Cloud, kind: str, step: float, rng: np.random.Generator) -> Cloud:
    head = cloud.columns.head
    moving = np.zeros(cloud.columns.count, dtype=bool)
    moving[head] = True
    if kind == "rest":
        moving = ~moving
    fresh = rng.standard_normal((len(cloud), int(moving.sum())))
    standard = cloud.standard.copy()
    standard[:, moving] = np.sqrt(1.0 - step**2) * standard[:, moving] + step * fresh
    if kind == "rest" or len(cloud.estimate.drawn_from.parts) == 1:
        return cloud.moved(standard)
    drawn = cloud.estimate.drawn_from.draw_parts(len(cloud), rng)
    change = rng.random(len(cloud)) < 0.5
    return cloud.moved(standard, np.where(change, drawn, cloud.part_of))


def _by_build(tried: Sequence[Tried]) -> dict[Build, list[Finding]]:
    found: dict[Build, list[Finding]] = {}
    for each in tried:
        found.setdefault(each.build, []).extend(each.findings)
    return found


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
