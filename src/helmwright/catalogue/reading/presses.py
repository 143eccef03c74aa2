"""Press tests: thicknesses under known weights, read off the sheet and put to its pads."""

import math
from dataclasses import replace
from typing import Any

from helmwright.catalogue.press import (
    MOST_FACTOR,
    READING_ERROR,
    TELLING_KPA,
    THICKNESS_ERROR,
    Press,
    PressPoint,
    least_give_mm,
    press_finding,
    pressed_pad,
)
from helmwright.catalogue.reading.table import Table, shown
from helmwright.catalogue.sheet import PadKind, PressFinding
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.units import SCALE_UNITS, UnitsError, inches, parse_scale, pounds_and_ounces

Pads = dict[Zone, PadKind]

_POINTS = 'a weight and a thickness for each, such as [["0 lb", "7/8 in"], ["2 lb", "3/4 in"]]'
_PLATE = 'its length and width, such as ["3 in", "2 in"], or one diameter of a round one, ["3 in"]'
_LEAST_POINTS = 3
_SURE = 3.0
"""Standard errors beyond which a thickness is said to be none of this pad (assumed)."""

_RISEN = 2.5
"""Standard errors of a difference beyond which a pad is said to have grown (assumed): with a good
rule that is just under 1/16 in, which one pair of clean readings in 160 exceeds."""

_FELT = 1.96
"""Standard errors of a difference under which a pad is said not to have given (assumed)."""


def read_presses(tables: list[Table], pads: Pads) -> tuple[Pads, tuple[PressFinding, ...]]:
    """The pads as press tests have them, and what the tests say; faults noted."""
    known, findings = dict(pads), []
    taken: set[Zone] = set()
    for table in tables:
        found = _press(table, pads, taken)
        if found is None:
            continue
        finding, source = found
        findings.append(finding)
        taken |= set(finding.zones)
        known |= {zone: pressed_pad(known[zone], finding, source) for zone in finding.zones}
    return known, tuple(findings)


def _press(table: Table, pads: Pads, taken: set[Zone]) -> tuple[PressFinding, str] | None:
    """One test; None where it cannot be used."""
    zones = _zones(table, pads, taken)
    index = _pressed(table, pads.get(zones[0]) if zones else None)
    plate = _plate_cm2(table)
    points = _points(table)
    reading = table.length("reading_error", 0.02, 3.0, default=READING_ERROR.value)
    layer = table.length("fit_layer_error", 0.1, 10.0, default=0.0)
    source = table.text("source", "who pressed it, and when", default="")
    if not table.close() or not zones:
        return None
    press = Press(pads[zones[0]], index, plate, points, reading, layer)
    _check_points(table, press)
    if not table.sound:
        return None
    finding = press_finding(press, zones)
    return (finding, source) if _is_likely(table, press, finding) else None


def _zones(table: Table, pads: Pads, taken: set[Zone]) -> tuple[Zone, ...]:
    """The zone whose pad was pressed, and those whose pads are of the same foam."""
    first = table.text("zone", "the zone whose pad was pressed", choices=ZONES)
    others = table.texts("also", "other zones with the same foam", choices=ZONES, optional=True)
    words = [word for word in dict.fromkeys((first, *others)) if word in list(ZONES)]
    zones = [Zone(word) for word in words]
    for zone in zones:
        key = "zone" if zone == first else "also"
        if zone not in pads and table.report.faults:
            table.sound = False  # its pad is faulty itself, which has been said
            continue
        if zone not in pads or pads[zone].cell is not None:
            wrong = f"the {zone} has no foam pad that could be pressed"
            table.fault(key, wrong, "Name a zone whose pad is foam, without an air cell")
        elif zone in taken:
            wrong = f"another test speaks for the {zone} pad already"
            table.fault(key, wrong, "Keep one test for each pad; put all its points into it")
        elif zones[0] in pads and pads[zone].fit_foam != pads[zones[0]].fit_foam:
            wrong = f"the {zone} pad has another fit foam than the {zones[0]} pad"
            table.fault(key, wrong, "Name zones whose pads have the same fit_foam")
    return tuple(zones)


