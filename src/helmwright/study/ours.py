"""Visits led by the program: the real guide, asked and answered like a person's."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

import numpy as np

from helmwright.anatomy import HeadEstimate
from helmwright.fit import Bands, Build, Proposal, propose
from helmwright.fit.finding import Grade, Sign
from helmwright.fit.first_build import QUICK
from helmwright.fit.search import Allowed
from helmwright.study.people import TAPE
from helmwright.study.players import Met
from helmwright.study.policies import Looks, Policy
from helmwright.study.rules import BROW
from helmwright.study.visits import MOST, Visit, begun, look
from helmwright.study.wearer import TriedOn
from helmwright.visit.check import Check, Stage
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import (
    Accepted,
    Answered,
    Event,
    MeasureSkipped,
    Proposed,
    PutOn,
    Started,
)
from helmwright.visit.guide import Guide
from helmwright.visit.looks import Looks as GuideLooks
from helmwright.visit.protocol import protocol_for
from helmwright.visit.sheet_digest import sheet_digest
from helmwright.visit.step import AskCheck, AskMeasure, AskPutOn, Ended, Record

PLAYED = frozenset({Sign.BROW, Sign.ZONE})
"""Contact checks that are played; the others are left out of the protocol."""

LOOKS = {
    Looks.NONE: GuideLooks.NONE,
    Looks.AGAIN: GuideLooks.BAD_ONES,
    Looks.SURPRISE: GuideLooks.SURPRISE,
}

Propose = Callable[[HeadEstimate, Build | None, Allowed, np.random.Generator], Proposal]


@dataclass
class FirstProposals:
    """First proposals for one player, each sought once, however many visits begin with it.

    Parameters
    ----------
    known
        By what was read.
    """

    known: dict[tuple[str, ...], Proposal] = field(default_factory=dict)

    def seeker(self, met: Met, measures: tuple[str, ...], bands: Bands) -> Propose:
        """The usual search, or what it found before."""

        def seek(
            estimate: HeadEstimate,
            current: Build | None,
            allowed: Allowed,
            rng: np.random.Generator,
        ) -> Proposal:
            if measures not in self.known:
                self.known[measures] = propose(
                    estimate, met.wearer.sheet, rng=rng, current=current, effort=QUICK,
                    bands=bands, allowed=allowed,
                )  # fmt: skip
            return self.known[measures]

        return seek


def by_guide(met: Met, policy: Policy, first: FirstProposals) -> Visit:
    """A visit led by the guide, from the delivered build.

    Parameters
    ----------
    met
        The player.
    policy
        What was read, and what is looked at again.
    first
        First proposals made already for this player by this program.
    """
    sheet = met.wearer.sheet
    bands = met.wearer.dials.bands(Bands.of(sheet))
    guide = Guide(
        sheet, played_checks(protocol_for(sheet), bands), looks=LOOKS[policy.looks],
        most_try_ons=MOST, bands=bands, measures=False,
        propose=first.seeker(met, policy.measures, bands),
    )  # fmt: skip
    return led(guide, met, policy.measures)


def led(guide: Guide, met: Met, measures: tuple[str, ...]) -> Visit:
    """A visit led by any guide."""
    course = _Course(met, begun(met.wearer.sheet, met.delivered))
    events: list[Event] = [started(met, measures)]
    while True:
        step = guide.next(events)
        if isinstance(step, Ended):
            course.end()
            return course.visit
        events.append(course.answer(step))


def started(met: Met, measures: tuple[str, ...] = TAPE) -> Started:
    """The player and the delivered helmet."""
    player, sheet = met.player, met.wearer.sheet
    return Started(
        who=f"head {player.index} of {player.survey}",
        readings=met.read(measures),
        stated={"sex": player.sex, "survey": player.prior},
        worn=None,
        sheet=sheet_digest(sheet),
        current=met.delivered,
        seed=int(np.random.SeedSequence([*player.stream, 24]).generate_state(1)[0]),
    )


def played_checks(protocol: Protocol, bands: Bands) -> Protocol:
    """The checks that are played, the brow's with the limits that hold."""
    kept = (check for check in protocol.stage(Stage.CONTACT) if check.sign in PLAYED)
    return replace(protocol, checks=tuple(_limited(check, bands) for check in kept))


def _limited(check: Check, bands: Bands) -> Check:
    if check.length is None:
        return check
    accept = (bands.brow_low_mm, bands.brow_high_mm)
    return replace(check, length=replace(check.length, accept_mm=accept))


@dataclass
class _Course:
    """The player's and the fitter's end of a visit, and what is kept of it."""

    met: Met
    visit: Visit
    tried: TriedOn | None = None
    grades: list[Grade] = field(default_factory=list)
    last: Event | None = None

    def answer(self, step: object) -> Event:
        """What a person says, or the program's own word."""
        if isinstance(step, Record):
            self.last = step.event
            return self._noted(step.event)
        if isinstance(step, AskMeasure):
            return MeasureSkipped(step.measure)
        if isinstance(step, AskPutOn):
            self._put_on(step.build)
            return PutOn(step.build)
        if isinstance(step, AskCheck):
            return self._checked(step)
        raise TypeError(f"nobody answers {step!r}")

    def end(self) -> None:
        """The visit is over."""
        self._close()
        self.visit.accepted = isinstance(self.last, Accepted)

    def _noted(self, event: Event) -> Event:
        if isinstance(event, Proposed):
            self.visit.stated.append((event.fits, event.found_right))
        return event

    def _put_on(self, build: Build) -> None:
        self._close()
        number = len(self.visit.right) + 1
        self.tried = self.met.wearer.tried_on(build, number)
        self.visit.put_on(self.tried)

    def _close(self) -> None:
        """The round on the last build is over: note whether its first looks were all right."""
        if self.grades:
            self.visit.found.append(all(grade is Grade.RIGHT for grade in self.grades))
            self.grades.clear()

    def _checked(self, step: AskCheck) -> Answered:
        check, tried = step.check, self.tried
        if tried is None:
            raise ValueError(f"{check.title} is asked before anything is on the head")
        place = check.zone or BROW
        found = look(self.met.fitter, tried, place, len(self.visit.right), step.look)
        if step.look == 1:
            self.grades.append(found.grade)
        else:
            self.visit.looks += 1
        return Answered(check.key, worded(check, found.grade), _readable(check, found.value_mm))


def worded(check: Check, grade: Grade) -> str:
    """The word for a grade."""
    return next(answer.word for answer in check.answers if answer.grade is grade)


def _readable(check: Check, value_mm: float | None) -> float | None:
    if value_mm is None or check.length is None:
        return None
    return float(np.clip(value_mm, check.length.low_mm, check.length.high_mm))
