"""From a head estimate and a model sheet to ranked builds with their chances."""

from dataclasses import dataclass

import numpy as np

from helmwright.anatomy import HeadDraws, HeadEstimate
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES
from helmwright.fit.account import account
from helmwright.fit.chart import shell_chances, shells_to_try
from helmwright.fit.climb import Climb, climb
from helmwright.fit.contact import Trial
from helmwright.fit.neighborhood import pairs, singles
from helmwright.fit.next_measure import ASKABLE, measure_gains
from helmwright.fit.outlook import Build, BuildOutlook, Proposal
from helmwright.fit.race import Runner, Track, race
from helmwright.fit.rater import Rater
from helmwright.fit.response import respond
from helmwright.fit.seating import PadLaws, pad_laws
from helmwright.fit.unknowns import draw_unknowns
from helmwright.fit.verdict import Bands


@dataclass(frozen=True, slots=True)
class Effort:
    """How many heads are drawn for what.

    Parameters
    ----------
    climb, race
        Heads of the climb and of the race's last heat; the climb sees the race's first ones.
    fresh
        Heads on which the chances are stated.
    entrants
        Builds of each shell that enter the race.
    ranked
        Builds in the answer.
    """

    climb: int = 128
    race: int = 512
    fresh: int = 1000
    entrants: int = 14
    ranked: int = 5

    def __post_init__(self) -> None:
        """Refuse an effort that decides on nothing."""
        if not 16 <= self.climb <= self.race or self.fresh < 100:
            raise ValueError("effort needs 16 <= climb <= race heads, and 100 fresh ones at least")
        if self.entrants < 1 or self.ranked < 1:
            raise ValueError("effort needs at least one entrant and one ranked build")


NEAR = 160
"""Builds near the best one among which a further measure may choose."""


@dataclass(frozen=True)
class Draws:
    """Heads, and the trials of each shell, all on the same draws."""

    heads: HeadDraws
    track: Track


def propose(
    estimate: HeadEstimate,
    sheet: ModelSheet,
    *,
    rng: np.random.Generator,
    current: Build | None = None,
    effort: Effort | None = None,
    bands: Bands | None = None,
    rater: Rater | None = None,
    laws: PadLaws | None = None,
) -> Proposal:
    """Rank the builds of a model for one head.

    Parameters
    ----------
    estimate
        What is believed of the head.
    sheet
        The model.
    rng
        The random generator; the same one gives the same answer.
    current
        The build in the helmet now; the delivered one of the likeliest shell where None.
    effort, bands, rater
        How many draws; what counts as right; who checks.
    laws
        The sheet's pad laws, where they are at hand; with hair or a cap, if any is worn.

    Returns
    -------
    Proposal

    Notes
    -----
    Half a million builds of a shell cannot be tried on every head. For each shell that the chart
    makes possible, a climb over single and paired changes of pads uses a linear guess that is
    solved anew where it arrives; its best builds race on common draws, losers dropping out by a
    sign test; the winner's neighbors are climbed and raced once more. The guess is an
    approximation and the climb may miss a better build: `docs/explanation/search.md` says how
    often and by how much. The race is exact up to its level, and the chances are counted on
    draws that chose nothing.
    """
    effort, bands, rater = effort or Effort(), bands or Bands(), rater or Rater()
    laws = laws or pad_laws(sheet)
    tape = estimate.draw(4000, rng).of("tape_circumference")
    numbers = shells_to_try(sheet, tape)
    start = current or Build(numbers[0], sheet.delivered)
    draws = _draw(estimate, sheet, laws, bands, numbers, effort.race, rng)
    field = _search(draws, sheet, start, effort)
    ranked = _ranked(field, numbers, start)[: effort.ranked]
    delivered = _best_delivered(draws, sheet, effort)
    fresh = _draw(estimate, sheet, laws, bands, numbers, effort.fresh, rng)
    outlooks = _accounts(fresh, [*ranked, delivered], start, rater)
    near = _near(draws, ranked[0], effort)
    missing = tuple(key for key in ASKABLE if key not in estimate.read)
    return Proposal(
        model=sheet.model,
        shells=shell_chances(sheet, tape),
        ranked=outlooks[:-1],
        delivered=outlooks[-1],
        next_measures=measure_gains(near, draws.heads, missing, rng),
        within_reach=float(near.any(axis=0).mean()),
        draws=effort.fresh,
    )


