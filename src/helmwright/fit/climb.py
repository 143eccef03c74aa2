"""A climb over one shell's builds on the quick guess, solved anew where it arrives."""

from dataclasses import dataclass, field

import numpy as np

from helmwright.fit.contact import Trial
from helmwright.fit.neighborhood import Pads, even_box, pairs, singles
from helmwright.fit.outlook import Build
from helmwright.fit.response import Response, respond

ROUNDS = 3
"""How often the guess is solved anew at most."""

FEW = 48
"""Heads on which the wide look around the start is taken."""


@dataclass
class Climb:
    """What a climb has seen: the score of every build it guessed, under its last response."""

    response: Response
    scores: dict[Pads, float] = field(default_factory=dict)

    def score(self, pads: list[Pads]) -> list[float]:
        """Scores of builds, guessed once each."""
        fresh = [one for one in dict.fromkeys(pads) if one not in self.scores]
        if fresh:
            self.scores.update(zip(fresh, self.response.scores(fresh).tolist(), strict=True))
        return [self.scores[one] for one in pads]

    def top(self, count: int) -> list[Pads]:
        """The best builds seen, best first."""
        return sorted(self.scores, key=lambda one: -self.scores[one])[:count]


def climb(trial: Trial, start: Pads, count: int) -> Climb:
    """Climb from a build to where the guess is highest, on the first `count` heads.

    The response is solved at the start, and again wherever the climb ends, until it ends where it
    was solved. The first round climbs from several starts: the build itself and, for each crown
    in reach, the best of the builds around it whose mirror pairs move alike. Moves of a whole
    helmet, such as every pad a step thicker, lie too far from one another for changes in pairs.
    """
    here = start
    for turn in range(ROUNDS):
        seen = Climb(respond(trial, Build(trial.shell.number, here), count))
        begins = [here, *(_even_starts(seen, trial, here) if turn == 0 else ())]
        ends = [_ascend(seen, trial, begin) for begin in begins]
        best = max(ends, key=lambda one: seen.scores[one])
        if best == here:
            break
        here = best
    return seen


def _even_starts(seen: Climb, trial: Trial, here: Pads) -> list[Pads]:
    """For each crown pad in reach, the best even build around, on a few heads."""
    around = even_box(trial.sheet, here)
    scores = seen.response.first(FEW).scores(around)
    best: dict[int, tuple[float, Pads]] = {}
    for score, pads in zip(scores.tolist(), around, strict=True):
        best[pads[0]] = max(best.get(pads[0], (-1.0, pads)), (score, pads))
    return [pads for _, pads in best.values()]


def _ascend(seen: Climb, trial: Trial, start: Pads) -> Pads:
    here = start
    seen.score([here])
    while True:
        there = _zone_by_zone(seen, trial, here)
        near = pairs(trial.sheet, there)
        scores = seen.score(near)
        if near and max(scores) > seen.scores[there]:
            there = near[int(np.argmax(scores))]
        if there == here:
            return here
        here = there


def _zone_by_zone(seen: Climb, trial: Trial, start: Pads) -> Pads:
    here = start
    while True:
        near = singles(trial.sheet, here)
        scores = seen.score(near)
        if not near or max(scores) <= seen.scores[here]:
            return here
        here = near[int(np.argmax(scores))]
