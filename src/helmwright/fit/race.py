"""A race of builds on common random draws: losers drop out early, the best is counted longest."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.stats import binom

from helmwright.fit.contact import Trial
from helmwright.fit.outlook import Build

FIRST_HEAT = 48
"""Heads in the first heat; each later one doubles what has been seen."""

LEVEL = 0.01
"""Chance that a race drops the true best."""


@dataclass(frozen=True, eq=False)
class Runner:
    """A build in a race: on which of the heads it was right, so far."""

    build: Build
    right: npt.NDArray[np.bool_]

    @property
    def share(self) -> float:
        """Share of the heads seen on which it was right."""
        return float(self.right.mean()) if self.right.size else 0.0


def race(trials: dict[int, Trial], builds: list[Build], heads: int) -> list[Runner]:
    """Race builds on the first `heads` heads of their shells' trials.

    Parameters
    ----------
    trials
        By shell number; all on the same draws.
    builds
        Who starts.
    heads
        How many heads the last ones see.

    Returns
    -------
    Every runner, those who saw most heads first, then by their share.

    Notes
    -----
    A sign test on the heads where a runner and the leader differ, at LEVEL over builds and heats:
    only the true best has to survive, so the level need not be shared over pairs.
    """
    running = [Runner(build, np.empty(0, dtype=bool)) for build in dict.fromkeys(builds)]
    heats = max(int(np.ceil(np.log2(heads / FIRST_HEAT))) + 1, 1)
    level = LEVEL / (max(len(running), 1) * heats)
    out: list[Runner] = []
    seen, until = 0, min(FIRST_HEAT, heads)
    while running and seen < heads:
        running = [_run(trials, runner, seen, until) for runner in running]
        seen, until = until, min(2 * until, heads)
        leader = max(running, key=lambda runner: runner.share)
        beaten = [_beaten(runner, leader, level) for runner in running]
        out += [runner for runner, lost in zip(running, beaten, strict=True) if lost]
        running = [runner for runner, lost in zip(running, beaten, strict=True) if not lost]
    return sorted(running + out, key=lambda runner: (-runner.right.size, -runner.share))


def _run(trials: dict[int, Trial], runner: Runner, first: int, last: int) -> Runner:
    rest = trials[runner.build.shell].rest(runner.build, first, last)
    return Runner(runner.build, np.concatenate([runner.right, rest.right]))


def _beaten(runner: Runner, leader: Runner, level: float) -> bool:
    behind = int((leader.right & ~runner.right).sum())
    ahead = int((runner.right & ~leader.right).sum())
    return bool(binom.sf(behind - 1, behind + ahead, 0.5) < level) if behind > ahead else False
