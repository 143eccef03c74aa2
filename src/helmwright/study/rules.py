"""Rules of thumb: from what was found wrong to the next build, without any belief."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations

import numpy as np

from helmwright.catalogue import ZONES, ModelSheet, Zone
from helmwright.fit import Build
from helmwright.fit.finding import Grade
from helmwright.fit.neighborhood import is_allowed, pairs, steps
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from helmwright.study.wearer import TriedOn

BROW = "brow"
Place = Zone | str
Verdict = Mapping[Place, Grade]
"""The brow's and every zone's finding, after all looks."""

ORDER: tuple[Place, ...] = (
    BROW,
    Zone.CROWN,
    Zone.FRONT,
    Zone.LEFT,
    Zone.RIGHT,
    Zone.REAR,
    Zone.NAPE,
    Zone.JAW_LEFT,
    Zone.JAW_RIGHT,
)
"""The trade's order: height by the crown first, then the ring, then the jaws; common practice, no
source."""

JAWS = (Zone.JAW_LEFT, Zone.JAW_RIGHT)

BELOW_THE_SHELL = frozenset({Zone.NAPE, *JAWS})
"""Zones that fetch no other shell when they are out of pads: that one is chosen by crown and ring;
common practice, no source."""

A_STEP_OFF = Figure(
    0.5, "1", ASSUMED, note="chance that a jaw pad chosen by holding it up is one step off"
)


@dataclass
class Remembered:
    """What a fitter who works by rule has in mind: builds found wrong on this head, shells tried.

    Parameters
    ----------
    wrong
        Builds that were found wrong.
    shells
        Shells that were tried.
    """

    wrong: set[Build] = field(default_factory=set)
    shells: set[int] = field(default_factory=set)


Rule = Callable[[Verdict, TriedOn, Remembered, np.random.Generator], Build]
"""The build for the next try-on; one found wrong again only where no other is left nearby."""


def one_zone(found: Verdict, tried: TriedOn, mind: Remembered, rng: np.random.Generator) -> Build:  # noqa: ARG001 - nothing is drawn
    """The first wrong zone in the trade's order, one step; another shell when it is out of pads.

    A build that was found wrong already is passed over, and no shell is fetched for nape and jaws.
    Where that leaves nothing, the nearest build not found wrong yet is taken.
    """
    sheet, build = tried.trial.sheet, tried.build
    for place, way in _wanted(found).items():
        moved = _moved(sheet, build, {place: way})
        if moved is None:
            moved = _other_shell(sheet, build, found, place, mind)
        if moved is not None and moved not in mind.wrong:
            return moved
    return next((each for each in _nearest(sheet, build, found) if each not in mind.wrong), build)


def all_zones(found: Verdict, tried: TriedOn, mind: Remembered, rng: np.random.Generator) -> Build:
    """Every wrong zone a step, the jaws by holding pads up at the first change.

    Notes
    -----
    At the first change each jaw pad that was found wrong is chosen by the room between cheek and
    shell: the listed thickness that would give midway between loose and tight, or with the chance
    `A_STEP_OFF` one step off it. Another shell when a wrong zone is out of pads. Where the step in
    all zones leads back to a build found wrong, the first of them in the trade's order that leads
    elsewhere is made alone.
    """
    sheet, build = tried.trial.sheet, tried.build
    wanted = _wanted(found)
    for place in wanted:
        if _moved(sheet, build, {place: wanted[place]}) is None:
            other = _other_shell(sheet, build, found, place, mind)
            if other is not None:
                return other
    steps = {place: way for place, way in wanted.items() if _moved(sheet, build, {place: way})}
    if not mind.wrong - {build}:
        steps |= {zone: _held_up(tried, zone, rng) for zone in JAWS if found[zone]}
    moved = _moved(sheet, build, steps)
    if moved is None or moved in mind.wrong:
        return one_zone(found, tried, mind, rng)
    return moved


def _wanted(found: Verdict) -> dict[Zone, int]:
    """By zone, in the trade's order: one pad thicker or thinner.

    The crown goes by the brow where that is wrong: a helmet that sits low is raised.
    """
    wanted: dict[Zone, int] = {}
    for place in ORDER:
        grade = found[place]
        if grade is not Grade.RIGHT:
            zone = Zone.CROWN if place == BROW else Zone(place)
            wanted.setdefault(zone, -int(grade))
    return wanted


def _moved(sheet: ModelSheet, build: Build, steps: Mapping[Zone, int]) -> Build | None:
    """The build with some pads so many steps thicker; None where the sheet has no such build."""
    more = dict(steps)
    for left, right in sheet.matched:
        way = more.get(left, more.get(right, 0))
        more |= {left: way, right: way}
    pads = tuple(pad + more.get(zone, 0) for zone, pad in zip(ZONES, build.pads, strict=True))
    moved = Build(build.shell, pads)
    return moved if moved != build and is_allowed(sheet, pads) else None


def _other_shell(
    sheet: ModelSheet, build: Build, found: Verdict, zone: Zone, mind: Remembered
) -> Build | None:
    """The next shell as delivered, where a zone has no pad left: smaller where it is loose.

    A helmet that sits low with the thickest crown pad is too deep, so a smaller one as well. None
    for a zone that does not fetch one.
    """
    if zone in BELOW_THE_SHELL:
        return None
    grade = found[BROW] if zone is Zone.CROWN and found[BROW] else found[zone]
    number = build.shell + int(grade)
    listed = any(shell.number == number for shell in sheet.shells)
    if not listed or number in mind.shells:
        return None
    return Build(number, sheet.delivered)


def _nearest(sheet: ModelSheet, build: Build, found: Verdict) -> Iterator[Build]:
    """Builds in the same shell, those first that the answers ask for.

    Several wrong zones a step each, fewest first; one of them two steps; then a step in any zone;
    then a step or two in any two.
    """
    wanted = _wanted(found)
    for count in range(2, len(wanted) + 1):
        for some in combinations(wanted, count):
            yield from _if_any(_moved(sheet, build, {zone: wanted[zone] for zone in some}))
    for zone, way in wanted.items():
        yield from _if_any(_moved(sheet, build, {zone: 2 * way}))
    for pads in (*steps(sheet, build.pads), *pairs(sheet, build.pads)):
        yield Build(build.shell, pads)


def _if_any(build: Build | None) -> Iterator[Build]:
    if build is not None:
        yield build


def _held_up(tried: TriedOn, zone: Zone, rng: np.random.Generator) -> int:
    """How many steps thicker the pad is that was chosen by holding pads up."""
    trial, place = tried.trial, ZONES.index(zone)
    pad = tried.build.pads[place]
    thickness = trial.laws.thickness_mm[place]
    room = thickness[pad] - tried.rest.zone_stroke_mm[0, place]
    off = [abs(each - room - _middle_mm(tried, zone, n)) for n, each in enumerate(thickness)]
    most = len(trial.sheet.pads[place].thicknesses_mm)
    error = int(rng.choice([-1, 1])) if rng.random() < A_STEP_OFF.value else 0
    return int(np.clip(int(np.argmin(off[:most])) + error, 0, most - 1)) - pad


def _middle_mm(tried: TriedOn, zone: Zone, pad: int) -> float:
    """How far a pad gives midway between loose and tight [mm]."""
    laws, bands = tried.trial.laws, tried.trial.bands
    edges = (laws.stroke(zone, pad, limit) for limit in (bands.loose_kpa, bands.tight_kpa))
    return 0.5 * sum(edges)
