"""What drives a chance: how far it moves when each main assumption goes to its low and its high.

The heads, the bumps and the pads are those that the chance was counted on, so that only the
assumption differs: a move of a few hundredths shows on some hundred heads. One assumption moves at
a time; nothing is said of two that are wrong together.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.fit.contact import Rest, Trial
from helmwright.fit.outlook import Build, Driver, Shift
from helmwright.fit.rater import Rater
from helmwright.fit.turns import Case, Ground, cases

Floats = npt.NDArray[np.float64]


def count_drivers(
    ground: Ground, builds: Iterable[Build], rater: Rater, count: int
) -> dict[Build, tuple[Driver, ...]]:
    """How far the chances of builds move with each main assumption.

    Parameters
    ----------
    ground
        What the chances were counted on.
    builds
        Whose chances; their shells are among the trials.
    rater
        The fitter who will check them.
    count
        On how many of the heads, the first ones [1].

    Returns
    -------
    For each build its drivers, the one that moves the chance of a fit most first.

    Notes
    -----
    A driver says by how much a stated chance would be another if the world were otherwise; builds
    are not chosen anew for that world. The survey's turn draws heads of the other belief by the
    same normal numbers, which keeps them near the first ones. The eyebrow's turn is exact: where
    no reading tells of the brow, its height is independent of all else, and its departures from
    the mean are drawn out in proportion.
    """
    bases = {
        build: _Counted.of(ground.trials[build.shell], build, rater, count)
        for build in dict.fromkeys(builds)
    }
    found: dict[Build, list[Driver]] = {build: [] for build in bases}
    for case in cases(ground, count):
        sides = [_turned(ground, case, side.value, bases, rater) for side in (case.low, case.high)]
        for build, base in bases.items():
            low, high = (base.shifts_to(side[build]) for side in sides)
            found[build].append(
                Driver(case.assumption, case.low, case.high, low[0], high[0], low[1], high[1])
            )
    return {
        build: tuple(sorted(drivers, key=lambda driver: -abs(driver.largest.value)))
        for build, drivers in found.items()
    }


@dataclass(frozen=True)
class _Counted:
    """One build on the first heads of a trial: how it rests, and both verdicts."""

    rest: Rest
    found: Floats

    @classmethod
    def of(cls, trial: Trial, build: Build, rater: Rater, count: int) -> "_Counted":
        rest = trial.rest(build, 0, count)
        return cls(rest, rater.found_right(trial, build, rest))

    def judged_by(self, trial: Trial, build: Build, rater: Rater) -> "_Counted":
        """The same rests under the bands of another trial."""
        rest, part = self.rest, slice(0, len(self.found))
        again = trial.judge(build, rest.stroke_mm, rest.force_n, rest.pose, rest.brow_mm, part)
        return _Counted(again, rater.found_right(trial, build, again))

    def shifts_to(self, other: "_Counted") -> tuple[Shift, Shift]:
        """How far the chance of a fit moves, and the chance of being found right."""
        fits = other.rest.right.astype(np.float64) - self.rest.right
        return _shift(fits), _shift(other.found - self.found)


def _shift(differences: Floats) -> Shift:
    error = float(differences.std() / np.sqrt(differences.size))
    return Shift(float(differences.mean()), max(error, 0.5 / differences.size))


def _turned(
    ground: Ground, case: Case, value: float, bases: dict[Build, _Counted], rater: Rater
) -> dict[Build, _Counted]:
    turn = case.turn_to(value)
    trials = {number: turn(ground.trials[number]) for number in {b.shell for b in bases}}
    told = {}
    for build, base in bases.items():
        trial = trials[build.shell]
        told[build] = (
            base.judged_by(trial, build, rater)
            if trial.unknowns is ground.trials[build.shell].unknowns
            else _Counted.of(trial, build, rater, len(base.found))
        )
    return told