def _pressed(table: Table, pad: PadKind | None) -> int:
    """Index of the thickness that was pressed."""
    word = table.text("pad", "the thickness that was pressed, as written on the bag")
    if pad is None or not word:
        return 0
    if word in pad.labels:
        return pad.labels.index(word)
    wrong = f'there is no {pad.zone} pad "{word}"'
    table.fault("pad", wrong, "Write one of: " + ", ".join(pad.labels))
    return 0


def _plate_cm2(table: Table) -> float:
    """Area of the plate [cm2]: a rectangle by two lengths, a round one by its diameter."""
    sides = [length for _, length in table.lengths("plate", _PLATE, 10.0, 300.0)]
    if len(sides) > 2:
        table.fault("plate", f"{len(sides)} lengths make no plate", f"Write {_PLATE}")
    if len(sides) == 1:
        return math.pi * sides[0] ** 2 / 400.0
    return sides[0] * sides[1] / 100.0 if len(sides) == 2 else 1.0


def _points(table: Table) -> tuple[PressPoint, ...]:
    """The readings, as they stand."""
    found = []
    for place, pair in enumerate(table.listed("points", _POINTS)):
        weight = _weight(table, pair, place)
        if weight is not None:
            thickness = table.as_length("points", pair[1], 1.0, 100.0, item=place)
            found.append(PressPoint(weight, thickness))
    return tuple(found)


def _weight(table: Table, pair: Any, place: int) -> float | None:
    """The weight of one reading [kg]; None, noted, where it is none."""
    if not isinstance(pair, list) or len(pair) != 2 or not isinstance(pair[0], str):
        table.fault("points", f"{shown(pair)} is no reading", f"Write {_POINTS}", item=place)
        return None
    try:
        return parse_scale(pair[0])
    except UnitsError as error:
        right = 'Write a weight with its unit, such as "2 lb", "2 lb 3 oz" or "900 g"'
        table.fault("points", str(error), right, item=place)
        return None


def _check_points(table: Table, press: Press) -> None:
    """Note too few points, pressures that tell nothing, and pads that grow when pressed."""
    if len(press.points) < _LEAST_POINTS:
        wrong = f"{len(press.points)} readings"
        table.fault("points", wrong, f"Take {_LEAST_POINTS} or more, from no weight upward")
    low, high = TELLING_KPA
    telling = _telling(press)
    if len(telling) < 2:
        area = min(press.plate_cm2, press.pad.area_cm2)
        some = [pounds_and_ounces(kpa * area / 98.0665) for kpa in (2.0 * low, 0.25 * high)]
        wrong = f"{len(telling)} of the weights press the pad as a head does"
        right = f"Take two or more between {some[0]} and {some[1]}, or check units and plate"
        table.fault("points", wrong, right)
    _check_thick(table, press)
    _check_rises(table, press)
    if table.sound:
        _check_gives(table, press)


def _telling(press: Press) -> list[float]:
    """The pressures that say something of a soft foam [kPa]."""
    low, high = TELLING_KPA
    return [kpa for kpa in press.pressures_kpa.tolist() if low <= kpa <= high]


def _check_thick(table: Table, press: Press) -> None:
    """Note thicknesses that this pad cannot have."""
    most = press.free_mm + _SURE * math.hypot(press.reading_error_mm, THICKNESS_ERROR.value)
    for place, point in enumerate(press.points):
        if point.thickness_mm > most:
            wrong = f"{inches(point.thickness_mm, denominator=32, mark=' in')} is thicker than the"
            wrong += f" {press.pad.labels[press.index]} pad"
            table.fault("points", wrong, "Check the unit, and which pad was pressed", item=place)


