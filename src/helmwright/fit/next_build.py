"""Which build to try next: the one with the least expected minutes for its chance."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

import numpy as np

from helmwright.catalogue.zone import Zone
from helmwright.fit.finding import Finding
from helmwright.fit.minutes import Minutes
from helmwright.fit.next_build_entrants import ENTRANTS, entrants
from helmwright.fit.next_build_found import Found
from helmwright.fit.next_build_measure import measure_first
from helmwright.fit.next_build_question import Question
from helmwright.fit.next_build_shells import shells_in_question
from helmwright.fit.next_build_tally import LEAST_CHANCE, Drawn, Tally
from helmwright.fit.outlook import Build, Chance, MeasureGain
from helmwright.fit.rater import Rater
from helmwright.fit.search import Allowed, anything
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

LEAST_WORTH = Figure(
    0.03,
    "1",
    ASSUMED,
    note="chance of being found right below which a build is not worth a try-on: one in thirty "
    "takes hours of try-ons at some five minutes each",
)

HOPED = Figure(
    0.7,
    "1",
    ASSUMED,
    note="chance of being found right that a build of another shell hardly surpasses; shells that "
    "could not win with it are not searched",
)

TOLD = 5
"""Builds in the answer."""


@dataclass(frozen=True, slots=True)
class Option:
    """One build that could be tried next.

    Parameters
    ----------
    build
        Which parts.
    found_right, fits
        Chance that a fitter finds it right, and that it fits; on draws that chose nothing.
    changing, minutes
        What changing to it takes; the same with the try-on [min].
    lying
        What lies in its shell now.
    changes
        Zones whose pad differs from that.
    touched_snug
        Those of them that were found snug.
    saved
        Where there are such: what share of the expected minutes they save, next to the best build
        that leaves them alone; stated on the same draws [1].
    """

    build: Build
    found_right: Chance
    fits: Chance
    changing: float
    minutes: float
    lying: Build
    changes: tuple[Zone, ...]
    touched_snug: tuple[Zone, ...] = ()
    saved: float = 0.0

    @property
    def ratio(self) -> float:
        """Minutes until such tries come out right, on average [min]."""
        return self.minutes / max(self.found_right.value, LEAST_CHANCE)


@dataclass(frozen=True, slots=True)
class NextBuilds:
    """What to do next.

    Parameters
    ----------
    options
        Builds to try, the best first; none where nothing at hand is worth a try-on.
    measure
        What to measure before that, where it pays.
    draws
        How many draws the chances are stated on.
    """

    options: tuple[Option, ...]
    measure: MeasureGain | None = None
    draws: int = 0


def next_builds(
    drawn: Drawn,
    current: Build,
    *,
    rng: np.random.Generator,
    lies: Sequence[Build] = (),
    rejected: Sequence[Build] = (),
    tried: Sequence[Build] = (),
    allowed: Allowed = anything,
    found: Sequence[Finding] = (),
    minutes: Minutes | None = None,
    rater: Rater | None = None,
    skipped: Collection[str] = (),
    would_measure: bool = True,
) -> NextBuilds:
    """What to try next on a head, or to measure before that.

    Parameters
    ----------
    drawn
        What is believed after everything that was found, as equally likely draws.
    current
        What is in the helmet, and was on the head.
    rng
        For the reading errors of measures not taken; the same one gives the same answer.
    lies
        What lies in helmets that may be taken; of one shell, the last is what its changes are
        counted from. What shells are delivered with where none is given.
    rejected
        Builds found wrong on this head; none is proposed again.
    tried
        What was put on, in the order it was, for what lies in each shell now; `rejected` where
        none is given.
    allowed
        Whether the parts of a build are at hand.
    found
        The findings on `current`; none before the first try-on.
    minutes, rater
        What each act takes; who checks.
    skipped
        Measures that are not to be asked for; those that were read already are not, anyway.
    would_measure
        Whether a measure may be asked for at all.

    Notes
    -----
    With m the minutes of changing to a build and of trying it on, and p the chance that a fitter
    finds it right, m / p is what a series of such tries would take on average until one is right.
    The build with the least is proposed. A pad whose zone was found snug is changed only where
    that saves SNUG_MARGIN of m / p, once for each such pad.

    Builds come from a climb for the most guessed chance a minute around the current build, from
    the rule of thumb, and from every single change; those of other shells where belief or
    findings ask for them. They are counted on the first half of the draws, in heats, and stated
    on the second. Beside brow and zones, a check that was wrong on the current build must come out
    right: a helmet that slid when turned is not followed by one that slides.
    """
    sheet, known = drawn.trial(current.shell).sheet, Found.of(found)
    times = minutes or Minutes()
    asked = Question(sheet, current, known, rejected, lies, allowed, times, tried)
    tally = Tally(drawn, rater or Rater(), known.also)
    kept = tally.select(entrants(drawn, asked, current.shell), asked.charged, asked.is_plain)
    others = _elsewhere(tally, asked, kept)
    if others:
        kept = tally.select([*kept, *others], asked.charged, asked.is_plain)
    options = _options(tally, asked, kept)
    if not options:
        return NextBuilds((), None, len(drawn) - tally.half)
    measure = None
    if would_measure:
        measure = measure_first(tally, kept, options[0], asked.minutes, rng, skipped=skipped)
    return NextBuilds(options, measure, len(drawn) - tally.half)


def _elsewhere(tally: Tally, asked: Question, kept: list[Build]) -> list[Build]:
    """Builds of other shells that are worth counting; none where these could not win."""
    if not _may_be_beaten(tally, asked, kept):
        return []
    best = max((tally.chance(build) for build in kept), default=0.0)
    shells = shells_in_question(tally.drawn, asked.sheet, asked.current.shell, asked.found, best)
    return [
        build for shell in shells for build in entrants(tally.drawn, asked, shell)[: ENTRANTS // 2]
    ]


def _may_be_beaten(tally: Tally, asked: Question, kept: list[Build]) -> bool:
    """Whether another shell could cost fewer minutes for its chance, were it as good as hoped."""
    least = min((asked.price(build) / tally.chance(build) for build in kept), default=np.inf)
    elsewhere = asked.minutes.other_shell + asked.minutes.trying(asked.sheet)
    return least > elsewhere / HOPED.value


def _options(tally: Tally, asked: Question, kept: list[Build]) -> tuple[Option, ...]:
    worth = [build for build in kept if tally.chance(build) >= LEAST_WORTH.value]
    plain = next((build for build in kept if asked.is_plain(build)), None)
    least = np.inf if plain is None else _option(tally, asked, plain).ratio
    return tuple(
        _telling(_option(tally, asked, build), asked.touched(build), least)
        for build in worth[:TOLD]
    )


def _option(tally: Tally, asked: Question, build: Build) -> Option:
    found_right, fits = tally.stated(build)
    lying = asked.lying(build.shell)
    return Option(
        build, found_right, fits, asked.changing(build), asked.price(build), lying,
        build.changes_from(lying),
    )  # fmt: skip


def _telling(option: Option, touched: tuple[Zone, ...], least: float) -> Option:
    """The option with the snug pads that it changes, and what that saves of the least ratio."""
    saved = 1.0 - option.ratio / least if touched and np.isfinite(least) else 0.0
    return replace(option, touched_snug=touched, saved=saved)
