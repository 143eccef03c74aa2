"""Players and fitters that answer a guide: the other end of a visit."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from helmwright.anatomy import HeadEstimate, Reading, estimate_head
from helmwright.catalogue import ModelSheet, Zone
from helmwright.fit.cloud import Cloud, draw_cloud
from helmwright.fit.finding import Grade, Sign
from helmwright.fit.finding_chances import chances
from helmwright.fit.outlook import Build, Proposal
from helmwright.fit.proposal import propose
from helmwright.fit.rater import Rater
from helmwright.fit.search import Allowed, Effort
from helmwright.visit.check import Check
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import Answered, Event, MeasureSkipped, PutOn, Started
from helmwright.visit.guide import Guide
from helmwright.visit.step import AskCheck, AskMeasure, AskPutOn, Ended, Record
from tests.visit.scripts import OUZEL

SHARP = Rater(felt_noise=1e-3, felt_bias=0.0, stroke_noise_mm=1e-3, brow_noise_mm=1e-3, slip=0.0)
"""Hardly ever mistaken."""

Respond = Callable[[AskMeasure | AskPutOn | AskCheck], Event]


@dataclass(frozen=True)
class Truthful:
    """Answers as one head, drawn from what is believed of it, truly is."""

    head: Cloud

    @classmethod
    def of(cls, started: Started, seed: int = 0, sheet: ModelSheet = OUZEL) -> "Truthful":
        estimate = estimate_head(started.readings, worn=started.worn, **started.stated)
        return cls(draw_cloud(estimate, sheet, 1, np.random.default_rng(seed), rater=SHARP))

    def grade(self, build: Build, sign: Sign, zone: Zone | None) -> Grade:
        trial, rest = self.head.trial(build.shell), self.head.rest(build)
        row = chances(SHARP, trial, build, rest, sign, zone)[0]
        return Grade(int(np.argmax(row)) - 1)

    def answer(self, build: Build, check: Check) -> Answered:
        if check.sign is Sign.BROW and check.length is not None:
            brow = float(np.clip(self.head.rest(build).brow_mm[0], 0.0, check.length.high_mm))
            return Answered(check.key, worded(check, check.length.grade(brow)), brow)
        if check.sign in (Sign.PLAIN, Sign.NOSE, Sign.SIGHT):
            return Answered(check.key, worded(check, Grade.RIGHT))
        if check.sign is Sign.HOT_SPOT:
            return self._hot_spot(build, check)
        return Answered(check.key, worded(check, self.grade(build, check.sign, check.zone)))

    def _hot_spot(self, build: Build, check: Check) -> Answered:
        for each in check.answers:
            if each.zone and self.grade(build, check.sign, each.zone) is not Grade.RIGHT:
                return Answered(check.key, each.word)
        return Answered(check.key, worded(check, Grade.RIGHT))


def worded(check: Check, grade: Grade) -> str:
    """The word for a grade, or the first bad one where there is none for it."""
    words = [each.word for each in check.answers if each.grade is grade]
    bad = [each.word for each in check.answers if each.grade is not Grade.RIGHT]
    return (words or bad)[0]


def play(
    guide: Guide,
    started: Started,
    player: Truthful,
    mistaken: Callable[[list[Event], AskCheck, Answered], Answered] | None = None,
    steps: int = 400,
) -> list[Event]:
    """A visit to its end; `mistaken` may change an answer."""
    events: list[Event] = [started]
    build: Build | None = None
    for _ in range(steps):
        step = guide.next(events)
        if isinstance(step, Ended):
            return events
        if isinstance(step, Record):
            events.append(step.event)
        elif isinstance(step, AskMeasure):
            events.append(MeasureSkipped(step.measure))
        elif isinstance(step, AskPutOn):
            build = step.build
            events.append(PutOn(build))
        elif isinstance(step, AskCheck):
            given = player.answer(build, step.check) if build else all_well(step.check)
            events.append(mistaken(events, step, given) if mistaken else given)
    raise AssertionError(f"the visit did not end within {steps} steps: {events[-3:]}")


def all_well(check: Check) -> Answered:
    """A check before anything is on the head, answered as right."""
    return Answered(check.key, worded(check, Grade.RIGHT))


FIVE = (
    Reading("tape_circumference", 574.0),
    Reading("head_length", 198.0),
    Reading("head_breadth", 155.0),
    Reading("brow_to_top", 99.0),
    Reading("jaw_pad_width", 141.0),
)
"""Readings of nobody: near the middle of men."""

SMALL = Effort(
    climb=16, near=16, race=16, fresh=100, entrants=2, ranked=3, driven=2, driven_builds=0
)
"""A first build found on few heads: its chances are rough, which no test of the course minds."""


def quick_guide(protocol: Protocol, sheet: ModelSheet = OUZEL, **changes) -> Guide:
    """A guide that decides on few draws."""

    def roughly(
        estimate: HeadEstimate, current: Build | None, allowed: Allowed, rng: np.random.Generator
    ) -> Proposal:
        return propose(estimate, sheet, rng=rng, current=current, effort=SMALL, allowed=allowed)

    return Guide(sheet, protocol, **{"draws": 64, "propose": roughly, **changes})
