"""What is worth knowing about a sheet that has no fault."""

import math
from collections.abc import Sequence
from itertools import pairwise

from helmwright.catalogue.cell import AirCell
from helmwright.catalogue.press import UNLIKELY, is_far, likely_factors
from helmwright.catalogue.sheet import ModelSheet, PadKind, PressFinding
from helmwright.catalogue.unlikely import unlikely_insides
from helmwright.catalogue.window import BROW_HIGH, BROW_LOW, SnugWindow, snug_window
from helmwright.catalogue.zone import Zone
from helmwright.units import inches

_LEFT_ZONES = (Zone.LEFT, Zone.JAW_LEFT)
_MAY_BE_WIDE = {Zone.CROWN, Zone.NAPE, Zone.JAW_LEFT, Zone.JAW_RIGHT}


def advise(sheet: ModelSheet, *, on_assumed_layers: bool = True) -> tuple[str, ...]:
    """Advice on a sheet, one sentence or two each; none of it stops anything.

    Parameters
    ----------
    sheet
        A sheet without a fault.
    on_assumed_layers
        Whether to tell the snug windows of pads whose soft layer the sheet leaves out, too.

    Notes
    -----
    A snug window of about one to two thickness steps forgives a wrong choice by a little and
    still tells one thickness from the next (assumed). The crown's window is the brow's, since
    the weight on the crown is the same whatever its pad; on nape and jaw a wider one does no
    harm. Pads of which the same is to be said share a line.
    """
    padded = [
        pad
        for pad in sheet.pads
        if pad.seats and (on_assumed_layers or pad.zone is Zone.CROWN or not _is_layer_assumed(pad))
    ]
    return (
        *_on_pads(padded),
        *(_on_press(finding) for finding in sheet.presses),
        *unlikely_insides(sheet),
        *_on_mirrors(sheet),
        *_on_faces(sheet),
        *_on_chart(sheet),
    )


def _is_layer_assumed(pad: PadKind) -> bool:
    return pad.cell is None and bool({"fit_layer", "fit_foam"} & set(pad.assumed))


def _on_pads(pads: Sequence[PadKind]) -> list[str]:
    """What is to be said of the pads, the zones of which the same is said named together."""
    zones: dict[str, list[Zone]] = {}
    for pad in pads:
        zones.setdefault(_on_pad(pad), []).append(pad.zone)
    return [f"{_named(those)}: {said}" for said, those in zones.items()]


def _named(zones: Sequence[Zone]) -> str:
    """The pads of some zones: "rear, left and right pads"."""
    if len(zones) == 1:
        return f"{zones[0]} pad"
    return f"{', '.join(zones[:-1])} and {zones[-1]} pads"


def _on_pad(pad: PadKind) -> str:
    """What a pad's snug window means."""
    if pad.cell is not None:
        return _on_cell(pad, pad.cell)
    window = snug_window(pad)
    if len(pad.thicknesses_mm) == 1:
        return f"snug over {_both(window.window_mm)} of squeeze; one thickness only"
    if pad.zone is Zone.CROWN:
        return _on_brow(SnugWindow(BROW_HIGH.value - BROW_LOW.value, window.step_mm))
    told = (
        f"snug over {_both(window.window_mm)} of squeeze, about "
        f"{window.steps:.1f} thickness steps of {_both(window.step_mm)}"
    )
    return told + _verdict(window, wide=3.5 if pad.zone in _MAY_BE_WIDE else 2.5)


def _on_cell(pad: PadKind, cell: AirCell) -> str:
    """How far a cell reaches, and what is assumed of it."""
    full = pad.thicknesses_mm[0]
    return (
        f"air cell, filled by feel to about {cell.snug_kpa:g} kPa on the head"
        f" (assumed), reaching from {_both(full - cell.reach_mm)} flat to {_both(full)} full."
        " Leak is not modeled: check it weekly"
    )


