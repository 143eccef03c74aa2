"""Heads, builds and drawings that the tests of this room share."""

import pytest

from helmwright.anatomy import HeadEstimate, Reading, Sex, estimate_head
from helmwright.catalogue import ZONES, Zone
from helmwright.drawing import Section, sections
from helmwright.fit import Build
from helmwright.fit.middle import MiddleRest, middle_rest
from tests.roster.stand_in import SHEET, outlook

THICK = (2, 2, 3, 2, 3, 3, 5, 4)
"""A build with every pad snug or more on the head below."""

READ = {
    "tape_circumference": 581.0,
    "head_length": 203.0,
    "head_breadth": 155.6,
    "brow_to_top": 108.0,
    "jaw_pad_width": 123.8,
}


def head_of(**read: float) -> HeadEstimate:
    return estimate_head([Reading(key, value) for key, value in read.items()], sex=Sex.MALE)


HEAD = head_of(**READ)


def written(build: Build) -> dict[Zone, str]:
    pairs = zip(ZONES, SHEET.pads, build.pads, strict=True)
    return {zone: pad.labels[index].removesuffix(" in") for zone, pad, index in pairs}


def drawn(build: Build) -> tuple[Section, Section, Section]:
    best = outlook(SHEET, build, fits=0.5, found=0.3)
    return sections(middle_rest(HEAD, SHEET, build), best, written(build))


@pytest.fixture(scope="session")
def rest() -> MiddleRest:
    return middle_rest(HEAD, SHEET, Build(4, THICK))


@pytest.fixture(scope="session")
def three() -> tuple[Section, Section, Section]:
    return drawn(Build(4, THICK))
