"""How each head's rest answers to each pad: a quick guess at any build near one that was solved.

About a solved build, strokes and brow height are taken as linear in each pad's thickness, with
one slope toward thicker and one toward thinner, found by solving two more builds per zone. That
is no substitute for a rest, but it ranks thousands of builds for the price of seventeen.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.zone import ZONES
from helmwright.fit.contact import Trial
from helmwright.fit.kernels.linear import judge_linear
from helmwright.fit.outlook import Build

Floats = npt.NDArray[np.float64]
Bits = npt.NDArray[np.uint8]
Pads = tuple[int, ...]

FAULT_WEIGHT = 0.12
"""What a head still counts with one fault left, and its square with two [1]."""


@dataclass(frozen=True)
class Response:
    """Rests of the first n heads of a trial about one build, and their slopes in every pad.

    Parameters
    ----------
    trial
        The shell and the heads.
    about
        The build that was solved.
    stroke_mm, brow_mm
        In that build, shapes (n, s), (n,) [mm].
    stroke_slope, brow_slope
        Per mm of each zone's pad, thinner and thicker, shapes (n, 2, 8, s), (n, 2, 8) [1].
    """

    trial: Trial
    about: Build
    stroke_mm: Floats
    brow_mm: Floats
    stroke_slope: Floats
    brow_slope: Floats

    @cached_property
    def _steps(self) -> Floats:
        thickness = self.trial.laws.thickness_mm
        here = thickness[np.arange(len(ZONES)), np.array(self.about.pads)]
        return np.asarray(thickness - here[:, None])

    def first(self, count: int) -> "Response":
        """The same for the first `count` heads only."""
        return replace(
            self,
            stroke_mm=self.stroke_mm[:count],
            brow_mm=self.brow_mm[:count],
            stroke_slope=self.stroke_slope[:count],
            brow_slope=self.brow_slope[:count],
        )

    def verdicts(self, pads: list[Pads]) -> tuple[Bits, Bits]:
        """Which heads would be right in each build, and how many faults each would have.

        Parameters
        ----------
        pads
            b builds in this shell, as pad indexes.

        Returns
        -------
        Two arrays of shape (b, n).
        """
        builds = np.array(pads, dtype=np.int64).reshape(len(pads), len(ZONES))
        count = self.stroke_mm.shape[0]
        right, faults = np.empty((2, len(pads), count), dtype=np.uint8)
        seat, laws = self.trial.seating, self.trial.laws
        judge_linear(
            builds, self._steps, self.stroke_mm, self.brow_mm, self.stroke_slope,
            self.brow_slope, seat.zones, seat.areas_cm2, self.trial.unknowns.foam[:count],
            laws.knots, laws.weights, self.trial.bands.row(), right, faults,
        )  # fmt: skip
        return right, faults

    def scores(self, pads: list[Pads]) -> Floats:
        """A score of each build that has a slope where no head is right yet, shape (b,)."""
        _, faults = self.verdicts(pads)
        return np.asarray((FAULT_WEIGHT ** faults.astype(np.float64)).mean(axis=1))


def respond(trial: Trial, about: Build, count: int) -> Response:
    """Solve a build and its neighbors, zone by zone, on the first `count` heads of a trial.

    Where a zone has no thinner or no thicker pad, the other slope stands for both.
    """
    base = trial.rest(about, 0, count)
    contacts = base.stroke_mm.shape[1]
    stroke_slope = np.zeros((count, 2, len(ZONES), contacts))
    brow_slope = np.zeros((count, 2, len(ZONES)))
    for z in range(len(ZONES)):
        sides = _neighbors(trial, about, z)
        for side, (other, step) in sides.items():
            moved = trial.rest(other, 0, count)
            stroke_slope[:, side, z] = (moved.stroke_mm - base.stroke_mm) / step
            brow_slope[:, side, z] = (moved.brow_mm - base.brow_mm) / step
        if len(sides) == 1:
            (known,) = sides
            stroke_slope[:, 1 - known, z] = stroke_slope[:, known, z]
            brow_slope[:, 1 - known, z] = brow_slope[:, known, z]
    return Response(trial, about, base.stroke_mm, base.brow_mm, stroke_slope, brow_slope)


def _neighbors(trial: Trial, about: Build, zone: int) -> dict[int, tuple[Build, float]]:
    """By side, 0 thinner and 1 thicker: the next build that way, and the step to it [mm]."""
    thicknesses = trial.sheet.pads[zone].thicknesses_mm
    here = about.pads[zone]
    found = {}
    for side, there in enumerate((here - 1, here + 1)):
        if 0 <= there < len(thicknesses):
            pads = tuple(there if z == zone else pad for z, pad in enumerate(about.pads))
            found[side] = Build(about.shell, pads), thicknesses[there] - thicknesses[here]
    return found
