"""Builds near the best ones by the quick guess: what a measure or a change of pads would do."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.climb import Climb
from helmwright.fit.contact import Trial
from helmwright.fit.neighborhood import Pads, pairs, singles
from helmwright.fit.outlook import Build
from helmwright.fit.race import Runner, Track
from helmwright.fit.response import Response, respond
from helmwright.fit.search import Effort

Bits = npt.NDArray[np.uint8]

NEAR, NEAR_ELSEWHERE = 100, 40
"""Builds near the best one, and near the best of every other shell, that are looked at."""


@dataclass(frozen=True, eq=False)
class Near:
    """Builds near the best ones of an answer, and which heads they would be right on by the guess.

    Parameters
    ----------
    builds
        The best first.
    right
        Shape (b, h).
    """

    builds: list[Build]
    right: Bits

    def covering(self, count: int) -> list[Build]:
        """The builds that together are right on the most heads, chosen greedily, at most `count`.

        Those chosen later add less; builds that add nothing are left out.
        """
        chosen: list[Build] = []
        left = np.ones(self.right.shape[1], dtype=bool)
        while left.any() and len(chosen) < count:
            gains = self.right[:, left].sum(axis=1)
            best = int(np.argmax(gains))
            if gains[best] == 0:
                break
            chosen.append(self.builds[best])
            left &= self.right[best] == 0
        return chosen


def near(track: Track, field: list[Runner], best: Build, sheet: ModelSheet, effort: Effort) -> Near:
    """Builds near the best one, on the race's first heads.

    Parameters
    ----------
    track, field
        The trials, and the race that was run on them.
    best
        The build that is proposed; most of the neighbors are its own, the others are near the best
        of every other shell.
    """
    found: list[Build] = []
    verdicts: list[Bits] = []
    for number in sorted(track.trials, key=lambda number: number != best.shell):
        middle = best if number == best.shell else _best_of(field, number, sheet)
        count = NEAR if number == best.shell else NEAR_ELSEWHERE
        response = respond(track.trials[number], middle, effort.near)
        pads = _around(track.trials[number], response, count, effort)
        found += [Build(number, one) for one in pads]
        verdicts.append(response.verdicts(pads)[0])
    return Near(found, np.concatenate(verdicts))


def _best_of(field: list[Runner], number: int, sheet: ModelSheet) -> Build:
    runners = [runner.build for runner in field if runner.build.shell == number]
    return runners[0] if runners else Build(number, sheet.delivered)


def _around(trial: Trial, response: Response, count: int, effort: Effort) -> list[Pads]:
    middle = response.about.pads
    quick = Climb(response.first(effort.climb))
    quick.score([middle, *singles(trial.sheet, middle), *pairs(trial.sheet, middle)])
    return list(dict.fromkeys([middle, *quick.top(count)]))
