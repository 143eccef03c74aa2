"""Which builds lie near a build, within what the sheet allows and the shelf has."""

from collections.abc import Callable
from itertools import combinations, product

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES

Pads = tuple[int, ...]
Has = Callable[[Pads], bool]
"""Whether the pads of a build are at hand."""


def everything(_: Pads) -> bool:
    """A shelf that has all that the sheet lists."""
    return True


def singles(sheet: ModelSheet, pads: Pads, has: Has = everything) -> list[Pads]:
    """Builds with another pad in one zone, or in a pair of zones that must match."""
    found: list[Pads] = []
    for group in groups(sheet):
        for choice in range(_choices(sheet, group)):
            _add(found, sheet, pads, dict.fromkeys(group, choice), has)
    return found


def steps(sheet: ModelSheet, pads: Pads, has: Has = everything) -> list[Pads]:
    """Builds a single step away in one zone, or in a pair of zones that must match."""
    found: list[Pads] = []
    for group in groups(sheet):
        for step in (-1, 1):
            _add(found, sheet, pads, {zone: pads[zone] + step for zone in group}, has)
    return found


def pairs(sheet: ModelSheet, pads: Pads, has: Has = everything) -> list[Pads]:
    """Builds with the pads of two groups moved by a step each, and mirror pairs by two."""
    found: list[Pads] = []
    for one, two in combinations(groups(sheet), 2):
        mirrored = ZONES[one[0]].mirrored == ZONES[two[0]]
        reach = (-2, -1, 1, 2) if mirrored else (-1, 1)
        for first, second in product(reach, reach):
            moves = {zone: pads[zone] + first for zone in one}
            moves |= {zone: pads[zone] + second for zone in two}
            _add(found, sheet, pads, moves, has)
    return found


def even_box(sheet: ModelSheet, pads: Pads, has: Has = everything) -> list[Pads]:
    """Builds within one step in every zone, mirror pairs moved alike: at most 3^6 builds."""
    halves = [zone for zone in range(len(ZONES)) if ZONES.index(ZONES[zone].mirrored) >= zone]
    found = []
    for reach in product((-1, 0, 1), repeat=len(halves)):
        moves = dict(zip(halves, reach, strict=True))
        moved = tuple(
            pad + moves.get(zone, moves.get(ZONES.index(ZONES[zone].mirrored), 0))
            for zone, pad in enumerate(pads)
        )
        if is_allowed(sheet, moved) and has(moved):
            found.append(moved)
    return found


MOST_LACKING = 3
"""In how many zones at most a pad is replaced to find a build that is at hand."""


def nearest(sheet: ModelSheet, pads: Pads, has: Has) -> Pads | None:
    """The build itself where it is at hand, or one near it in the fewest zones; None where none is.

    Zones that lack their pad are sought together, up to MOST_LACKING groups of zones.
    """
    together = groups(sheet)
    for lacking in range(MOST_LACKING + 1):
        for chosen in combinations(together, lacking):
            for choices in product(*(_nearby(sheet, group, pads) for group in chosen)):
                moves = {
                    zone: pad for group, pad in zip(chosen, choices, strict=True) for zone in group
                }
                moved = tuple(moves.get(zone, pad) for zone, pad in enumerate(pads))
                if is_allowed(sheet, moved) and has(moved):
                    return moved
    return None


def _nearby(sheet: ModelSheet, group: tuple[int, ...], pads: Pads) -> list[int]:
    """Other pads of a group of zones, the nearest first."""
    here = pads[group[0]]
    others = [pad for pad in range(_choices(sheet, group)) if pad != here]
    return sorted(others, key=lambda pad: abs(pad - here))


def is_allowed(sheet: ModelSheet, pads: Pads) -> bool:
    """Whether the sheet has those pads, and the zones that must match do."""
    listed = all(
        0 <= pad < len(kind.thicknesses_mm) for pad, kind in zip(pads, sheet.pads, strict=True)
    )
    return listed and all(
        pads[ZONES.index(left)] == pads[ZONES.index(right)] for left, right in sheet.matched
    )


def groups(sheet: ModelSheet) -> list[tuple[int, ...]]:
    """Zones that are changed together, by their places in ZONES: pairs that must match, or one."""
    tied = [(ZONES.index(left), ZONES.index(right)) for left, right in sheet.matched]
    held = {zone for pair in tied for zone in pair}
    return tied + [(zone,) for zone in range(len(ZONES)) if zone not in held]


def _choices(sheet: ModelSheet, group: tuple[int, ...]) -> int:
    return min(len(sheet.pads[zone].thicknesses_mm) for zone in group)


def _add(found: list[Pads], sheet: ModelSheet, pads: Pads, moves: dict[int, int], has: Has) -> None:
    moved = tuple(moves.get(zone, pad) for zone, pad in enumerate(pads))
    if moved != pads and is_allowed(sheet, moved) and has(moved):
        found.append(moved)
