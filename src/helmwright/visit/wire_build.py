"""Builds as a person reads them: the shell's number, and each zone's pad as on its bag."""

from typing import Any

from helmwright.catalogue.sheet import ModelSheet, PadKind
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import Build
from helmwright.visit.wire_fault import WireError
from helmwright.visit.wire_form import BuildForm, PadForm

SAME_MM = 0.05
"""Two thicknesses that differ by less are one, written with fewer digits [mm]."""


def build_to_wire(build: Build, sheet: ModelSheet) -> dict[str, Any]:
    """The build with every zone's pad by its label.

    Raises
    ------
    WireError
        Where the sheet has no such shell or pad.
    """
    _refuse_shell(build.shell, sheet, "build")
    if len(build.pads) != len(ZONES):
        raise WireError(f"{len(build.pads)} pads", "build", f"a build has {len(ZONES)}")
    pads = zip(sheet.pads, build.pads, strict=True)
    return {
        "shell": build.shell,
        "pads": {str(kind.zone): _named(kind, index) for kind, index in pads},
    }


def _named(kind: PadKind, index: int) -> dict[str, Any]:
    if not 0 <= index < len(kind.labels):
        raise WireError(
            f"there is no {kind.zone} pad of index {index}",
            "build",
            f"indices go from 0 to {len(kind.labels) - 1}",
        )
    return {"pad": kind.labels[index], "mm": round(kind.thicknesses_mm[index], 3)}


def build_form(build: Build, sheet: ModelSheet) -> BuildForm:
    """The build in its form, to be written within a larger one; raises as `build_to_wire`."""
    return BuildForm.model_validate(build_to_wire(build, sheet))


def build_from_form(form: BuildForm, sheet: ModelSheet, where: str) -> Build:
    """The build that a form names.

    Raises
    ------
    WireError
        For a shell or a pad that the sheet does not have, or whose thickness is another there.
    """
    _refuse_shell(form.shell, sheet, f"{where}, shell")
    pads = tuple(_index(form.pads.of(zone), zone, sheet, f"{where}, pads") for zone in ZONES)
    return Build(form.shell, pads)


def _refuse_shell(number: int, sheet: ModelSheet, where: str) -> None:
    numbers = [shell.number for shell in sheet.shells]
    if number not in numbers:
        known = ", ".join(map(str, numbers))
        raise WireError(f"{sheet.model} has no shell {number}", where, f"it has {known}")


def _index(form: PadForm, zone: Zone, sheet: ModelSheet, where: str) -> int:
    kind, place = sheet.pad(zone), f"{where}, {zone}"
    if form.pad not in kind.labels:
        known = ", ".join(kind.labels)
        raise WireError(f'there is no {zone} pad "{form.pad}"', place, f"there are {known}")
    index = kind.labels.index(form.pad)
    listed = kind.thicknesses_mm[index]
    if form.mm is not None and abs(form.mm - listed) > SAME_MM:
        wrong = f'the {zone} pad "{form.pad}" is not {form.mm:g} mm'
        raise WireError(wrong, place, f"on the sheet it is {listed:.2f} mm")
    return index
