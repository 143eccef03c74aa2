"""Which build to try next: the one with the least expected minutes for its chance."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import Zone
from helmwright.fit.climb import ascend, climb
from helmwright.fit.finding import Finding
from helmwright.fit.minutes import Minutes
from helmwright.fit.neighborhood import Pads, nearest, singles
from helmwright.fit.next_build_found import Found
from helmwright.fit.next_build_measure import measure_first
from helmwright.fit.next_build_rule import by_rule
from helmwright.fit.next_build_shells import shells_in_question
from helmwright.fit.next_build_tally import LEAST_CHANCE, Drawn, Tally
from helmwright.fit.outlook import Build, Chance, MeasureGain
from helmwright.fit.rater import Rater
from helmwright.fit.search import Allowed, anything, has_in
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

SNUG_MARGIN = Figure(
    0.10,
    "1",
    ASSUMED,
    note="share of the expected minutes that must be saved for each pad changed that was snug",
)
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

GUESSED_ON = 128
"""Draws on which the quick guess is made."""

ENTRANTS = 32
"""Builds of the present shell that are counted; half as many of each other."""

PLAIN = 6
"""So many of them leave every snug pad alone."""

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


@dataclass(frozen=True)
class Question:
    """What is asked of a belief: what is on the head, what was tried, what is at hand.

    Parameters
    ----------
    sheet
        The model.
    current
        What is in the helmet now.
    rejected
        Builds found wrong on this head, in the order tried.
    start
        What was in the helmet when the visit began.
    allowed
        Whether the parts of a build are at hand.
    minutes
        What each act takes.
    """

    sheet: ModelSheet
    current: Build
    rejected: Sequence[Build]
    start: Build | None
    allowed: Allowed
    minutes: Minutes
    _lying: dict[int, Build] = field(default_factory=dict, init=False, repr=False)

    def __post_init__(self) -> None:
        """Note what lies in every shell that was used."""
        used = [*([self.start] if self.start else []), *self.rejected, self.current]
        self._lying.update({build.shell: build for build in used})

    def lying(self, shell: int) -> Build:
        """What lies in a shell now: what was tried in it last, or what it was delivered with."""
        return self._lying.get(shell, Build(shell, self.sheet.delivered))

    def was_on(self, shell: int) -> bool:
        """Whether a shell has been on this head."""
        return any(build.shell == shell for build in self.rejected)

    def changing(self, build: Build) -> float:
        """Minutes of making a build of what is there [min]."""
        before = self.lying(build.shell)
        fetched = 0.0 if build.shell == self.current.shell else self.minutes.other_shell
        return fetched + self.minutes.changing(before, build, self.sheet)

    def price(self, build: Build) -> float:
        """Minutes of making a build and trying it on [min]."""
        return self.changing(build) + self.minutes.trying(self.sheet)

    def is_open(self, build: Build) -> bool:
        """Whether a build may be proposed."""
        return build not in self.rejected and self.allowed(build)

    def changes(self, build: Build) -> tuple[Zone, ...]:
        """Zones whose pad is changed for a build, from what lies in its shell."""
        return build.changes_from(self.lying(build.shell))


def next_builds(
    drawn: Drawn,
    current: Build,
    *,
    rng: np.random.Generator,
    start: Build | None = None,
    rejected: Sequence[Build] = (),
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
    start
        What was in the helmet when the visit began.
    rejected
        Builds found wrong on this head, in the order tried; none is proposed again.
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
    known, fitter = Found.of(found), rater or Rater()
    sheet = drawn.trial(current.shell).sheet
    asked = Question(sheet, current, rejected, start, allowed, minutes or Minutes())
    tally = Tally(drawn, fitter, known.also)
    here = _entrants(drawn, asked, current.shell, known)
    field = _chosen(tally, asked, known, here)
    shells = []
    if _may_be_beaten(tally, asked, field):
        best = max((tally.chance(build) for build in field), default=0.0)
        shells = shells_in_question(drawn, sheet, current.shell, known, best)
    others = [b for n in shells for b in _entrants(drawn, asked, n, known)[: ENTRANTS // 2]]
    if others:
        field = _chosen(tally, asked, known, [*field, *others])
    options = _options(tally, asked, known, field)
    if not options:
        return NextBuilds((), None, len(drawn) - tally.half)
    measure = None
    if would_measure:
        measure = measure_first(tally, field, options[0], asked.minutes, rng, skipped=skipped)
    return NextBuilds(options, measure, len(drawn) - tally.half)


def _entrants(drawn: Drawn, asked: Question, shell: int, known: Found) -> list[Build]:
    """Builds of one shell that are worth counting, those by rule first.

    The likeliest of those that leave every snug pad alone are sought for themselves, so that what
    touches one is compared with the best that does not.
    """
    has = has_in(shell, asked.allowed)
    start = nearest(asked.sheet, asked.lying(shell).pads, has)
    if start is None:
        return []

    def charge(pads: Pads) -> float:
        return _charged(asked, known, Build(shell, pads))

    def is_plain(pads: Pads) -> bool:
        return has(pads) and not _touched(asked, known, Build(shell, pads))

    ruled = by_rule(known, asked.sheet, start) if shell == asked.current.shell else []
    ruled = [pads for pads in ruled if has(pads)]
    trial, wide = drawn.trial(shell), not asked.was_on(shell)
    heads = min(GUESSED_ON, len(drawn) // 2)
    seen = climb(trial, start, heads, has=has, charge=charge, others=ruled[:1], wide=wide)
    seen.score([*ruled, *singles(asked.sheet, start, has)])
    for begin in (start, *ruled[:1]):
        ascend(seen, trial, begin, is_plain)
    best = [Build(shell, pads) for pads in seen.top(len(seen.scores))]
    is_open = [build for build in best if asked.is_open(build)]
    plain = [build for build in is_open if not _touched(asked, known, build)]
    by_the_rule = [build for pads in ruled[:2] if asked.is_open(build := Build(shell, pads))]
    return list(dict.fromkeys([*by_the_rule, *plain[:PLAIN], *is_open]))[:ENTRANTS]


def _chosen(tally: Tally, asked: Question, known: Found, builds: list[Build]) -> list[Build]:
    """The best of some builds on the choosing half, the best first."""
    return tally.select(
        builds,
        lambda build: _charged(asked, known, build),
        keep=lambda build: not _touched(asked, known, build),
    )


def _charged(asked: Question, known: Found, build: Build) -> float:
    """The price with what is asked for every pad that was found snug [min]."""
    return asked.price(build) * (1.0 + SNUG_MARGIN.value) ** len(_touched(asked, known, build))


def _touched(asked: Question, known: Found, build: Build) -> tuple[Zone, ...]:
    if build.shell != asked.current.shell:
        return ()
    return tuple(zone for zone in asked.changes(build) if zone in known.snug)


def _may_be_beaten(tally: Tally, asked: Question, field: list[Build]) -> bool:
    """Whether another shell could cost fewer minutes for its chance, were it as good as hoped."""
    least = min((asked.price(build) / tally.chance(build) for build in field), default=np.inf)
    elsewhere = asked.minutes.other_shell + asked.minutes.trying(asked.sheet)
    return least > elsewhere / HOPED.value


def _options(tally: Tally, asked: Question, known: Found, field: list[Build]) -> tuple[Option, ...]:
    worth = [build for build in field if tally.chance(build) >= LEAST_WORTH.value]
    plain = next((build for build in field if not _touched(asked, known, build)), None)
    least = np.inf if plain is None else _option(tally, asked, plain).ratio
    return tuple(
        _telling(_option(tally, asked, build), _touched(asked, known, build), least)
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
