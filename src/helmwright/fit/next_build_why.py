"""Why a build is to be tried, as data: which findings it answers, and which pads it changes."""

from collections.abc import Sequence
from dataclasses import dataclass

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.fit.next_build import Option
from helmwright.fit.next_build_found import Found
from helmwright.fit.outlook import Build


@dataclass(frozen=True, slots=True)
class Move:
    """One pad that is changed.

    Parameters
    ----------
    zone
        Where.
    before, after
        Thickness as written on the bag.
    by_mm
        How much thicker; thinner where negative [mm].
    """

    zone: Zone
    before: str
    after: str
    by_mm: float


@dataclass(frozen=True, slots=True)
class Why:
    """Why a build is to be tried.

    Parameters
    ----------
    answers
        What was found wrong, each once; empty before the first try-on.
    moves
        The pads that are changed.
    shells
        The shell on the head and the other one, where the shell is changed.
    stay
        Zones found snug whose pad stays.
    touched_snug, saved
        Zones found snug whose pad is changed all the same, and what share of the expected minutes
        that saves [1].
    """

    answers: tuple[Finding, ...]
    moves: tuple[Move, ...]
    shells: tuple[int, int] | None = None
    stay: tuple[Zone, ...] = ()
    touched_snug: tuple[Zone, ...] = ()
    saved: float = 0.0


def why(option: Option, found: Sequence[Finding], sheet: ModelSheet, current: Build) -> Why:
    """Why a build is to be tried after what was found on the one that is on the head.

    Parameters
    ----------
    option
        The build.
    found
        The findings on `current`, repeats included; none before the first try-on.
    sheet, current
        The model, and what is in the helmet now.
    """
    known = Found.of(found)
    same = option.build.shell == current.shell
    moved = option.build.changes_from(current)
    return Why(
        answers=_wrong(known, found),
        moves=tuple(_move(zone, option, sheet) for zone in option.changes),
        shells=None if same else (current.shell, option.build.shell),
        stay=tuple(z for z in ZONES if same and z in known.snug and z not in moved),
        touched_snug=option.touched_snug,
        saved=option.saved,
    )


def _wrong(known: Found, found: Sequence[Finding]) -> tuple[Finding, ...]:
    """What stands as wrong: zones and brow in their order, then what else was not right."""
    zones = [
        Finding(Sign.HOT_SPOT if zone in known.hot else Sign.ZONE, known.wrong[zone], zone)
        for zone in ZONES
        if zone in known.wrong
    ]
    brow = [] if known.brow is Grade.RIGHT else [Finding(Sign.BROW, known.brow)]
    last = {(f.sign, f.zone): f for f in found if f.sign not in _TOLD_APART}
    others = [Finding(f.sign, f.grade, f.zone) for f in last.values() if f.grade is not Grade.RIGHT]
    return (*brow, *zones, *others)


_TOLD_APART = frozenset({Sign.ZONE, Sign.BROW, Sign.HOT_SPOT})


def _move(zone: Zone, option: Option, sheet: ModelSheet) -> Move:
    kind, place = sheet.pad(zone), ZONES.index(zone)
    here, there = option.lying.pads[place], option.build.pads[place]
    by = kind.thicknesses_mm[there] - kind.thicknesses_mm[here]
    return Move(zone, kind.labels[here], kind.labels[there], by)