def _check_rises(table: Table, press: Press) -> None:
    """Note a pad that is thicker under more weight than reading errors explain."""
    limit = _RISEN * math.sqrt(2.0) * press.reading_error_mm
    order = sorted(range(len(press.points)), key=lambda place: press.points[place].weight_kg)
    thinnest = order[0] if order else 0
    for place in order:
        point, before = press.points[place], press.points[thinnest]
        if point.thickness_mm - before.thickness_mm > limit:
            wrong = (
                f"under {pounds_and_ounces(point.weight_kg)} the pad is"
                f" {_both(point.thickness_mm - before.thickness_mm)} thicker than under"
                f" {pounds_and_ounces(before.weight_kg)}"
            )
            right = "No foam does that: press again, or check which reading is which"
            table.fault("points", wrong, right, item=place)
        elif point.thickness_mm < before.thickness_mm:
            thinnest = place


def _check_gives(table: Table, press: Press) -> None:
    """Note a pad that hardly gives where even a stiff foam would."""
    by_weight = sorted(press.points, key=lambda point: point.weight_kg)
    first, last = by_weight[0], by_weight[-1]
    gives = first.thickness_mm - last.thickness_mm
    limit = _FELT * math.sqrt(2.0) * press.reading_error_mm
    would = least_give_mm(press)
    if gives < limit and would - gives > limit:
        wrong = (
            f"between {pounds_and_ounces(first.weight_kg)} and"
            f" {pounds_and_ounces(last.weight_kg)} the pad gives {_both(max(gives, 0.0))}, where"
            f" even a stiff foam of this kind would give some {_both(would)} (assumed)"
        )
        right = "Check that the soft side was up, weights, plate and pad, and press again"
        table.fault("points", wrong, right)


def _both(length_mm: float) -> str:
    """A length in inches, and in mm: "1/16 in (1.6 mm)"."""
    return f"{inches(length_mm, denominator=32, mark=' in')} ({length_mm:.1f} mm)"


def _is_likely(table: Table, press: Press, finding: PressFinding) -> bool:
    """False, noted, for a foam so far from the sheet's that a slip is likelier."""
    if 1.0 / MOST_FACTOR <= finding.factor <= MOST_FACTOR:
        return True
    far = finding.factor if finding.factor > 1.0 else 1.0 / finding.factor
    wrong = f"the foam would be {far:.1f} times as {'stiff' if finding.factor > 1 else 'soft'} as"
    wrong += f" {press.pad.fit_foam.key}{_other_unit(table, press)}"
    right = "Check units, plate and pad; if it is so, describe the foam in a section [[foam]]"
    table.fault("points", wrong, right)
    return False


def _other_unit(table: Table, press: Press) -> str:
    """A question about the unit that would bring the foam near its curve, where one would."""
    used = {str(pair[0]).split()[-1].lower() for pair in table.data["points"]}
    if len(used) != 1 or (written := used.pop()) not in SCALE_UNITS:
        return ""
    units = [unit for unit in SCALE_UNITS if unit != written and _tells(press, unit, written)]
    if not units:
        return ""
    far = {unit: abs(math.log(_factor_in(press, unit, written))) for unit in units}
    meant = min(far, key=lambda unit: far[unit])
    return f"; were the weights {meant}, not {written}?" if far[meant] < math.log(2.0) else ""


def _tells(press: Press, unit: str, written: str) -> bool:
    """Whether the weights, had they been in that unit, press the pad as a head does."""
    return len(_telling(_in_unit(press, unit, written))) > 1


def _factor_in(press: Press, unit: str, written: str) -> float:
    """What the foam's factor would be, had the weights been in another unit than was written."""
    return press_finding(_in_unit(press, unit, written)).factor


def _in_unit(press: Press, unit: str, written: str) -> Press:
    ratio = SCALE_UNITS[unit] / SCALE_UNITS[written]
    points = tuple(replace(each, weight_kg=each.weight_kg * ratio) for each in press.points)
    return replace(press, points=points)