def _on_press(finding: PressFinding) -> str:
    """What a press test has changed."""
    narrower = finding.scatter < finding.before
    was = f" instead of {100 * finding.before:.0f}" if narrower else ", as before"
    low, high = (finding.factor * math.exp(side * 1.96 * finding.spread) for side in (-1, 1))
    told = (
        f"press test of the {finding.zones[0]} {finding.pad_label} pad, for"
        f" {', '.join(finding.zones)}: the fit foam is {finding.factor:.2f} times as stiff as its"
        f" curve, {low:.2f} to {high:.2f} in 19 of 20 (errors of reading assumed); such pads"
        f" are taken to scatter by {100 * finding.scatter:.0f} percent{was}"
    )
    if finding.misfit < UNLIKELY:
        return f"{told}. The points lie off any curve of this foam: press again, or another piece"
    if is_far(finding):
        least, most = likely_factors(finding.prior)
        return (
            f"{told}. So far from its curve it was not expected ({least:.1f} to {most:.1f} times"
            " in 19 of 20, assumed): check weights, plate and pad, or press another piece"
        )
    if finding.spread > 0.5 * finding.prior:
        return f"{told}. The points say little: take more, at weights that press as a head does"
    return told


def _on_brow(window: SnugWindow) -> str:
    """What the crown's step means for the brow."""
    told = (
        f"it sets the brow height, whose window of {_both(window.window_mm)} is about "
        f"{window.steps:.1f} thickness steps of {_both(window.step_mm)}"
    )
    return told + _verdict(window, wide=5.0)


def _verdict(window: SnugWindow, *, wide: float) -> str:
    """What is doubtful about a window, if anything."""
    if window.steps < 1.0:
        return (
            ". Some heads will find no thickness right: a thicker fit layer or smaller steps help"
        )
    if window.steps > wide:
        return ". Neighboring thicknesses will feel the same: fewer would do"
    return ""


def _on_mirrors(sheet: ModelSheet) -> list[str]:
    """Left and right pads that do not sit as in a mirror."""
    return [
        f"{zone} and {zone.mirrored} pads do not sit as in a mirror: meant so?"
        for zone in _LEFT_ZONES
        if not _sits_mirrored(sheet, zone)
    ]


def is_mirrored(sheet: ModelSheet) -> bool:
    """Whether a build and the same one with left and right exchanged do the same."""
    return all(
        _sits_mirrored(sheet, zone)
        and sheet.pad(zone).thicknesses_mm == sheet.pad(zone.mirrored).thicknesses_mm
        for zone in _LEFT_ZONES
    )


def _on_faces(sheet: ModelSheet) -> list[str]:
    """Guards and straps whose places are not on the sheet."""
    guards = [guard.name for guard in sheet.face_guards if not guard.places]
    straps = [strap.name for strap in sheet.chin_straps if not strap.snaps]
    told = []
    if guards:
        told.append(f"no places of bars for: {'; '.join(guards)}. Usual ones are assumed, and wide")
    if straps:
        told.append(f"no snaps for: {'; '.join(straps)}. No lengths to begin with can be said")
    return told


def _sits_mirrored(sheet: ModelSheet, zone: Zone) -> bool:
    here = [(seat.azimuth_deg % 360, seat.elevation_deg) for seat in sheet.pad(zone).seats]
    there = [
        (-seat.azimuth_deg % 360, seat.elevation_deg) for seat in sheet.pad(zone.mirrored).seats
    ]
    return sorted(here) == sorted(there)


def _both(length_mm: float, *, denominator: int = 16) -> str:
    """A length as sheets are typed, and in mm: "1/8 in (3.2 mm)"."""
    return f"{inches(length_mm, denominator=denominator, mark=' in')} ({length_mm:.1f} mm)"


def _band(low_mm: float, high_mm: float) -> str:
    """Both ends of a band of the chart: "22 7/8 to 23 in (581 to 584 mm)"."""
    return f"{inches(low_mm)} to {inches(high_mm)} in ({low_mm:g} to {high_mm:g} mm)"


def _on_chart(sheet: ModelSheet) -> list[str]:
    """Gaps and overlaps of the chart, and what the sheet does with them."""
    told = []
    for smaller, larger in pairwise(sheet.shells):
        ends = sorted((smaller.chart_high_mm, larger.chart_low_mm))
        if ends[0] == ends[1]:
            continue
        where = "lies between" if larger.chart_low_mm == ends[1] else "is in the bands of"
        told.append(
            f"chart: {_band(*ends)} {where} shells {smaller.number} and "
            f"{larger.number}; such a head takes the {sheet.between_bands} one"
        )
    return told
