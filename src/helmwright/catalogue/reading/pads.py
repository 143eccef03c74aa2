"""The pads of each zone."""

import math
from dataclasses import dataclass

from helmwright.catalogue.cell import AIR
from helmwright.catalogue.foam import Foam
from helmwright.catalogue.reading.cells import check_bladders, read_cell
from helmwright.catalogue.reading.foams import first_fall
from helmwright.catalogue.reading.length import sheet_length_mm
from helmwright.catalogue.reading.table import Table, near, shown
from helmwright.catalogue.sheet import PadKind, Seat
from helmwright.catalogue.usual import USUAL_ENERGY_FOAM, USUAL_FOAM, USUAL_PADS, UsualPad
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.units import UnitsError

_THICKNESSES = 'thicknesses from thin to thick, such as ["5/8 in", "3/4 in", "7/8 in"]'
_USUAL_KEYS = ("delivered", "area_cm2", "fit_foam", "fit_layer", "energy_foam", "seats")
"""What a sheet may leave out of a pad."""

_USUAL_CELL_KEYS = ("area_cm2", "energy_foam", "seats")
"""What it may leave out of a pad with an air cell; without fit foam that has none over it."""

_SEATS = "a direction for each contact point, [azimuth, elevation] in degrees, such as [[0, 90]]"


@dataclass(frozen=True)
class Room:
    """Directions in which a zone's contact points can lie, for the middle or the left of a head."""

    azimuth_deg: tuple[float, float]
    elevation_deg: tuple[float, float]

    def holds(self, azimuth: float, elevation: float) -> bool:
        """Whether a direction lies within."""
        middle = (self.azimuth_deg[0] + self.azimuth_deg[1]) / 2
        half = (self.azimuth_deg[1] - self.azimuth_deg[0]) / 2
        aside = abs(math.remainder(azimuth - middle, 360))
        return aside <= half and self.elevation_deg[0] <= elevation <= self.elevation_deg[1]

    def __str__(self) -> str:
        low, high = self.azimuth_deg
        return (
            f"azimuth {low:g} to {high:g} and elevation {self.elevation_deg[0]:g} to "
            f"{self.elevation_deg[1]:g} degrees"
        )


_ROOMS = {
    Zone.CROWN: Room((-180, 180), (45, 90)),
    Zone.FRONT: Room((-60, 60), (-20, 60)),
    Zone.REAR: Room((120, 240), (-25, 60)),
    Zone.LEFT: Room((30, 150), (-25, 60)),
    Zone.RIGHT: Room((-150, -30), (-25, 60)),
    Zone.NAPE: Room((110, 250), (-70, 0)),
    Zone.JAW_LEFT: Room((20, 120), (-75, -5)),
    Zone.JAW_RIGHT: Room((-120, -20), (-75, -5)),
}


def read_pads(
    tables: list[Table], absent: Table | None, root: Table, foams: dict[str, Foam]
) -> dict[Zone, PadKind]:
    """The pads that can be read, by zone, with faults noted for the rest."""
    pads: dict[Zone, tuple[Table, PadKind]] = {}
    for table in tables:
        zone = _zone(table)
        if zone in pads:
            wrong = f"the zone {zone} already has its pads"
            table.fault("zone", wrong, "Write one [[pad]] for each zone, with all thicknesses")
        elif zone is not None:
            pads[zone] = (table, _pad(table, zone, foams))
    check_bladders(pads.values())
    explained = _absent(absent, pads)
    missing = [zone.value for zone in ZONES if zone not in pads and zone not in explained]
    if missing and all(_zone_is_known(table) for table in tables):
        wrong = "no pads for " + ", ".join(missing)
        right = "Add a [[pad]] for each, or give the reason in a section [without_pad]"
        root.fault("pad", wrong, right)
    return {zone: pad for zone, (table, pad) in pads.items() if table.sound}


def absent_pad(zone: Zone, foam: Foam) -> PadKind:
    """What stands in a zone that the helmet does not pad: no contact, one choice."""
    return PadKind(zone, (), ("none",), (0.0,), 0.0, foam, 0.0, foam, 0)