def _draw(
    estimate: HeadEstimate, sheet: ModelSheet, laws: PadLaws, bands: Bands,
    numbers: tuple[int, ...], count: int, rng: np.random.Generator,
) -> Draws:  # fmt: skip
    heads = estimate.draw(count, rng)
    shapes, unknowns = head_shapes(heads), draw_unknowns(sheet, count, rng)
    trials = {
        number: Trial(sheet, sheet.shell(number), laws, shapes, unknowns, bands)
        for number in numbers
    }
    return Draws(heads, Track(trials))


def _search(draws: Draws, sheet: ModelSheet, start: Build, effort: Effort) -> list[Runner]:
    """Climb in every shell, race; climb again around the winner, race; until nothing is new."""
    climbs = {
        number: climb(trial, start.pads, effort.climb)
        for number, trial in draws.track.trials.items()
    }
    entrants = [build for number in climbs for build in _entrants(climbs[number], number, effort)]
    entrants += [Build(number, sheet.delivered) for number in climbs]
    field = race(draws.track, entrants, effort.race)
    winner = field[0].build
    if winner.pads != climbs[winner.shell].response.about.pads:
        again = climb(
            draws.track.trials[winner.shell], winner.pads, min(2 * effort.climb, effort.race)
        )
        finalists = [runner.build for runner in field[: effort.ranked]]
        field = race(draws.track, finalists + _entrants(again, winner.shell, effort), effort.race)
    return field


def _entrants(seen: Climb, number: int, effort: Effort) -> list[Build]:
    return [Build(number, pads) for pads in seen.top(effort.entrants)]


def _ranked(field: list[Runner], numbers: tuple[int, ...], start: Build) -> list[Build]:
    """By share; among those that cannot be told from the best, the plainest first.

    Notes
    -----
    A build cannot be told from the best where it is right on as many heads within one standard
    error of the difference on common draws (the one-standard-error rule of Breiman, Friedman,
    Olshen and Stone 1984, Classification and Regression Trees; from memory). Plainest: the
    chart's shell first, then the fewest changes and uneven pairs.
    """
    finalists = [runner for runner in field if runner.right.size == field[0].right.size]
    best = finalists[0]

    def order(runner: Runner) -> tuple[bool, bool, int, int, float]:
        last = runner.right.size == best.right.size
        if last and best.share - runner.share <= _difference_error(best, runner):
            plain = len(runner.build.changes_from(start)) + _uneven(runner.build)
            return (False, False, numbers.index(runner.build.shell), plain, -runner.share)
        return (True, not last, 0, 0, -runner.share)

    return [runner.build for runner in sorted(field, key=order)]


def _difference_error(one: Runner, two: Runner) -> float:
    differing = float((one.right != two.right).mean())
    return float(np.sqrt(differing / one.right.size))


def _uneven(build: Build) -> int:
    """How many mirror pairs of zones differ."""
    pads = dict(zip(ZONES, build.pads, strict=True))
    return sum(pads[zone] != pads[zone.mirrored] for zone in ZONES) // 2


def _best_delivered(draws: Draws, sheet: ModelSheet, effort: Effort) -> Build:
    builds = [Build(number, sheet.delivered) for number in draws.track.trials]
    return max(builds, key=lambda build: draws.track.run(build, effort.climb).share)


def _accounts(
    fresh: Draws, builds: list[Build], start: Build, rater: Rater
) -> tuple[BuildOutlook, ...]:
    return tuple(
        account(fresh.track.trials[build.shell], build, start, rater=rater) for build in builds
    )


def _near(draws: Draws, best: Build, effort: Effort) -> np.ndarray:
    """Which heads would be right in the best build and in each of its most promising neighbors."""
    trial = draws.track.trials[best.shell]
    response = respond(trial, best, effort.race)
    quick = Climb(response.first(effort.climb))
    quick.score([best.pads, *singles(trial.sheet, best.pads), *pairs(trial.sheet, best.pads)])
    chosen = list(dict.fromkeys([best.pads, *quick.top(NEAR)]))
    return response.verdicts(chosen)[0]
