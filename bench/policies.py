"""Ways to choose a first build: the chart, this program on more or fewer readings, bounds."""

from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass
from typing import Any

import numpy as np

from helmwright.anatomy import (
    MEASURE_KEYS,
    HeadEstimate,
    Reading,
    Sex,
    adult_prior,
    estimate_head,
)
from helmwright.belief import Mixture, Normal
from helmwright.catalogue import ModelSheet
from helmwright.fit import Build, Effort, Rater, propose
from helmwright.fit.chart import shells_to_try
from helmwright.fit.climb import climb
from helmwright.fit.race import Track, race
from helmwright.fit.seating import PadLaws
from helmwright.study import people
from helmwright.study.frictionless import without_friction
from helmwright.study.known_head import known_trial
from helmwright.study.truth import TrueHead

EXACT_VARIANCE_MM2 = 1e-4


@dataclass(frozen=True)
class Asked:
    """What a policy is told: it never sees the truth, except where it is a bound.

    Parameters
    ----------
    readings
        Of all ten measures; a policy takes its own.
    prior, sex
        The survey behind the prior, which is not the heads' own, and the sex.
    sheet, laws
        The model and its pads' laws, as the program knows them.
    truth
        For the bounds alone.
    """

    readings: tuple[Reading, ...]
    prior: str
    sex: Sex
    sheet: ModelSheet
    laws: PadLaws
    truth: TrueHead


@dataclass(frozen=True)
class Chosen:
    """A first build, with the chances stated for it, where any are."""

    build: Build
    fits: float | None = None
    found_right: float | None = None


@dataclass(frozen=True)
class Policy:
    """One way to choose.

    Parameters
    ----------
    name
        For the table.
    choose
        What it does.
    setting
        What holds while it runs.
    """

    name: str
    choose: Callable[[Asked, np.random.Generator], Chosen]
    setting: Callable[[], AbstractContextManager[Any]] = nullcontext


def by_chart(asked: Asked, rng: np.random.Generator) -> Chosen:  # noqa: ARG001 - nothing is drawn
    """The chart's shell for the tape, as delivered."""
    tape = [r.value_mm for r in asked.readings if r.measure == "tape_circumference"]
    shell = shells_to_try(asked.sheet, np.array([np.mean(tape)]))[0]
    return Chosen(Build(shell, asked.sheet.delivered))


def by_readings(measures: tuple[str, ...]) -> Callable[[Asked, np.random.Generator], Chosen]:
    """The first build that the program proposes from some of the readings."""

    def choose(asked: Asked, rng: np.random.Generator) -> Chosen:
        read = [reading for reading in asked.readings if reading.measure in measures]
        return _proposed(estimate_head(read, sex=asked.sex, survey=asked.prior), asked, rng)

    return choose


def by_exact_measures(asked: Asked, rng: np.random.Generator) -> Chosen:
    """The first build that the program proposes when all ten measures are known exactly."""
    spread = np.eye(len(MEASURE_KEYS)) * EXACT_VARIANCE_MM2
    known = Mixture(
        np.ones(1), (Normal(MEASURE_KEYS, asked.truth.measures, spread),), (asked.sex.value,)
    )
    prior = adult_prior(asked.sex, survey=asked.prior)
    return _proposed(HeadEstimate(prior, (), known), asked, rng)


UNDRIVEN = Effort(driven_builds=0)
"""Nobody asks here what drives a chance."""


def _proposed(estimate: HeadEstimate, asked: Asked, rng: np.random.Generator) -> Chosen:
    best = propose(estimate, asked.sheet, rng=rng, laws=asked.laws, effort=UNDRIVEN).ranked[0]
    return Chosen(best.build, best.fits.value, best.found_right.value)


def by_known_surface(asked: Asked, rng: np.random.Generator) -> Chosen:
    """The program's search when the head's very surface is known, bumps and all.

    Friction, strap and foams stay unknown, and so does everything else about the day.
    """
    effort = Effort()
    tape = asked.truth.measures[MEASURE_KEYS.index("tape_circumference")]
    numbers = shells_to_try(asked.sheet, np.array([tape]))
    trials = {
        number: known_trial(asked.truth, asked.sheet, asked.laws, number, effort.race, rng)
        for number in numbers
    }
    entrants = [Build(number, asked.sheet.delivered) for number in numbers]
    for number, trial in trials.items():
        seen = climb(trial, asked.sheet.delivered, effort.climb)
        entrants += [Build(number, pads) for pads in seen.top(effort.entrants)]
    best = race(Track(trials), entrants, effort.race)[0].build
    fresh = known_trial(asked.truth, asked.sheet, asked.laws, best.shell, effort.fresh, rng)
    rest = fresh.rest(best)
    found = Rater().found_right(fresh, best, rest)
    return Chosen(best, float(rest.right.mean()), float(found.mean()))


POLICIES = {
    "chart": Policy("chart's shell, as delivered", by_chart),
    "tape": Policy("tape", by_readings(people.TAPE)),
    "caliper": Policy("tape, length, breadth", by_readings(people.CALIPER)),
    "height": Policy("the same and brow to top", by_readings(people.HEIGHT)),
    "five": Policy("five measures", by_readings(people.FIVE)),
    "exact": Policy("all ten measures exact", by_exact_measures),
    "known": Policy("the surface itself known", by_known_surface),
    "slippery": Policy(
        "five measures, contact without friction", by_readings(people.FIVE), without_friction
    ),
}
"""Every way that is played, by its key in the result file."""
