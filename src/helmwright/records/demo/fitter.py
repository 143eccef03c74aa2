"""A fitter who answers as one possible head truly is: the other end of the demo's visits."""

from dataclasses import dataclass

import numpy as np

from helmwright.anatomy import estimate_head
from helmwright.catalogue import ModelSheet, Zone
from helmwright.fit.cloud import Cloud, draw_cloud
from helmwright.fit.finding import Grade, Sign
from helmwright.fit.finding_chances import chances
from helmwright.fit.outlook import Build
from helmwright.fit.rater import Rater
from helmwright.visit import Answered, Check, Started

SURE = Rater(felt_noise=1e-3, felt_bias=0.0, stroke_noise_mm=1e-3, brow_noise_mm=1e-3, slip=0.0)
"""Hardly ever mistaken."""

LIKE_RIGHT = (Sign.PLAIN, Sign.NOSE, Sign.SIGHT)
"""Checks that say nothing of the pads; all is well there in the demo."""


@dataclass(frozen=True)
class Fitter:
    """Answers checks on one head, drawn from what is believed of it."""

    head: Cloud

    @classmethod
    def of(cls, started: Started, sheet: ModelSheet, *, seed: int) -> "Fitter":
        """With a head as the visit's readings allow."""
        estimate = estimate_head(started.readings, worn=started.worn, **started.stated)
        rng = np.random.default_rng(seed)
        return cls(draw_cloud(estimate, sheet, 1, rng, rater=SURE))

    def answer(self, build: Build | None, check: Check) -> Answered:
        """What is felt and seen at one check; all is well before anything is on the head."""
        if build is None:
            return Answered(check.key, _word(check, Grade.RIGHT))
        if check.sign is Sign.BROW and check.length is not None:
            brow = float(np.clip(self.head.rest(build).brow_mm[0], 0.0, check.length.high_mm))
            return Answered(check.key, _word(check, check.length.grade(brow)), brow)
        if check.sign in LIKE_RIGHT:
            return Answered(check.key, _word(check, Grade.RIGHT))
        if check.sign is Sign.HOT_SPOT:
            return Answered(check.key, self._hot_spot(build, check))
        return Answered(check.key, _word(check, self._grade(build, check.sign, check.zone)))

    def _grade(self, build: Build, sign: Sign, zone: Zone | None) -> Grade:
        trial, rest = self.head.trial(build.shell), self.head.rest(build)
        row = chances(SURE, trial, build, rest, sign, zone)[0]
        return Grade(int(np.argmax(row)) - 1)

    def _hot_spot(self, build: Build, check: Check) -> str:
        sore = (
            each.word
            for each in check.answers
            if each.zone and self._grade(build, check.sign, each.zone) is not Grade.RIGHT
        )
        return next(sore, _word(check, Grade.RIGHT))


def _word(check: Check, grade: Grade) -> str:
    """The word for a grade, or the first bad one where there is none for it."""
    words = [each.word for each in check.answers if each.grade is grade]
    bad = [each.word for each in check.answers if each.grade is not Grade.RIGHT]
    return (words or bad)[0]
