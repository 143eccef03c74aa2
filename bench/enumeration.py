"""Every build of a box on the same draws, with the real contact, and only exact short cuts."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
import numpy.typing as npt

from helmwright.anatomy.surface import HeadShapes
from helmwright.fit import Build
from helmwright.fit.contact import Trial
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.response import respond
from helmwright.fit.unknowns import Unknowns
from helmwright.geometry import Ovoids

Pads = tuple[int, ...]

HEAT = 32
"""Draws solved at a time between two looks at whether a build can still win."""


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
    Draws on which the winner is wrong come first, and a build is dropped once it could not win
    even if it were right on every draw that is left. Builds that a linear guess likes come first,
    so that the mark to beat is high early. Neither changes what is found.
    """
    known = {pads: trial.rest(_build(trial, pads)).right for pads in (*ranked, delivered)}
    best = max(known, key=lambda pads: int(known[pads].sum()))
    mark, rests = int(known[best].sum()), len(known) * len(trial)
    ordered = reordered(trial, np.argsort(known[best], kind="stable"))
    others = [pads for pads in _boxes(trial, ranked[0], delivered, reach) if pads not in known]
    for pads in _promising_first(trial, ranked[0], others):
        right, seen = count_right(ordered, pads, mark)
        rests += seen
        if right > mark:
            best, mark = pads, right
    return Enumerated(best, mark / len(trial), len(known) + len(others), rests)


def count_right(trial: Trial, pads: Pads, mark: int) -> tuple[int, int]:
    """Right draws of a build, and draws solved; fewer than all once it cannot exceed the mark."""
    right = seen = 0
    while seen < len(trial) and right + len(trial) - seen > mark:
        until = min(seen + HEAT, len(trial))
        right += int(trial.rest(_build(trial, pads), seen, until).right.sum())
        seen = until
    return right, seen


def reordered(trial: Trial, order: npt.NDArray[np.int64]) -> Trial:
    """The same trial with its draws in another order."""
    heads = HeadShapes(Ovoids(trial.heads.ovoids.rows[order]), trial.heads.brow_mm[order])
    unknown = trial.unknowns
    drawn = Unknowns(
        unknown.zone_mm[order], unknown.brow_mm[order], unknown.foam[order],
        unknown.friction[order], unknown.pull[order],
    )  # fmt: skip
    return Trial(trial.sheet, trial.shell, trial.laws, heads, drawn, trial.bands)


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
