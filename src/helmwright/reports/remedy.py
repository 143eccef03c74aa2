"""What to try when a check on the head finds a fault, from what the model says of that build."""

from collections.abc import Sequence

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import BuildOutlook, Fault, FaultKind, ZoneOutlook
from helmwright.reports.air import cell_remedy, linked_zones
from helmwright.reports.chances import fault_words, of_hundred
from helmwright.reports.lengths import thickness

THICKER = frozenset((FaultKind.LOOSE, FaultKind.GAP, FaultKind.BROW_LOW))
"""Faults that a thicker pad cures; the others want a thinner one."""

SIDES = (Zone.LEFT, Zone.RIGHT)
TELLING = 0.1
"""Chance of a tight side from which on it may be what holds the brow up (assumed)."""


MOSTLY = 0.5
"""Share of the possible heads past which a pad is said to be loose or tight [1]."""


def most_find(place: ZoneOutlook) -> str:
    """Loose or tight where most of the possible heads find it so, else nothing.

    The mean pressure does not decide: a few heads that press very hard raise it out of the band
    where more find the pad loose than tight.
    """
    if place.tight > MOSTLY:
        return "tight"
    return "loose" if place.loose > MOSTLY else ""


def checks(
    faults: Sequence[Fault], outlook: BuildOutlook, sheet: ModelSheet
) -> tuple[tuple[Fault, str], ...]:
    """Faults with what to try; what was said of one before is not said again."""
    said: dict[str, Fault] = {}
    told = []
    for fault in faults:
        words = remedy(fault, outlook, sheet)
        first = said.setdefault(words, fault)
        told.append((fault, words if first is fault else f"as for {fault_words(first)}"))
    return tuple(told)


def remedy(fault: Fault, outlook: BuildOutlook, sheet: ModelSheet) -> str:
    """What to try, in words; where a zone has no such pad left, another shell.

    Notes
    -----
    The pressure on the crown is decided by weight and strap and by what the sides carry, not by
    the crown pad, which sets the height. A helmet held up by tight sides sits high whatever the
    crown pad.

    No thicker pad is named where most heads find the zone tight, and no thinner one where most
    find it loose.
    """
    if fault.zone is Zone.CROWN:
        return _crown(fault, outlook)
    if against := _against_most(fault, outlook):
        return against
    if fault.kind is FaultKind.BROW_HIGH and _tight_sides(outlook) >= TELLING:
        thinner = _next_pad(fault, Zone.CROWN, outlook, sheet)
        share = of_hundred(_tight_sides(outlook))
        return f"feel the sides first (tight in {share}), for tight ones hold it up; else {thinner}"
    return _next_pad(fault, fault.zone or Zone.CROWN, outlook, sheet)


def _against_most(fault: Fault, outlook: BuildOutlook) -> str:
    """What to do where the usual pad would make worse what most heads find; else nothing."""
    place = next(p for p in outlook.zones if p.zone is (fault.zone or Zone.CROWN))
    found = most_find(place)
    if found != ("tight" if fault.kind in THICKER else "loose"):
        return ""
    share = of_hundred(place.tight if found == "tight" else place.loose)
    if fault.zone is not None:
        return f"most heads find it {found} ({share}); feel again before any pad is changed"
    if found == "tight":
        return (
            f"the crown carries the weight (tight in {share}); look at the sides"
            f" (loose in {of_hundred(_loose_sides(outlook))}), for loose ones let it sink"
        )
    return (
        f"the crown does not hold it up (loose in {share}); look at the sides"
        f" (tight in {of_hundred(_tight_sides(outlook))}) and jaw pads"
    )


def _crown(fault: Fault, outlook: BuildOutlook) -> str:
    """The crown carries what the sides do not; its own pad only moves the brow."""
    if fault.kind in THICKER:
        share = of_hundred(_tight_sides(outlook))
        return (
            "something else holds the helmet up; look at the sides"
            f" (tight in {share}), jaw pads and brow. The crown pad only sets the height"
        )
    share = of_hundred(_loose_sides(outlook))
    return (
        "the crown carries the weight, and another crown pad only moves the brow; look at the"
        f" sides (loose in {share}), the strap's pull and the brow"
    )


def _tight_sides(outlook: BuildOutlook) -> float:
    return max(place.tight for place in outlook.zones if place.zone in SIDES)


def _loose_sides(outlook: BuildOutlook) -> float:
    return max(place.loose for place in outlook.zones if place.zone in SIDES)


def _next_pad(fault: Fault, zone: Zone, outlook: BuildOutlook, sheet: ModelSheet) -> str:
    """The next pad of the zone, or the next shell."""
    pad, now = sheet.pad(zone), outlook.build.pads[ZONES.index(zone)]
    if pad.cell is not None:
        number = _next_shell(fault, outlook, sheet)
        elsewhere = "try another model" if number is None else f"try shell {number}"
        zones = linked_zones(sheet, pad.cell)
        return cell_remedy(fault.kind, zones, pad.cell, pad.thicknesses_mm[now], elsewhere)
    then = now + (1 if fault.kind in THICKER else -1)
    if not 0 <= then < len(pad.thicknesses_mm):
        return _other_shell(fault, zone, outlook, sheet)
    before, after = (thickness(pad.thicknesses_mm[at], pad.labels[at]) for at in (now, then))
    both = any(zone in pair for pair in sheet.matched)
    alike = f", and the same in {zone.mirrored}" if both else ""
    return f"try the {after} in {zone} pad instead of {before} in{alike}"


def _other_shell(fault: Fault, zone: Zone, outlook: BuildOutlook, sheet: ModelSheet) -> str:
    """What is left where the zone has no such pad."""
    word = "thicker" if fault.kind in THICKER else "thinner"
    number = _next_shell(fault, outlook, sheet)
    if number is not None:
        return f"there is no {word} {zone} pad; try shell {number}"
    size = "smaller" if fault.kind in THICKER else "larger"
    return f"there is no {word} {zone} pad and no {size} shell; try another model"


def _next_shell(fault: Fault, outlook: BuildOutlook, sheet: ModelSheet) -> int | None:
    """A smaller shell for what is loose or sits low, a larger one for the rest."""
    numbers = [shell.number for shell in sheet.shells]
    place = numbers.index(outlook.build.shell) + (-1 if fault.kind in THICKER else 1)
    return numbers[place] if 0 <= place < len(numbers) else None
