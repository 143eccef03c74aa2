"""For each head its own build: what a patient fitter with every pad at hand would come to.

A proposal serves all heads that a player may have. Here every head is known, and each gets the
pads that are right for it alone, if there are any: by the linear guess, left and right alike and
then each for itself, solved, and guessed again from where the solution was off; at last every
single change is solved. Only what was solved counts.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES
from helmwright.fit.contact import Trial
from helmwright.fit.kernels.each import LOOSE, TIGHT, descend_each, guess_each, judge_each
from helmwright.fit.neighborhood import singles
from helmwright.fit.outlook import Build
from helmwright.fit.response import Response
from helmwright.fit.seating import PadLaws

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]
Bits = npt.NDArray[np.bool_]
Signs = npt.NDArray[np.int8]

ROUNDS = 4
"""How often a head's build is guessed and solved at most."""


@dataclass(frozen=True)
class Choices:
    """The pads that may be taken.

    Parameters
    ----------
    laws
        Of every pad.
    allowed
        1 where a zone has such a pad, shape (8, t).
    groups
        Zones that carry the same pad, shape (g, 2); a zone by itself stands there twice.
    """

    laws: PadLaws
    allowed: Signs
    groups: Integers

    @classmethod
    def of(cls, sheet: ModelSheet, laws: PadLaws) -> "Choices":
        """Every pad of a sheet."""
        allowed = np.zeros(laws.thickness_mm.shape, dtype=np.int8)
        for zone, pad in enumerate(sheet.pads):
            allowed[zone, : len(pad.thicknesses_mm)] = 1
        tied = [[ZONES.index(left), ZONES.index(right)] for left, right in sheet.matched]
        held = {zone for pair in tied for zone in pair}
        alone = [[zone, zone] for zone in range(len(ZONES)) if zone not in held]
        return cls(laws, allowed, np.array(tied + alone))

    @cached_property
    def even(self) -> "Choices":
        """The same with left and right alike, where both have the same pads."""
        mirror = [ZONES.index(zone.mirrored) for zone in ZONES]
        alike = np.all(self.allowed == self.allowed[mirror], axis=1) & np.all(
            self.laws.thickness_mm == self.laws.thickness_mm[mirror], axis=1
        )
        pairs = [
            [zone, mirror[zone] if alike[zone] else zone]
            for zone in range(len(ZONES))
            if not alike[zone] or mirror[zone] >= zone
        ]
        return replace(self, groups=np.array(pairs))


@dataclass(frozen=True)
class Tailored:
    """n heads, each in the best build that was found for it.

    Parameters
    ----------
    builds
        Pad indexes, shape (n, 8).
    flags
        LOOSE or TIGHT for every zone, then LOW or HIGH for the brow; shape (n, 9).
    cost
        One for each fault and a little for how far off it is, shape (n,) [1].
    """

    builds: Integers
    flags: Signs
    cost: Floats

    @property
    def right(self) -> Bits:
        """Nothing is wrong, shape (n,)."""
        return np.asarray(~self.flags.any(axis=1))

    @property
    def loose(self) -> Bits:
        """Zones that are loose or have a gap, shape (n, 8)."""
        return np.asarray(self.flags[:, :-1] == LOOSE)

    @property
    def tight(self) -> Bits:
        """Zones that are tight or have a hot spot, shape (n, 8)."""
        return np.asarray(self.flags[:, :-1] == TIGHT)

    def better(self, other: "Tailored") -> "Tailored":
        """Head by head the one with the lower cost."""
        take = other.cost < self.cost
        wide = take[:, None]
        return Tailored(
            np.where(wide, other.builds, self.builds),
            np.where(wide, other.flags, self.flags),
            np.where(take, other.cost, self.cost),
        )


