"""The page of names: measures, zones, faults, and the words of the trade."""

import tomllib
from pathlib import Path

from docs.generator.markdown import document, table
from helmwright.anatomy.measures import MEASURES, Measure
from helmwright.catalogue.zone import ZONES
from helmwright.fit.outlook import FaultKind
from helmwright.units import MM_PER_INCH

INTRODUCTION = """\
Inside the program lengths are in millimeters, forces in newtons, pressures in kilopascals, masses
in kilograms, angles in degrees; a stored number carries its unit at the end of its name
(`head_length_mm`). Inches and pounds are for people: files, the command line, what is printed.
The head's frame has its origin midway between the tragions, the notches in front of the ear
openings; x is forward, y to the wearer's left, z up, and the Frankfurt plane is level."""


def page(words_file: Path) -> str:
    """All the names on one page."""
    words = read_words(words_file)
    return document(
        "Nomenclature",
        INTRODUCTION,
        "## Measures",
        *map(_measure, MEASURES),
        "## Zones\n\n"
        + table(("zone", "in a mirror"), ((z.value, z.mirrored.value) for z in ZONES)),
        "## Faults\n\n" + "\n".join(f"- {fault.value}" for fault in FaultKind),
        "## Words\n\n" + table(("word", "meaning"), words.items()),
    )


def _measure(measure: Measure) -> str:
    low, high = measure.low_mm, measure.high_mm
    error, bias = measure.reading_error, measure.bias
    facts = (
        f"`{measure.key}`, from {low:g} to {high:g} mm "
        f"({low / MM_PER_INCH:.1f} to {high / MM_PER_INCH:.1f} in). "
        f"A reading is off by {error.value:g} mm (SD; {error.source.key}), and one measurer's "
        f"readings all by {bias.value:g} mm (SD; {bias.source.key}). "
        f"Definition and range: {', '.join(measure.sources)}."
    )
    return f"### {measure.name}\n\n{measure.definition}\n\nHow: {measure.how}\n\n{facts}"


def read_words(path: Path) -> dict[str, str]:
    """The hand-written words and their meanings, in the file's order."""
    words: dict[str, str] = tomllib.loads(path.read_text(encoding="utf-8"))["words"]
    return words
