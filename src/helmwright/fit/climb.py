"""A climb over one shell's builds on the quick guess, solved anew where it arrives."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from helmwright.fit.contact import Trial
from helmwright.fit.neighborhood import Has, Pads, even_box, everything, pairs, singles
from helmwright.fit.outlook import Build
from helmwright.fit.response import Response, respond

ROUNDS = 3
"""How often the guess is solved anew at most."""

FEW = 48
"""Heads on which the wide look around the start is taken."""


Charge = Callable[[Pads], float]
"""What a build costs; a climb seeks the most score for it."""


def free(_: Pads) -> float:
    """No build costs more than another."""
    return 1.0


@dataclass
class Climb:
    """What a climb has seen: the score of every build it guessed, under its last response."""

    response: Response
    charge: Charge = free
    scores: dict[Pads, float] = field(default_factory=dict)

    def score(self, pads: list[Pads]) -> list[float]:
        """Scores of builds for what they cost, guessed once each."""
        fresh = [one for one in dict.fromkeys(pads) if one not in self.scores]
        if fresh:
            guessed = self.response.scores(fresh).tolist()
            costs = map(self.charge, fresh)
            self.scores.update(
                (one, score / cost) for one, score, cost in zip(fresh, guessed, costs, strict=True)
            )
        return [self.scores[one] for one in pads]

    def top(self, count: int) -> list[Pads]:
        """The best builds seen, best first."""
        return sorted(self.scores, key=lambda one: -self.scores[one])[:count]


def climb(
    trial: Trial,
    start: Pads,
    count: int,
    *,
    has: Has = everything,
    charge: Charge = free,
    others: Sequence[Pads] = (),
    wide: bool = True,
) -> Climb:
    """Climb from a build to where the guess is highest, on the first `count` heads.

    Parameters
    ----------
    trial, start, count
        The shell, the build, and on how many heads.
    has
        Which builds may be stepped on; the start is, whatever this says.
    charge
        What each build costs.
    others
        Builds that the first round climbs from as well.
    wide
        Whether it starts from even builds around as well; a helmet that was on the head is near.

    Notes
    -----
    The response is solved at the start, and again wherever the climb ends, until it ends where it
    was solved. The first round climbs from several starts: the build itself and, for each crown
    in reach, the best of the builds around it whose mirror pairs move alike. Moves of a whole
    helmet, such as every pad a step thicker, lie too far from one another for changes in pairs.
    """
    here = start
    for turn in range(ROUNDS):
        seen = Climb(respond(trial, Build(trial.shell.number, here), count), charge)
        begins = [here]
        if turn == 0:
            begins += [*others, *(_even_starts(seen, trial, here, has) if wide else ())]
        ends = [ascend(seen, trial, begin, has) for begin in begins]
        best = max(ends, key=lambda one: seen.scores[one])
        if best == here:
            break
        here = best
    return seen


def _even_starts(seen: Climb, trial: Trial, here: Pads, has: Has) -> list[Pads]:
    """For each crown pad in reach, the best even build around, on a few heads."""
    around = even_box(trial.sheet, here, has)
    if not around:
        return []
    few = Climb(seen.response.first(FEW), seen.charge)
    scores = few.score(around)
    best: dict[int, tuple[float, Pads]] = {}
    for score, pads in zip(scores, around, strict=True):
        best[pads[0]] = max(best.get(pads[0], (-1.0, pads)), (score, pads))
    return [pads for _, pads in best.values()]


def ascend(seen: Climb, trial: Trial, start: Pads, has: Has) -> Pads:
    """Where a climb by single and paired changes ends, all on one response."""
    here = start
    seen.score([here])
    while True:
        there = _zone_by_zone(seen, trial, here, has)
        near = pairs(trial.sheet, there, has)
        scores = seen.score(near)
        if near and max(scores) > seen.scores[there]:
            there = near[int(np.argmax(scores))]
        if there == here:
            return here
        here = there


def _zone_by_zone(seen: Climb, trial: Trial, start: Pads, has: Has) -> Pads:
    here = start
    while True:
        near = singles(trial.sheet, here, has)
        scores = seen.score(near)
        if not near or max(scores) <= seen.scores[here]:
            return here
        here = near[int(np.argmax(scores))]