@dataclass(frozen=True)
class Tailor:
    """Finds builds head by head from how each head answers to each pad.

    Parameters
    ----------
    response
        Solved about one build, on n heads.
    choices
        The pads to choose from, those of the response's sheet or more; those that it has must
        have the same indexes.
    """

    response: Response
    choices: Choices

    @cached_property
    def _base_mm(self) -> Floats:
        about = np.array(self.response.about.pads)
        thickness = self.response.trial.laws.thickness_mm
        return np.asarray(thickness[np.arange(len(ZONES)), about])

    @cached_property
    def _shares(self) -> Floats:
        """Share of each contact in its zone's area, shape (s,)."""
        seating = self.response.trial.seating
        whole = np.bincount(seating.zones, seating.areas_cm2, minlength=len(ZONES))
        return np.asarray(seating.areas_cm2 / whole[seating.zones])

    @cached_property
    def _world(self) -> tuple[Integers, Floats, Floats, Floats, Floats, Floats]:
        """Zones and shares of the contacts, foam, knots, weights and bands, for the kernels."""
        trial, laws = self.response.trial, self.choices.laws
        foam = trial.unknowns.foam[: len(self.response.brow_mm)]
        return (
            trial.seating.zones, self._shares, foam, laws.knots, laws.weights, trial.bands.row(),
        )  # fmt: skip

    def judged(self, builds: Integers, stroke: Floats, brow: Floats) -> Tailored:
        """What is wrong with strokes (n, s) and brow heights (n,) in their builds [mm]."""
        flags = np.zeros((len(builds), len(ZONES) + 1), dtype=np.int8)
        cost = np.zeros(len(builds))
        judge_each(builds, stroke, brow, *self._world, flags, cost)
        return Tailored(builds, flags, cost)

    def guess(self, builds: Integers) -> tuple[Floats, Floats]:
        """Strokes (n, s) and brow heights (n,) [mm] by the slopes."""
        answer = self.response
        stroke, brow = np.empty_like(answer.stroke_mm), np.empty_like(answer.brow_mm)
        guess_each(
            builds, self.choices.laws.thickness_mm, self._base_mm, answer.stroke_mm,
            answer.brow_mm, answer.stroke_slope, answer.brow_slope, stroke, brow,
        )  # fmt: skip
        return stroke, brow

    def sought(self, off_stroke: Floats, off_brow: Floats, *, even: bool = False) -> Tailored:
        """The best build of every head by the guess, less what it was off by; flags are empty."""
        answer, choices = self.response, self.choices.even if even else self.choices
        builds = np.empty((len(off_brow), len(ZONES)), dtype=np.int64)
        cost = np.empty(len(off_brow))
        descend_each(
            np.array(answer.about.pads), choices.allowed, choices.groups,
            choices.laws.thickness_mm, self._base_mm, answer.stroke_mm + off_stroke,
            answer.brow_mm + off_brow, answer.stroke_slope, answer.brow_slope, *self._world,
            builds, cost,
        )  # fmt: skip
        return Tailored(builds, np.zeros((len(cost), len(ZONES) + 1), dtype=np.int8), cost)


def tailored(tailor: Tailor, trial: Trial, *, polish: bool = True) -> Tailored:
    """Each head in the best build that guess and solution find; every flag is a solved one.

    Parameters
    ----------
    tailor
        The pads to choose from.
    trial
        The shell with those pads, on the heads of the tailor's response.
    polish
        Whether at last every single change is solved for the heads that have no build yet.
    """
    answer = tailor.response
    builds = np.tile(np.array(answer.about.pads, dtype=np.int64), (len(answer.brow_mm), 1))
    best = tailor.judged(builds, answer.stroke_mm, answer.brow_mm)
    off_stroke, off_brow = np.zeros_like(answer.stroke_mm), np.zeros_like(answer.brow_mm)
    for turn in range(ROUNDS):
        lacking = np.flatnonzero(~best.right)
        if not lacking.size:
            break
        wanted = tailor.sought(off_stroke, off_brow, even=turn % 2 == 0).builds
        guessed, height = tailor.guess(wanted)
        stroke, brow = guessed.copy(), height.copy()
        _solve(trial, wanted, lacking, stroke, brow)
        off_stroke[lacking] = stroke[lacking] - guessed[lacking]
        off_brow[lacking] = brow[lacking] - height[lacking]
        solved = tailor.judged(wanted, stroke, brow)
        solved.cost[best.right] = np.inf  # not solved anew
        best = best.better(solved)
    return _polished(best, trial) if polish else best


def _polished(best: Tailored, trial: Trial) -> Tailored:
    """Heads without a build, each with every single change of its best one solved."""
    for head in np.flatnonzero(~best.right).tolist():
        middle = tuple(best.builds[head].tolist())
        for pads in singles(trial.sheet, middle):
            rest = trial.rest(Build(trial.shell.number, pads), head, head + 1)
            if rest.right[0]:
                best.builds[head], best.flags[head], best.cost[head] = pads, 0, 0.0
                break
    return best


def _solve(trial: Trial, builds: Integers, heads: Integers, stroke: Floats, brow: Floats) -> None:
    """Strokes and brow heights of some heads, each at rest in its own build."""
    for head in heads.tolist():
        build = Build(trial.shell.number, tuple(builds[head].tolist()))
        rest = trial.rest(build, head, head + 1)
        stroke[head], brow[head] = rest.stroke_mm[0], rest.brow_mm[0]
