"""A race of builds on common random draws: losers drop out early, the best is counted longest."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.stats import binom

from helmwright.fit.contact import Trial
from helmwright.fit.outlook import Build

FIRST_HEAT = 64
"""Heads in the first heat; each later one doubles what has been seen."""

LEVEL = 0.01
"""Chance that the sign tests of a race drop the true best."""

HALVED_FROM = 256
"""Heads from which on a heat also halves the field [1]."""

LEAST_FIELD = 6
"""The field is never halved below so many."""


@dataclass(frozen=True, eq=False)
class Runner:
    """A build in a race: on which of the heads it was right, so far."""

    build: Build
    right: npt.NDArray[np.bool_]

    @property
    def share(self) -> float:
        """Share of the heads seen on which it was right."""
        return float(self.right.mean()) if self.right.size else 0.0


class Track:
    """Trials on common draws, with every verdict that was ever asked of them.

    Parameters
    ----------
    trials
        By shell number; all on the same draws.
    """

    def __init__(self, trials: dict[int, Trial]) -> None:
        self.trials = trials
        self._seen: dict[Build, npt.NDArray[np.bool_]] = {}

    def run(self, build: Build, heads: int) -> Runner:
        """Verdicts of a build on the first heads; each head is solved once."""
        seen = self._seen.get(build, np.empty(0, dtype=bool))
        if seen.size < heads:
            rest = self.trials[build.shell].rest(build, seen.size, heads)
            seen = np.concatenate([seen, rest.right])
            self._seen[build] = seen
        return Runner(build, seen[:heads])


def race(track: Track, builds: list[Build], heads: int) -> list[Runner]:
    """Race builds on the first `heads` heads of their shells' trials.

    Parameters
    ----------
    track
        The trials.
    builds
        Who starts.
    heads
        How many heads the last ones see.

    Returns
    -------
    Every runner, those who saw most heads first, then by their share.

    Notes
    -----
    After each heat, runners drop out that a sign test beats, on the heads where they differ from
    the leader, at LEVEL over builds and heats: only the true best has to survive, so the level
    need not be shared over pairs. From HALVED_FROM heads on, where the test drops less than half,
    the lower half goes all the same, down to LEAST_FIELD: those are within noise of one another.
    """
    running = [Runner(build, np.empty(0, dtype=bool)) for build in dict.fromkeys(builds)]
    heats = _heats(heads)
    level = LEVEL / (max(len(running), 1) * len(heats))
    out: list[Runner] = []
    for until in heats:
        running = [track.run(runner.build, until) for runner in running]
        running.sort(key=lambda runner: -runner.share)
        half = max(LEAST_FIELD, (len(running) + 1) // 2)
        room = half if until >= HALVED_FROM else len(running)
        stay = [
            place < room and not _beaten(runner, running[0], level)
            for place, runner in enumerate(running)
        ]
        out += [runner for runner, kept in zip(running, stay, strict=True) if not kept]
        running = [runner for runner, kept in zip(running, stay, strict=True) if kept]
    return by_merit(running + out)


def by_merit(runners: list[Runner]) -> list[Runner]:
    """Those who saw most heads first, then by their share."""
    return sorted(runners, key=lambda runner: (-runner.right.size, -runner.share))


def _heats(heads: int) -> list[int]:
    """Heads seen at the end of each heat."""
    ends = [min(FIRST_HEAT, heads)]
    while ends[-1] < heads:
        ends.append(min(2 * ends[-1], heads))
    return ends


def _beaten(runner: Runner, leader: Runner, level: float) -> bool:
    behind = int((leader.right & ~runner.right).sum())
    ahead = int((runner.right & ~leader.right).sum())
    return bool(binom.sf(behind - 1, behind + ahead, 0.5) < level) if behind > ahead else False
