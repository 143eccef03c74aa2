"""Air cells in words: how to fill them, what to expect, and what their chances mean."""

from collections.abc import Sequence

from helmwright.catalogue.cell import AirCell
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import Zone
from helmwright.fit.outlook import BuildOutlook, FaultKind, FillOutlook, Spread
from helmwright.reports.chances import of_hundred
from helmwright.reports.lengths import inches

PSI_PER_KPA = 0.1450377
LEAST_AT_A_LIMIT = 0.02
"""Chance of a cell at the end of its reach from which on it is told (assumed)."""

AFTER_FILLING = (
    "The chances are those after each cell is filled by feel, before anything is checked again;"
    " how a fitter feels a fill, and how far that varies, is assumed. Filling is no change of pads."
    " Leak is not modeled: check the fill weekly, and where it is colder, warmer or higher."
)


def air_key(sheet: ModelSheet) -> str:
    """What "air" means in a table of builds; nothing where the sheet has no cells."""
    if not any(pad.cell for pad in sheet.pads):
        return ""
    return (
        "air: filled on the head until it feels snug, which is assumed; the chances are those"
        " after filling, before the re-check. Check the fill weekly: leak is not modeled."
    )


def fill_words(best: BuildOutlook) -> tuple[str, ...]:
    """How to fill the cells of a build; nothing where it has none."""
    said = tuple(_fill(fill) for fill in best.fills)
    return (*said, AFTER_FILLING) if said else ()


def _fill(fill: FillOutlook) -> str:
    """One bladder: what to do, and what it should come to."""
    told = (
        f"Air: with the helmet on, fill {listed_zones(fill.zones)} until the fitter feels"
        f" {'it' if len(fill.zones) == 1 else 'them'} snug. Expect"
        f" {_thicknesses(fill)}, and some {gauge_words(fill.gauge_kpa)} in the cells"
    )
    if fill.strokes is not None:
        low, high = fill.strokes.low, fill.strokes.high
        told += f", after about {low:.0f} to {high:.0f} strokes of the pump"
    told += ", for 9 of 10 heads."
    if fill.full >= LEAST_AT_A_LIMIT:
        told += f" In {of_hundred(fill.full)} heads one is full and still does not reach."
    if fill.flat >= LEAST_AT_A_LIMIT:
        told += f" In {of_hundred(fill.flat)} one is flat and there is nothing to let out."
    return told


def listed_zones(zones: Sequence[Zone]) -> str:
    """Zones in words: "rear, left and right"."""
    names = [str(zone) for zone in zones]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _thicknesses(fill: FillOutlook) -> str:
    """What each pad should come to, as intervals."""
    said = [
        f"{zone} {inches(pad.low)} to {inches(pad.high)}"
        for zone, pad in zip(fill.zones, fill.pad_mm, strict=True)
    ]
    return ", ".join(said)


def gauge_words(gauge: Spread) -> str:
    """A gauge pressure and its interval: "0.4 psi, 2.9 kPa (1.6 to 5.0)"."""
    return (
        f"{gauge.mean * PSI_PER_KPA:.1f} psi, {gauge.mean:.1f} kPa"
        f" ({gauge.low:.1f} to {gauge.high:.1f})"
    )


def cell_remedy(
    kind: FaultKind, zones: Sequence[Zone], cell: AirCell, full_mm: float, elsewhere: str
) -> str:
    """What to try where a cell's zone is found wrong: air first, then what a foam pad would need.

    `zones` are those that share its air; `elsewhere` says what is left at the end of its reach.
    """
    into = kind in (FaultKind.LOOSE, FaultKind.GAP)
    one = len(zones) == 1
    cells = f"the {zones[0]} cell" if one else f"the linked {listed_zones(zones)} cells"
    limit = inches(full_mm if into else full_mm - cell.reach_mm)
    end = f"{'it is' if one else 'they are'} {'full' if into else 'flat'}, {limit}, and still so"
    return f"let air {'into' if into else 'out of'} {cells}; where {end}, {elsewhere}"


def linked_zones(sheet: ModelSheet, cell: AirCell) -> tuple[Zone, ...]:
    """The zones whose cells share their air with this one, its own included."""
    return tuple(pad.zone for pad in sheet.pads if pad.cell and pad.cell.bladder == cell.bladder)
