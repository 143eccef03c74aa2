"""Places and sizes of a stock list, as people write them and as the model sheet has them."""

import re
from collections.abc import Mapping

from helmwright.catalogue.cell import AIR
from helmwright.catalogue.sheet import ModelSheet, PadKind
from helmwright.catalogue.zone import Zone
from helmwright.roster.build_now import PLACES
from helmwright.roster.cell import DATE, CellError, is_blank
from helmwright.roster.spreadsheet import formula_fault, looks_like_day_number
from helmwright.units import SpreadsheetDateError, UnitsError, parse_length

SHELL = "shell"
"""The place of the shells themselves; their size is their number."""

PAD_PLACES: Mapping[str, tuple[Zone, ...]] = {
    place: zones for place, zones in PLACES.items() if place != "jaws"
}
"""Where pads go: each zone by itself, and the two pools that serve both sides."""

_WORDS: Mapping[str, str] = {
    **{place: place for place in (SHELL, *PAD_PLACES)},
    **dict.fromkeys(("shells", "helmet", "helmets"), SHELL),
    **dict.fromkeys(("jaws", "jaw, either side", "jaw either side"), "jaw"),
    **dict.fromkeys(("side", "left or right", "left and right"), "sides"),
    **dict.fromkeys(("top",), "crown"),
    **dict.fromkeys(("back",), "rear"),
    **dict.fromkeys(("neck",), "nape"),
    **dict.fromkeys(("left side", "side left"), "left"),
    **dict.fromkeys(("right side", "side right"), "right"),
    **dict.fromkeys(("left jaw", "jaw l"), "jaw left"),
    **dict.fromkeys(("right jaw", "jaw r"), "jaw right"),
}
_PAD_BEHIND = re.compile(r"\s+pads?$")
_SHELL_NUMBER = re.compile(r"(?:shell\s*)?#?\s*(\d+)(?:\.0)?", re.IGNORECASE)
_SAME_MM = 0.8
"""Half of the 1/16 in to which pads are named."""


def read_place(cell: str) -> str:
    """The place that a cell names: "shell", or a key of `PAD_PLACES`.

    Raises
    ------
    CellError
        For a word that is none.

    """
    written = " ".join(cell.lower().replace("_", " ").split())
    place = _WORDS.get(written) or _WORDS.get(_PAD_BEHIND.sub("", written))
    if place is None:
        known = ", ".join((SHELL, *PAD_PLACES))
        raise CellError("this is no place in the helmet", f"the places are {known}")
    return place


def read_size(cell: str, place: str, sheet: ModelSheet, unit: str) -> str:
    """The shell's number, or the thickness as written on the bag.

    Parameters
    ----------
    cell
        As written: "4", "7/8 in", "0.875"; a bare number takes `unit`.
    place
        As `read_place` gives it.
    sheet
        The model.
    unit
        Unit of a bare number.

    Raises
    ------
    CellError
        For a size that the sheet does not have there; the message lists those that it has.

    """
    if place == SHELL:
        return read_shell(cell, sheet)
    kinds = [sheet.pad(zone) for zone in PAD_PLACES[place]]
    shared = _shared(kinds)
    if not any(kind.seats for kind in kinds):
        raise CellError(f"{sheet.model} has no {place} pad", "take the row out")
    for label in shared:
        if _plain(label) == _plain(cell):
            return label
    if all(kind.cell is not None for kind in kinds):
        raise CellError(f"the {place} pad is an air cell, filled and not swapped", "write air")
    if is_blank(cell):
        raise CellError("no size", f"there are {', '.join(shared)}")
    thickness = _thickness(cell, unit)
    near = {abs(mm - thickness): label for label, mm in shared.items() if label != AIR}
    if not near or min(near) > _SAME_MM:
        raise CellError(
            f"{sheet.model} has no {place} pad of that size", f"there are {', '.join(shared)}"
        )
    return near[min(near)]


def read_shell(cell: str, sheet: ModelSheet) -> str:
    """The number of the shell that a cell names by its number or its name.

    Raises
    ------
    CellError
        For one that the sheet does not have.
    """
    numbers = {str(shell.number) for shell in sheet.shells}
    names = {_plain(shell.name): str(shell.number) for shell in sheet.shells if shell.name}
    match = _SHELL_NUMBER.fullmatch(cell.strip())
    number = match[1] if match else names.get(_plain(cell), "")
    if number not in numbers:
        known = ", ".join(str(shell.number) for shell in sheet.shells)
        raise CellError(f"{sheet.model} has no such shell", f"it has {known}")
    return number


def _shared(kinds: list[PadKind]) -> dict[str, float]:
    """Labels and thicknesses [mm] that every one of the zones can take."""
    first, *others = kinds
    named = zip(first.labels, first.thicknesses_mm, strict=True)
    return {label: mm for label, mm in named if all(label in kind.labels for kind in others)}


def _thickness(cell: str, unit: str) -> float:
    fault = formula_fault(cell)
    if fault:
        raise CellError(fault, "type the size itself")
    if looks_like_day_number(cell):
        raise CellError("a spreadsheet has made a date of this, and a day number of the date", DATE)
    try:
        return parse_length(cell, unit=unit)
    except SpreadsheetDateError as error:
        right = "write the unit behind the fraction, 7/8 in, or a decimal, 0.875"
        raise CellError("a spreadsheet has made a date of this", right) from error
    except UnitsError as error:
        raise CellError.of(error, cell) from error


def _plain(text: str) -> str:
    """A label without the differences that do not count."""
    return "".join(text.lower().replace('"', "in").split())