def _zone_is_known(table: Table) -> bool:
    return table.data.get("zone") in tuple(ZONES)


def _zone(table: Table) -> Zone | None:
    """The pad's zone; None where it is no zone."""
    word = table.text("zone", "the zone it sits in", choices=ZONES)
    if word not in tuple(ZONES):
        return None
    table.title = f"{word} pad"
    return Zone(word)


def _absent(table: Table | None, pads: dict[Zone, tuple[Table, PadKind]]) -> set[Zone]:
    """The zones that the sheet says have no pad."""
    if table is None:
        return set()
    for zone in ZONES:
        table.text(zone, "why there is no pad", default="")
    table.close()
    zones = {zone for zone in ZONES if table.may_have(zone)}
    for zone in sorted(zones & set(pads)):
        wrong = f"the zone {zone} has pads above"
        table.fault(zone, wrong, "Keep either the [[pad]] or the reason for its absence")
    return zones


def _pad(table: Table, zone: Zone, foams: dict[str, Foam]) -> PadKind:
    """One zone's pads."""
    if table.may_have("cell"):
        return _cell_pad(table, zone, foams)
    sizes = table.lengths("thicknesses", _THICKNESSES, 1.0, 80.0)
    _check_rising(table, sizes)
    part_numbers = table.texts("part_numbers", "one part number a thickness", optional=True)
    if part_numbers and len(part_numbers) != len(sizes):
        wrong = f"part numbers: {len(part_numbers)}; thicknesses: {len(sizes)}"
        table.fault("part_numbers", wrong, "Write one part number for each thickness, in order")
    usual = USUAL_PADS[zone]
    pad = PadKind(
        zone=zone,
        seats=_seats(table, zone) if table.may_have("seats") else usual.seats,
        labels=tuple(label for label, _ in sizes),
        thicknesses_mm=tuple(thickness for _, thickness in sizes),
        area_cm2=_area(table, usual),
        fit_foam=_foam(table, "fit_foam", foams, USUAL_FOAM),
        fit_layer_mm=table.length("fit_layer", 1.0, 40.0, default=usual.fit_layer.value),
        energy_foam=_foam(table, "energy_foam", foams, USUAL_ENERGY_FOAM),
        delivered=_delivered(table, sizes),
        attachment=table.text("attachment", "how the pad is held", default=""),
        price_usd=price(table),
        part_numbers=part_numbers,
        assumed=tuple(key for key in _USUAL_KEYS if not table.may_have(key)),
    )
    table.close()
    return pad


def _cell_pad(table: Table, zone: Zone, foams: dict[str, Foam]) -> PadKind:
    """A zone's air cell, with the foams around it; the fit layer may be missing."""
    read, usual = read_cell(table, zone), USUAL_PADS[zone]
    stiff = _foam(table, "energy_foam", foams, USUAL_ENERGY_FOAM)
    covered = table.may_have("fit_foam") or table.may_have("fit_layer")
    pad = PadKind(
        zone=zone,
        seats=_seats(table, zone) if table.may_have("seats") else usual.seats,
        labels=(AIR,),
        thicknesses_mm=(read.full_mm if read else 0.0,),
        area_cm2=_area(table, usual),
        fit_foam=_foam(table, "fit_foam", foams, USUAL_FOAM) if covered else stiff,
        fit_layer_mm=table.length("fit_layer", 1.0, 40.0) if covered else 0.0,
        energy_foam=stiff,
        delivered=0,
        attachment=table.text("attachment", "how the pad is held", default=""),
        price_usd=price(table),
        part_numbers=table.texts("part_numbers", "its part number, in a list", optional=True),
        assumed=tuple(key for key in _USUAL_CELL_KEYS if not table.may_have(key)),
        cell=read.cell if read else None,
    )
    _check_cell(table, pad)
    table.close()
    return pad


