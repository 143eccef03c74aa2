"""What parts a sheet lists, and where a store counts each: under its zone, or in a pool."""

from collections.abc import Iterable, Mapping

from helmwright.catalogue import ChinStrap, ModelSheet, Zone
from helmwright.visit.shelf import POOLS

GUARD = "guard"
STRAP = "strap"

Counts = Mapping[tuple[str, str], int]
"""How many a store holds of each (place, size) that it lists; below zero is a difference."""

POOL_OF: Mapping[str, str] = {str(zone): pool for pool in ("sides", "jaw") for zone in POOLS[pool]}
"""The pool of each zone that shares one with its opposite."""


def is_swapped(sheet: ModelSheet, zone: Zone) -> bool:
    """Whether pads of a zone are changed one for another; an air cell stays in its shell."""
    kind = sheet.pad(zone)
    return bool(kind.seats) and kind.cell is None


def swapped_zones(sheet: ModelSheet) -> tuple[str, ...]:
    """The zones whose pads are parts."""
    return tuple(str(kind.zone) for kind in sheet.pads if is_swapped(sheet, kind.zone))


def pad_sizes(sheet: ModelSheet) -> dict[str, tuple[str, ...]]:
    """Zones and pools, and the pads of each as on the bag."""
    zones = {zone: sheet.pad(Zone(zone)).labels for zone in swapped_zones(sheet)}
    pools = {
        pool: _shared([zones[str(zone)] for zone in POOLS[pool] if str(zone) in zones])
        for pool in ("sides", "jaw")
    }
    return {place: sizes for place, sizes in (zones | pools).items() if sizes}


def sizes_by_place(sheet: ModelSheet) -> dict[str, tuple[str, ...]]:
    """Every part that can be counted: its places, and the sizes there.

    Shells are no parts: each is a helmet of its own.
    """
    face = {
        GUARD: tuple(guard.name for guard in sheet.face_guards),
        STRAP: tuple(name for strap in sheet.chin_straps for name in _strap_sizes(strap)),
    }
    return pad_sizes(sheet) | {place: sizes for place, sizes in face.items() if sizes}


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


def _strap_sizes(strap: ChinStrap) -> Iterable[str]:
    return [f"{strap.name}, {size}" for size in strap.sizes] or [strap.name]


def _shared(labels: list[tuple[str, ...]]) -> tuple[str, ...]:
    if not labels:
        return ()
    first, *others = labels
    return tuple(label for label in first if all(label in other for other in others))
