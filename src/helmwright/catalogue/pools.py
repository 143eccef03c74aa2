"""Where pads are counted: under their zone, or in a pool that serves it and its opposite."""

from collections.abc import Iterable, Mapping

from helmwright.catalogue.sheet import PadKind
from helmwright.catalogue.zone import Zone

POOLS: Mapping[str, tuple[Zone, Zone]] = {
    "sides": (Zone.LEFT, Zone.RIGHT),
    "jaw": (Zone.JAW_LEFT, Zone.JAW_RIGHT),
}
"""Places whose pads go to either of two zones."""

POOL_OF: Mapping[str, str] = {str(zone): pool for pool, zones in POOLS.items() for zone in zones}
"""The pool of each zone that shares one with its opposite."""

Part = tuple[str, str]
"""Place and size: a zone or a pool, and what is written on the bag."""

Counts = Mapping[Part, int]
"""How many there are of each part that is listed; below zero is a difference."""


def is_swapped(kind: PadKind) -> bool:
    """Whether pads of a zone are changed one for another; an air cell stays in its shell."""
    return bool(kind.seats) and kind.cell is None


def place_of_return(counts: Counts, zone: str, size: str) -> str:
    """Where a pad out of a helmet is counted: its own row, else the pool where one is listed."""
    pool = POOL_OF.get(zone, "")
    pooled = any(place == pool for place, _ in counts)
    return pool if pooled and (zone, size) not in counts else zone


def place_to_take(counts: Counts, zone: str, size: str) -> str:
    """Which row a pad for a zone is taken from: the zone's own while it has any, else the pool."""
    pool = POOL_OF.get(zone, "")
    for place in (zone, pool):
        if counts.get((place, size), 0) > 0:
            return place
    return place_of_return(counts, zone, size)


def swapped(
    counts: Counts, out: Iterable[Part], into: Iterable[Part]
) -> tuple[dict[Part, int], tuple[Part, ...]]:
    """What is counted once pads of one helmet were changed, and the new ones that were not there.

    Parameters
    ----------
    counts
        Before.
    out, into
        The zones whose pad is changed, each with the size of its old and its new pad.

    Notes
    -----
    Everything that comes out lies on the shelf first: a pad may go to the other side. What was not
    there came from elsewhere, and is not taken off.
    """
    after, lacking = dict(counts), []
    for zone, size in out:
        back = place_of_return(after, zone, size), size
        after[back] = after.get(back, 0) + 1
    for zone, size in into:
        taken = place_to_take(after, zone, size), size
        if after.get(taken, 0) > 0:
            after[taken] -= 1
        else:
            lacking.append((zone, size))
    return after, tuple(lacking)
