"""Builds of a visit in words: what to change, what stays, how a change is made."""

from collections.abc import Sequence

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import Build
from helmwright.reports.layout import bullets, wrapped
from helmwright.reports.lengths import fraction, thickness

PLACE_WIDTH = 9


def pad_words(zone: Zone, index: int, sheet: ModelSheet) -> str:
    """A pad's thickness as on the bag: "7/8"; "air" for a cell."""
    kind = sheet.pad(zone)
    return thickness(kind.thicknesses_mm[index], kind.labels[index])


def padded(sheet: ModelSheet) -> tuple[Zone, ...]:
    """The zones that the helmet pads."""
    return tuple(zone for zone in ZONES if sheet.pad(zone).seats)


def parts_words(build: Build, sheet: ModelSheet, zones: Sequence[Zone] | None = None) -> str:
    """The pads of some zones, or of all: "crown 7/8, front 3/4"."""
    pads = dict(zip(ZONES, build.pads, strict=True))
    wanted = padded(sheet) if zones is None else zones
    return ", ".join(f"{zone} {pad_words(zone, pads[zone], sheet)}" for zone in wanted)


def shell_words(number: int, sheet: ModelSheet) -> str:
    """A shell with the chart's band: "shell 3 (22 to 22 3/4 in)"."""
    shell = sheet.shell(number)
    plain = f"shell {number}"
    named = f' "{shell.name}"' if shell.name and shell.name != plain else ""
    low, high = (fraction(each, denominator=16) for each in _band(number, sheet))
    return f"{plain}{named} ({low} to {high} in)"


def _band(number: int, sheet: ModelSheet) -> tuple[float, float]:
    shell = sheet.shell(number)
    return shell.chart_low_mm, shell.chart_high_mm


def changed_zones(build: Build, before: Build, sheet: ModelSheet) -> tuple[Zone, ...]:
    """Zones whose pad is to be changed; in another shell, from what that one arrives with."""
    base = before if build.shell == before.shell else Build(build.shell, sheet.delivered)
    return tuple(zone for zone in build.changes_from(base) if sheet.pad(zone).seats)


def change_words(build: Build, before: Build, sheet: ModelSheet) -> tuple[str, ...]:
    """One line for each part that changes: "jaw left  7/8 to 1"."""
    base = before.pads if build.shell == before.shell else sheet.delivered
    old, new = dict(zip(ZONES, base, strict=True)), dict(zip(ZONES, build.pads, strict=True))
    return tuple(
        f"{zone:<{PLACE_WIDTH}}  {pad_words(zone, old[zone], sheet)}"
        f" to {pad_words(zone, new[zone], sheet)}{_part_number(zone, new[zone], sheet)}"
        for zone in changed_zones(build, before, sheet)
    )


def _part_number(zone: Zone, index: int, sheet: ModelSheet) -> str:
    """By what a pad is found or ordered, where the sheet says so."""
    numbers = sheet.pad(zone).part_numbers
    return f" (part {numbers[index]})" if numbers else ""


def make_up_lines(build: Build, before: Build, sheet: ModelSheet, width: int) -> list[str]:
    """What to take and change, and what stays as it is."""
    changed = changed_zones(build, before, sheet)
    is_other = build.shell != before.shell
    lines = wrapped(f"{shell_words(build.shell, sheet).capitalize()}.", width)
    if is_other:
        arrives = "Take it as delivered" + (", then:" if changed else ".")
        lines = wrapped(f"Take {shell_words(build.shell, sheet)}. {arrives}", width)
    if changed:
        count = f"Change {len(changed)} pad{'' if len(changed) == 1 else 's'}, in inches:"
        lines += [count, *(f"  {each}" for each in change_words(build, before, sheet))]
    stays = [zone for zone in padded(sheet) if zone not in changed]
    if stays:
        lead = "Leave" if changed else "Nothing to change. In it"
        lines += wrapped(f"{lead}: {parts_words(build, sheet, stays)}.", width, hanging="  ")
    return lines


def numbered(steps: Sequence[str], width: int) -> list[str]:
    """Steps with their numbers; a single one without."""
    if len(steps) == 1:
        return wrapped(steps[0], width, indent="  ", hanging="  ")
    return [
        line
        for place, step in enumerate(steps, start=1)
        for line in wrapped(step, width, indent=f"  {place}. ", hanging="     ")
    ]


def listed(items: Sequence[str], width: int) -> list[str]:
    """Items behind dashes."""
    return bullets(items, width)
