"""The foams that a sheet defines for itself."""

import math
import re

from helmwright.catalogue.foam import Foam
from helmwright.catalogue.foams import BUILT_IN_FOAMS, CUSHION
from helmwright.catalogue.reading.table import Table
from helmwright.sources import Source, Standing

_STANDINGS = tuple(word.value for word in Standing if word is not Standing.COMPUTED)
"""What a sheet's writer may claim; what this project computed is not among it."""


def read_foams(tables: list[Table]) -> dict[str, Foam]:
    """Built-in foams and the sheet's own, by name."""
    foams = dict(BUILT_IN_FOAMS)
    for table in tables:
        # A faulty foam keeps its name, so that the pads that use it are not blamed as well.
        foam = _foam(table, foams) or CUSHION
        foams.setdefault(str(table.data.get("name", foam.key)), foam)
    return foams


def _foam(table: Table, known: dict[str, Foam]) -> Foam | None:
    """One foam; None where it cannot be read."""
    name = _name(table, known)
    strain = table.numbers("strain", 0.0, 0.99, "strains from 0 upward, such as [0, 0.1, 0.5]")
    stress = table.numbers("stress_kpa", 0.0, 5000.0, "stresses in kPa, such as [0, 2.1, 3.4]")
    beyond = table.number("beyond_kpa", 0.1, 1e6, "kPa for each unit of strain")
    scatter = table.number("scatter", 0.0, 0.6, "")
    source = table.text("source", "who measured it, when and how, or where it is printed")
    standing = table.text("standing", "how far the source carries", choices=_STANDINGS)
    if table.sound:
        _check_curve(table, strain, stress)
    if not table.close():
        return None
    record = Source(f"sheet_foam_{name}", source, Standing(standing))
    return Foam(name, strain, stress, beyond, record, scatter)


def _name(table: Table, known: dict[str, Foam]) -> str:
    """A name that no other foam has."""
    name = table.text("name", 'one word for the foam, such as "soft_blue"')
    table.title = f'foam "{name}"' if name else table.title
    if name and not re.fullmatch(r"[A-Za-z][A-Za-z0-9_]*", name):
        table.fault("name", f'"{name}" is not one word', "Use letters, digits and _ only")
    if name in known:
        table.fault("name", f'there is already a foam "{name}"', "Give this one another name")
    return name


def _check_curve(table: Table, strain: tuple[float, ...], stress: tuple[float, ...]) -> None:
    """Note a curve that is no curve, or that falls."""
    if len(strain) != len(stress) or len(strain) < 2:
        wrong = f"{len(strain)} strains stand against {len(stress)} stresses"
        table.fault("stress_kpa", wrong, "Write one stress for each strain, at least two")
        return
    if strain[0] != 0 or stress[0] != 0:
        wrong = f"the curve starts at strain {strain[0]:g}, {stress[0]:g} kPa"
        table.fault("strain", wrong, "Start both lists with 0: an unpressed foam does not push")
    for key, values in (("strain", strain), ("stress_kpa", stress)):
        place = first_fall(values)
        if place is not None:
            wrong = f"{values[place]:g} comes after {values[place - 1]:g}"
            table.fault(key, wrong, "Each number must be larger than the one before", item=place)


def first_fall(values: tuple[float, ...]) -> int | None:
    """Place of the first value that is not above the one before; None where all rise."""
    before = -math.inf
    for place, value in enumerate(values):
        if value <= before:
            return place
        before = value
    return None
