"""What is believed in the course of a visit: learned batch by batch, and remembered."""

from collections import OrderedDict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields, is_dataclass
from enum import Enum
from functools import cached_property
from hashlib import sha256
from typing import TypeVar

import numpy as np

from helmwright.anatomy import HeadEstimate, Over, Reading, estimate_head
from helmwright.anatomy.prior import Stated
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import Zone
from helmwright.fit.anew import hearing
from helmwright.fit.cloud import Cloud, draw_cloud
from helmwright.fit.finding import Sign, Tried
from helmwright.fit.learn import learn, truth_chance
from helmwright.fit.rater import Rater
from helmwright.fit.seating import PadLaws
from helmwright.fit.verdict import Bands
from helmwright.visit.check import Check, Stage
from helmwright.visit.looks import Looked
from helmwright.visit.round import answers_about, findings_of
from helmwright.visit.state import Visit

Estimate = Callable[[Sequence[Reading], Stated, "tuple[Over, ...] | None"], HeadEstimate]
"""Makes a head estimate of readings, what is stated, and what is worn."""

Draw = Callable[[HeadEstimate, int, np.random.Generator], Cloud]
"""Draws so many heads and helmets of what is believed before anything is found."""

Kept = TypeVar("Kept")

KEPT = 6
"""Beliefs that are kept; each holds all draws."""

FEW = 64
"""Chances and the like that are kept."""

STAGES = tuple(Stage)
FIRST, FURTHER = slice(1), slice(1, None)


def estimated(
    readings: Sequence[Reading], stated: Stated, worn: tuple[Over, ...] | None
) -> HeadEstimate:
    """The head estimate, as for a proposal."""
    return estimate_head(readings, worn=worn, **stated)


@dataclass(frozen=True, eq=False)
class Belief:
    """What is believed after some batches of findings.

    Parameters
    ----------
    cloud
        Equally likely draws.
    """

    cloud: Cloud

    @cached_property
    def effective(self) -> float:
        """How many different draws the cloud is worth: (sum m)^2 / sum m^2 over m copies each."""
        rows = np.unique(self.cloud.standard, axis=0, return_counts=True)[1]
        return float(rows.sum() ** 2 / np.square(rows).sum())


class Beliefs:
    """The beliefs of a visit, each a function of the visit alone.

    Parameters
    ----------
    sheet, rater, bands, laws
        The model; who checks; what counts as right; the pads' laws, where they are at hand.
    draws
        How many draws.
    estimate, draw
        Makes the head estimate, and draws the belief before anything is found; the usual way where
        None.

    Notes
    -----
    Findings are taken in by batches: at each try-on and stage the first look at every check, then
    the further ones. A belief is drawn by a generator that follows from the seed and from all that
    it depends on, so that it does not matter what was asked before, or whether it was forgotten.
    """

    def __init__(
        self, sheet: ModelSheet, *, rater: Rater, bands: Bands, laws: PadLaws | None, draws: int,
        estimate: Estimate, draw: Draw | None = None,
    ) -> None:  # fmt: skip
        self.sheet, self.rater, self.bands, self.laws = sheet, rater, bands, laws
        self._heard = hearing(rater)
        self.draws, self._estimate, self._draw = draws, estimate, draw or self._usual
        self._estimates: OrderedDict[str, HeadEstimate] = OrderedDict()
        self._kept: OrderedDict[str, Belief] = OrderedDict()
        self._right: OrderedDict[str, float] = OrderedDict()

    def estimate(self, visit: Visit) -> HeadEstimate:
        """What is believed of the head, by its readings alone."""
        key = digest(head_of(visit))
        if key not in self._estimates:
            begun = visit.started
            keep(self._estimates, key, self._estimate(visit.readings, begun.stated, begun.worn))
        return self._estimates[key]

    def after(self, visit: Visit, tried: tuple[Tried, ...]) -> Belief:
        """What is believed after some batches of findings."""
        key = digest(head_of(visit), tried)
        if key in self._kept:
            self._kept.move_to_end(key)
            return self._kept[key]
        rng = generator(visit, key)
        if tried:
            before = self.after(visit, tried[:-1]).cloud
            found = Belief(learn(before, tried[:-1], tried[-1], rater=self._heard, rng=rng)[0])
        else:
            found = Belief(self._draw(self.estimate(visit), self.draws, rng))
        return keep(self._kept, key, found)

    def chance_right(
        self, visit: Visit, tried: tuple[Tried, ...], sign: Sign, zone: Zone | None
    ) -> float:
        """Chance that what a check of the build tried last looks at is truly right [1]."""
        key = digest(head_of(visit), tried, sign, zone)
        if key not in self._right:
            cloud = self.after(visit, tried).cloud
            keep(self._right, key, truth_chance(cloud, tried[-1].build, sign, zone), FEW)
        return self._right[key]

    def _usual(self, estimate: HeadEstimate, count: int, rng: np.random.Generator) -> Cloud:
        return draw_cloud(
            estimate, self.sheet, count, rng, rater=self.rater, bands=self.bands,
            laws=self.laws,
        )  # fmt: skip


def batches(
    checks: Sequence[Check],
    visit: Visit,
    upto: Stage | None = None,
) -> tuple[Tried, ...]:
    """Everything found in a visit that teaches, batch by batch.

    Parameters
    ----------
    checks
        The protocol's.
    visit
        Where the visit stands.
    upto
        The last stage of the last try-on that counts; all where None.
    """
    found: list[Tried] = []
    for tried in visit.try_ons:
        last = tried is visit.try_ons[-1]
        stages = STAGES if upto is None or not last else STAGES[: STAGES.index(upto) + 1]
        for stage in stages:
            looked = [
                Looked(check, answers_about(check, tried.answers))
                for check in checks
                if check.stage is stage
            ]
            for looks in (FIRST, FURTHER):
                findings = tuple(each for one in looked for each in findings_of(one, looks))
                if findings:
                    found.append(Tried(tried.build, findings))
    return tuple(found)


def generator(visit: Visit, *about: object) -> np.random.Generator:
    """The random generator for one thing in a visit."""
    seed = abs(int(visit.started.seed))
    return np.random.default_rng([seed, int(digest(*about)[:16], 16)])


def digest(*parts: object) -> str:
    """Of any data, the same for equal data."""
    return sha256(repr([_plain(part) for part in parts]).encode()).hexdigest()


def _plain(part: object) -> object:
    """Data as nested lists of text; 1, 1.0 and a NumPy 1 are the same."""
    if isinstance(part, Enum):
        return ["word", str(part.value)]
    if is_dataclass(part):
        return [type(part).__name__, *(_plain(getattr(part, each.name)) for each in fields(part))]
    if isinstance(part, dict):
        return sorted([str(key), _plain(value)] for key, value in part.items())
    if isinstance(part, (set, frozenset)):
        return sorted(str(each) for each in part)
    if isinstance(part, (list, tuple)):
        return [_plain(each) for each in part]
    if isinstance(part, (int, float, np.integer, np.floating)):
        return float(part).hex()
    return str(part)


def head_of(visit: Visit) -> tuple[object, ...]:
    """What the belief in a visit depends on before anything is found."""
    begun = visit.started
    return begun.seed, visit.readings, begun.stated, begun.worn


def keep(shelf: OrderedDict[str, Kept], key: str, value: Kept, most: int = KEPT) -> Kept:
    """Keep one more, and forget the oldest of too many."""
    shelf[key] = value
    while len(shelf) > most:
        shelf.popitem(last=False)
    return value
