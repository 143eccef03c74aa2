"""Beliefs and findings that the tests of learning share."""

from dataclasses import dataclass, field
from functools import cache

import numpy as np

from helmwright.anatomy import HeadEstimate, Reading, Sex, estimate_head
from helmwright.catalogue import ZONES, Zone
from helmwright.fit import Build, Rater
from helmwright.fit.cloud import Cloud, draw_cloud
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.fit.finding_chances import chances
from tests.fit.ordinary import OUZEL

RATER = Rater()
PLAYED = ((Sign.BROW, None), *((Sign.ZONE, zone) for zone in ZONES))
"""The checks that decide whether a helmet is found right."""


@cache
def five_measures() -> HeadEstimate:
    """A man's head by five measures."""
    read = {
        "tape_circumference": 572.0,
        "head_length": 197.0,
        "head_breadth": 155.0,
        "brow_to_top": 98.0,
        "jaw_pad_width": 132.0,
    }
    return estimate_head([Reading(key, value) for key, value in read.items()], sex=Sex.MALE)


def good_build() -> Build:
    """What a proposal gives that head."""
    return Build(3, (3, 2, 2, 2, 2, 2, 3, 3))


def cloud_of(count: int, seed: int = 1, *, rater: Rater = RATER) -> Cloud:
    """What is believed of that head before the helmet is on."""
    return draw_cloud(five_measures(), OUZEL, count, np.random.default_rng(seed), rater=rater)


@dataclass(frozen=True, eq=False)
class HeldCloud(Cloud):
    """A cloud in which only some numbers are uncertain, the others known to be 0."""

    free: np.ndarray = field(default_factory=lambda: np.zeros(0, dtype=int))

    def moved(self, standard, part_of=None):
        held = np.zeros_like(standard)
        held[:, self.free] = standard[:, self.free]
        return super().moved(held, part_of)


def held(free: list[int], values: np.ndarray) -> Cloud:
    """The draws of `values`, shape (n, f), in the columns `free`, nothing else uncertain."""
    one = cloud_of(1)
    standard = np.zeros_like(one.standard)
    middle = HeldCloud(
        one.estimate, one.sheet, one.laws, one.bands, standard, one.part_of, one.bias_sd,
        np.array(free),
    )  # fmt: skip
    middle.rest(good_build())
    many = middle.chosen(np.zeros(len(values), dtype=int))
    placed = np.zeros_like(many.standard)
    placed[:, free] = values
    return many.moved(placed)


def unknown_column(cloud: Cloud, place: int) -> int:
    """Column of one of the unknowns, counted as `placed_unknowns` takes them."""
    return cloud.columns.unknowns.start + place


def own_of(zone: Zone) -> int:
    """Place of a zone's own residual among the unknowns: after what all have in common."""
    return 1 + ZONES.index(zone)


def all_right(*wrong: Finding, brow_mm: float | None = 25.4) -> tuple[Finding, ...]:
    """Every check of a round found right but for some."""
    spoiled = {(each.sign, each.zone) for each in wrong}
    good = [
        Finding(sign, Grade.RIGHT, zone, brow_mm if sign is Sign.BROW else None)
        for sign, zone in PLAYED
        if (sign, zone) not in spoiled
    ]
    return (*good, *wrong)


def answered(
    cloud: Cloud, build: Build, rng: np.random.Generator, *, signs=PLAYED, rater: Rater = RATER
) -> list[tuple[Finding, ...]]:
    """What a fitter with each draw's bias answers on each draw's head."""
    rest, trial = cloud.rest(build), cloud.trial(build.shell)
    found: list[list[Finding]] = [[] for _ in range(len(cloud))]
    for sign, zone in signs:
        chance = chances(rater, trial, build, rest, sign, zone, cloud.felt_bias)
        grades = (rng.random((len(cloud), 1)) > chance.cumsum(axis=1)[:, :2]).sum(axis=1) - 1
        for row, grade in zip(found, grades, strict=True):
            row.append(Finding(sign, Grade(int(grade)), zone))
    return [tuple(row) for row in found]
