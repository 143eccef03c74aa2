"""Every build of a box on the same draws, with the real contact; the hopeless ones are dropped."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import product

import numpy as np
import numpy.typing as npt
from scipy.stats import binom

from helmwright.fit import Build
from helmwright.fit.contact import Trial
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.response import respond

Pads = tuple[int, ...]
Bits = npt.NDArray[np.bool_]

HEAT = 32
"""Draws solved at a time between two looks at whether a build can still win."""

LEVEL = 1e-6
"""Chance, at each look, of dropping the build that is the best of all."""


@dataclass(frozen=True)
class Enumerated:
    """What an enumeration found.

    Parameters
    ----------
    best, share
        The best build and its share of right draws.
    builds, rests
        How many builds were tried, and how many rests had to be solved for it.
    """

    best: Pads
    share: float
    builds: int
    rests: int


def enumerate_box(
    trial: Trial, ranked: Sequence[Pads], delivered: Pads, *, reach: int = 1
) -> Enumerated:
    """The best of all builds within `reach` steps of the winner, or of the delivered build.

    Parameters
    ----------
    trial
        The shell and the draws.
    ranked
        What the search answered, the winner first; they are tried wherever they lie.
    delivered
        The delivered build.
    reach
        Half the width of both boxes, in steps of each zone's thicknesses.

    Notes
    -----
    A build is dropped once it could not win even if it were right on every draw that is left, or
    once a sign test against the best so far, on the draws where the two differ, speaks against it
    at LEVEL: the best of all builds is lost with a chance of LEVEL a look at most. Builds that a
    linear guess likes come first, so that the mark to beat is high early.
    """
    known = {pads: trial.rest(_build(trial, pads)).right for pads in (*ranked, delivered)}
    best = max(known, key=lambda pads: int(known[pads].sum()))
    leader, rests = known[best], len(known) * len(trial)
    others = [pads for pads in _boxes(trial, ranked[0], delivered, reach) if pads not in known]
    for pads in _promising_first(trial, ranked[0], others):
        right = run_against(trial, pads, leader)
        rests += right.size
        if right.size == len(trial) and right.sum() > leader.sum():
            best, leader = pads, right
    share = float(leader.mean())
    return Enumerated(best, share, len(known) + len(others), rests)


def run_against(trial: Trial, pads: Pads, leader: Bits) -> Bits:
    """Verdicts of a build, on all draws, or on as many as it took to tell that it cannot win."""
    right, most = np.empty(0, dtype=bool), _most_behind(len(trial))
    while right.size < len(trial):
        until = min(right.size + HEAT, len(trial))
        more = trial.rest(_build(trial, pads), right.size, until).right
        right = np.concatenate([right, more])
        if right.sum() + len(trial) - right.size <= leader.sum():
            break
        apart = right != leader[: right.size]
        if (apart & ~right).sum() > most[apart.sum()]:
            break
    return right


@cache
def _most_behind(count: int) -> npt.NDArray[np.int64]:
    """For each number of draws that differ, on how many of them a build may be the wrong one."""
    return np.asarray(binom.isf(LEVEL, np.arange(count + 1), 0.5), dtype=np.int64)


def chances(trial: Trial, builds: list[Pads]) -> list[float]:
    """Share of right draws of each build."""
    return [float(trial.rest(_build(trial, pads)).right.mean()) for pads in builds]


def _build(trial: Trial, pads: Pads) -> Build:
    return Build(trial.shell.number, pads)


def _boxes(trial: Trial, winner: Pads, delivered: Pads, reach: int) -> list[Pads]:
    steps = range(-reach, reach + 1)
    found: dict[Pads, None] = {}
    for middle in (winner, delivered):
        for moves in product(steps, repeat=len(middle)):
            pads = tuple(pad + move for pad, move in zip(middle, moves, strict=True))
            if is_allowed(trial.sheet, pads):
                found[pads] = None
    return list(found)


def _promising_first(trial: Trial, winner: Pads, builds: list[Pads]) -> list[Pads]:
    if not builds:
        return []
    scores = respond(trial, _build(trial, winner), min(128, len(trial))).scores(builds)
    return [builds[place] for place in np.argsort(-scores, kind="stable")]
