"""What is in a helmet now, as a person says it: "shell 4, crown 7/8, jaw left 1 1/8"."""

import re
from collections.abc import Mapping

import numpy as np

from helmwright.anatomy import HeadEstimate
from helmwright.catalogue.cell import AIR
from helmwright.catalogue.pools import POOLS
from helmwright.catalogue.sheet import ModelSheet, PadKind
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.chart import shells_to_try
from helmwright.fit.outlook import Build
from helmwright.roster.cell import CellError
from helmwright.units import UnitsError, inches, parse_length

PLACES: Mapping[str, tuple[Zone, ...]] = {
    **{str(zone): (zone,) for zone in ZONES},
    **POOLS,
    "jaws": POOLS["jaw"],
}
EXAMPLE = "write it like: shell 4, crown 7/8, jaw left 1 1/8"

_SHELL = re.compile(r"shell\s*[:=]?\s*(\d+)", re.IGNORECASE)
_PAD = re.compile(
    r"(?P<place>[a-z][a-z ]*?)\s*[:=]?\s*(?P<pad>[\d.½¼¾⅛⅜⅝⅞].*|\bair)", re.IGNORECASE
)
_SAME_MM = 0.8
"""Half of the 1/16 in to which pads are named."""


def build_now(text: str, sheet: ModelSheet, head: HeadEstimate) -> Build | None:
    """The build that the words describe; zones not named are as delivered.

    Parameters
    ----------
    text
        Places and thicknesses, parted by commas or semicolons; empty where nobody said.
    sheet
        The model.
    head
        Gives the shell where the words do not: the likeliest by the chart.

    Raises
    ------
    CellError
        For a place, a shell or a thickness that the sheet does not have.

    """
    if not text:
        return None
    shell, pads = _said(text, sheet, sheet.delivered)
    return Build(shell or _likeliest(sheet, head), pads)


def stated_pads(text: str, sheet: ModelSheet) -> tuple[int | None, dict[str, str]]:
    """The shell, where one is named, and the label of each pad that is not as delivered.

    Parameters
    ----------
    text
        Places and thicknesses, parted by commas or semicolons; empty where nobody said.
    sheet
        The model.

    Raises
    ------
    CellError
        For a place, a shell or a thickness that the sheet does not have.

    """
    shell, pads = _said(text, sheet, sheet.delivered)
    return shell, {
        str(zone): sheet.pad(zone).labels[index]
        for zone, index, delivered in zip(ZONES, pads, sheet.delivered, strict=True)
        if index != delivered
    }


def changed_build(build: Build, text: str, sheet: ModelSheet) -> Build:
    """A build with what the words name changed: "front 1, jaw left 7/8".

    Parameters
    ----------
    build
        Gives the shell and every zone that is not named.
    text
        Places and thicknesses, parted by commas or semicolons.
    sheet
        The model.

    Raises
    ------
    CellError
        For a place, a shell or a thickness that the sheet does not have, and where nothing is
        named.

    """
    if not text.strip(" ,;"):
        raise CellError("nothing is named", EXAMPLE)
    shell, pads = _said(text, sheet, build.pads)
    return Build(shell or build.shell, pads)


def _said(
    text: str, sheet: ModelSheet, base: tuple[int, ...]
) -> tuple[int | None, tuple[int, ...]]:
    """The shell, where one is named, and the pads: those of the base where none is named."""
    shell: int | None = None
    pads = dict(zip(ZONES, base, strict=True))
    for part in filter(None, (part.strip() for part in re.split("[,;]", text))):
        numbered = _SHELL.fullmatch(part)
        if numbered:
            shell = _listed(int(numbered[1]), sheet)
        else:
            pads |= _placed(part, sheet)
    _refuse_uneven(pads, sheet)
    return shell, tuple(pads[zone] for zone in ZONES)


def _listed(number: int, sheet: ModelSheet) -> int:
    numbers = [shell.number for shell in sheet.shells]
    if number not in numbers:
        known = ", ".join(str(each) for each in numbers)
        raise CellError(f"{sheet.model} has no shell {number}", f"it has {known}")
    return number


def _placed(part: str, sheet: ModelSheet) -> dict[Zone, int]:
    """Zones of one part of the text, with the index of their pad."""
    match = _PAD.fullmatch(part)
    if match is None:
        raise CellError(f"{part!r} is no place with a thickness", EXAMPLE)
    zones = PLACES.get(" ".join(match["place"].lower().split()))
    if zones is None:
        known = ", ".join(PLACES)
        raise CellError(f"{match['place']!r} is no place in the shell", f"the places are {known}")
    return {zone: _index(match["pad"], sheet.pad(zone)) for zone in zones}


def _index(written: str, kind: PadKind) -> int:
    """Which pad of the zone is that thick; an air cell is filled, whatever was said."""
    if kind.cell is not None:
        return 0
    if written.lower() == AIR:
        raise CellError(f"the {kind.zone} pad is no air cell", EXAMPLE)
    try:
        thickness = parse_length(written, unit="in")
    except UnitsError as error:
        raise CellError(str(error).rstrip("."), EXAMPLE) from error
    apart = [abs(each - thickness) for each in kind.thicknesses_mm]
    if min(apart) > _SAME_MM:
        known = ", ".join(inches(each, denominator=16) for each in kind.thicknesses_mm)
        thick = inches(thickness, denominator=16, mark=" in")
        raise CellError(f"there is no {kind.zone} pad of {thick}", f"there are {known} in")
    return apart.index(min(apart))


def _refuse_uneven(pads: Mapping[Zone, int], sheet: ModelSheet) -> None:
    for left, right in sheet.matched:
        if pads[left] != pads[right]:
            raise CellError(
                f"{sheet.model} has the same thickness in {left} and {right}",
                "name both, or look at the helmet again",
            )


def _likeliest(sheet: ModelSheet, head: HeadEstimate) -> int:
    return shells_to_try(sheet, np.array([head.mean_of("tape_circumference")]))[0]
