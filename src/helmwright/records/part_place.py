"""What parts a sheet lists, and at which places a store counts them."""

from collections.abc import Iterable

from helmwright.catalogue import ChinStrap, ModelSheet, Zone, pools
from helmwright.catalogue.pools import POOLS

GUARD = "guard"
STRAP = "strap"


def is_swapped(sheet: ModelSheet, zone: Zone) -> bool:
    """Whether pads of a zone are changed one for another; an air cell stays in its shell."""
    return pools.is_swapped(sheet.pad(zone))


def swapped_zones(sheet: ModelSheet) -> tuple[str, ...]:
    """The zones whose pads are parts."""
    return tuple(str(kind.zone) for kind in sheet.pads if is_swapped(sheet, kind.zone))


def pad_sizes(sheet: ModelSheet) -> dict[str, tuple[str, ...]]:
    """Zones and pools, and the pads of each as on the bag."""
    zones = {zone: sheet.pad(Zone(zone)).labels for zone in swapped_zones(sheet)}
    either = {
        pool: _shared([zones[str(zone)] for zone in of_pool if str(zone) in zones])
        for pool, of_pool in POOLS.items()
    }
    return {place: sizes for place, sizes in (zones | either).items() if sizes}


def sizes_by_place(sheet: ModelSheet) -> dict[str, tuple[str, ...]]:
    """Every part that can be counted: its places, and the sizes there.

    Shells are no parts: each is a helmet of its own.
    """
    face = {
        GUARD: tuple(guard.name for guard in sheet.face_guards),
        STRAP: tuple(name for strap in sheet.chin_straps for name in _strap_sizes(strap)),
    }
    return pad_sizes(sheet) | {place: sizes for place, sizes in face.items() if sizes}


def _strap_sizes(strap: ChinStrap) -> Iterable[str]:
    return [f"{strap.name}, {size}" for size in strap.sizes] or [strap.name]


def _shared(labels: list[tuple[str, ...]]) -> tuple[str, ...]:
    if not labels:
        return ()
    first, *others = labels
    return tuple(label for label in first if all(label in other for other in others))
