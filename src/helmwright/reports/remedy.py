"""What to try when a check on the head finds a fault: the next pad of the same zone."""

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import Build, Fault, FaultKind
from helmwright.reports.lengths import thickness

THICKER = frozenset((FaultKind.LOOSE, FaultKind.GAP, FaultKind.BROW_LOW))
"""Faults that a thicker pad cures; the others want a thinner one. The crown pad sets the brow."""


def remedy(fault: Fault, build: Build, sheet: ModelSheet) -> str:
    """The pad to try, in words; where the zone has none left, another shell."""
    zone = fault.zone or Zone.CROWN
    pad, now = sheet.pad(zone), build.pads[ZONES.index(zone)]
    then = now + (1 if fault.kind in THICKER else -1)
    if not 0 <= then < len(pad.thicknesses_mm):
        word = "thicker" if fault.kind in THICKER else "thinner"
        return f"there is no {word} {zone} pad; try the next shell"
    before, after = (thickness(pad.thicknesses_mm[at], pad.labels[at]) for at in (now, then))
    return f"try the {after} in {zone} pad instead of {before} in"
