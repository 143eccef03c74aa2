"""Where a face guard's bars and a chin strap's snaps are, as far as a sheet says it."""

from itertools import pairwise
from typing import Any

from helmwright.catalogue.face_places import BarPlace, Snap
from helmwright.catalogue.reading.table import Table, shown

Pair = tuple[float, float]

_BARS = 'how far ahead of and below the front edge each bar is, such as [["50 mm", "90 mm"]]'
_CENTER = 'how far ahead of and below the front edge, such as ["20 mm", "90 mm"]'
_OPENING = 'ahead of the front edge, and clear across, such as ["-15 mm", "168 mm"]'
_SNAPS = 'how far ahead of and above the ear opening each snap is, such as [["1 in", "-1 in"]]'
_LENGTHS = 'the shortest and longest of each strap on one side, such as [["4 in", "8 in"]]'
_ARCS = 'from ear to chin to ear, one band a size, such as [["11 in", "12 in"]]'


def read_places(table: Table, bars: int) -> tuple[BarPlace, ...]:
    """Places of a guard's bars in the middle plane; none where the sheet is silent."""
    pairs = _pairs(table, "bar_places", _BARS, (-20.0, 160.0), (-20.0, 230.0))
    if pairs and table.sound and len(pairs) != bars:
        wrong = f"places: {len(pairs)}; bars: {bars}"
        table.fault("bar_places", wrong, "Write one place for each bar across, or none")
    for place, (upper, lower) in enumerate(pairwise(pairs), start=1):
        if table.sound and lower[1] <= upper[1]:
            wrong = f"this bar is no lower than the one before ({lower[1]:g} mm, {upper[1]:g} mm)"
            table.fault("bar_places", wrong, "List the bars from top to bottom", item=place)
    return tuple(BarPlace(ahead, below) for ahead, below in pairs)


def read_bar_thickness(table: Table) -> float | None:
    """How thick a bar is [mm], where the sheet says."""
    given = table.may_have("bar_thickness")
    return table.length("bar_thickness", 2.0, 20.0) if given else None


def read_mass_center(table: Table) -> BarPlace | None:
    """A guard's center of mass from the front edge, where the sheet says."""
    if not table.may_have("mass_center"):
        return None
    found = table.lengths("mass_center", _CENTER, -120.0, 230.0)
    if len(found) != 2:
        table.fault("mass_center", f"lengths: {len(found)}; needed: 2", f"Write {_CENTER}")
        return None
    return BarPlace(found[0][1], found[1][1])


def read_side_opening(table: Table) -> Pair | None:
    """Where a guard's sides come nearest before the eyes, and how far apart they are."""
    if not table.may_have("side_opening"):
        return None
    found = table.listed("side_opening", _OPENING)
    if len(found) != 2:
        table.fault("side_opening", f"lengths: {len(found)}; needed: 2", f"Write {_OPENING}")
        return None
    return (
        table.as_length("side_opening", found[0], -60.0, 120.0, item=0),
        table.as_length("side_opening", found[1], 90.0, 260.0, item=1),
    )


def read_snaps(table: Table, points: int) -> tuple[Snap, ...]:
    """Snaps of one side, with how far their straps let out; none where the sheet is silent."""
    places = _pairs(table, "snaps", _SNAPS, (-130.0, 130.0), (-130.0, 130.0))
    lengths = _pairs(table, "strap_lengths", _LENGTHS, (20.0, 400.0), (20.0, 400.0))
    for key, found in (("snaps", places), ("strap_lengths", lengths)):
        if table.sound and len(found) not in (0, points // 2):
            wrong = f"{len(found)} on a side, where {points} points need {points // 2}"
            table.fault(key, wrong, "Write one for each point of one side, high to low")
    if table.sound and bool(places) != bool(lengths):
        missing = "strap_lengths" if places else "snaps"
        table.fault(missing, "snaps and strap_lengths go together", "Write both, or neither")
    _check_ends(table, "strap_lengths", lengths)
    return tuple(Snap(*place, *length) for place, length in zip(places, lengths, strict=False))


def read_optional_width(table: Table, key: str, low_mm: float, high_mm: float) -> float | None:
    """A width [mm], where the sheet says."""
    return table.length(key, low_mm, high_mm) if table.may_have(key) else None


def read_chin_arcs(table: Table, sizes: tuple[str, ...]) -> tuple[Pair, ...]:
    """For each size of cup the chin arcs that it is for [mm]; none where the sheet is silent."""
    arcs = _pairs(table, "cup_chin_arcs", _ARCS, (200.0, 450.0), (200.0, 450.0))
    wanted = max(len(sizes), 1)
    if arcs and table.sound and len(arcs) != wanted:
        wrong = f"bands: {len(arcs)}; sizes: {wanted}"
        table.fault("cup_chin_arcs", wrong, "Write one band for each size, in order")
    _check_ends(table, "cup_chin_arcs", arcs)
    return arcs


def _check_ends(table: Table, key: str, pairs: tuple[Pair, ...]) -> None:
    """Note a pair whose first length is not the smaller one."""
    for place, (low, high) in enumerate(pairs):
        if table.sound and low >= high:
            wrong = f"{low:g} mm is not under {high:g} mm"
            table.fault(key, wrong, "Write the smaller length first", item=place)


def _pairs(table: Table, key: str, right: str, first: Pair, second: Pair) -> tuple[Pair, ...]:
    """A list of pairs of lengths, each within its own interval."""
    found = []
    for place, value in enumerate(table.listed(key, right, optional=True)):
        if not _is_pair(value):
            table.fault(key, f"{shown(value)} is no pair of lengths", f"Write {right}", item=place)
            continue
        found.append(
            (
                table.as_length(key, value[0], *first, item=place),
                table.as_length(key, value[1], *second, item=place),
            )
        )
    return tuple(found)


def _is_pair(value: Any) -> bool:
    return isinstance(value, list) and len(value) == 2