def _check_cell(table: Table, pad: PadKind) -> None:
    """Note a fit layer that the flat pad has no room for, and part numbers of other thicknesses."""
    if pad.cell is None:
        return
    flat = pad.thicknesses_mm[0] - pad.cell.reach_mm
    if pad.fit_layer_mm > flat:
        wrong = f"a fit layer of {pad.fit_layer_mm:g} mm is more than the flat pad's {flat:g} mm"
        table.fault("fit_layer", wrong, "The flat pad holds the fit layer, the skins and the rest")
    if len(pad.part_numbers) > 1:
        wrong = f"part numbers: {len(pad.part_numbers)}; there is one cell"
        table.fault("part_numbers", wrong, "Write the one part number of this zone's cell")


def price(table: Table) -> float | None:
    """A price [USD], where the sheet gives one."""
    given = table.may_have("price_usd")
    return table.number("price_usd", 0, 10000, "dollars") if given else None


def _area(table: Table, usual: UsualPad) -> float:
    """The area that bears on the head [cm2]; the usual where the sheet says nothing."""
    return table.number("area_cm2", 2.0, 400.0, "square centimeters", default=usual.area.value)


def _check_rising(table: Table, sizes: tuple[tuple[str, float], ...]) -> None:
    """Note the first thickness that is not above the one before."""
    place = first_fall(tuple(thickness for _, thickness in sizes))
    if place is not None and table.sound:
        wrong = f'"{sizes[place][0]}" comes after "{sizes[place - 1][0]}"'
        right = "List the thicknesses from thin to thick, each once"
        table.fault("thicknesses", wrong, right, item=place)


def _delivered(table: Table, sizes: tuple[tuple[str, float], ...]) -> int:
    """Index of the thickness that the shell arrives with; the middle one where nothing is said."""
    if not table.may_have("delivered"):
        return len(sizes) // 2
    word = table.text("delivered", "the thickness that the shell arrives with")
    for place, (label, size) in enumerate(sizes):
        if label == word or _is_length(word, size):
            return place
    if word and sizes:
        wrong = f'"{word}" is not among the thicknesses'
        table.fault("delivered", wrong, "Write one of: " + ", ".join(label for label, _ in sizes))
    return 0


def _is_length(word: str, length_mm: float) -> bool:
    """Whether a word is that length."""
    try:
        return abs(sheet_length_mm(word) - length_mm) < 0.01
    except UnitsError:
        return False


def _foam(table: Table, key: str, foams: dict[str, Foam], usual: Foam) -> Foam:
    """The foam of that name; a stand-in, noted, where there is none; the usual one unnamed."""
    if not table.may_have(key):
        return usual
    name = table.text(key, "the name of a foam, such as " + next(iter(foams)))
    if name and name not in foams:
        wrong = f'there is no foam "{name}"{near(name, foams)}'
        right = "Write one of: " + ", ".join(foams) + "; or define it in a section [[foam]]"
        table.fault(key, wrong, right)
    return foams.get(name, next(iter(foams.values())))


def _seats(table: Table, zone: Zone) -> tuple[Seat, ...]:
    """The contact points that lie where the zone is."""
    seats = []
    for place, pair in enumerate(table.listed("seats", _SEATS)):
        if not _is_direction(pair):
            wrong = f"{shown(pair)} is no direction"
            table.fault("seats", wrong, f"Write {_SEATS}", item=place)
            continue
        azimuth, elevation = float(pair[0]), float(pair[1])
        if not _ROOMS[zone].holds(azimuth, elevation):
            wrong = f"[{azimuth:g}, {elevation:g}] does not point at the {zone}"
            right = f"For the {zone} write {_ROOMS[zone]}; 90 is the wearer's left"
            table.fault("seats", wrong, right, item=place)
        seats.append(Seat(azimuth, elevation))
    return tuple(seats)


def _is_direction(pair: object) -> bool:
    """Whether a value is two angles, of a turn at most."""
    return (
        isinstance(pair, list)
        and len(pair) == 2
        and all(isinstance(part, int | float) and not isinstance(part, bool) for part in pair)
        and all(-360 <= part <= 360 for part in pair)
    )
