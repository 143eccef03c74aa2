"""The maker's own ways to change parts."""

from helmwright.catalogue.changing import ChangeInstruction, PartKind
from helmwright.catalogue.reading.table import Table

_STEPS = 'a list of steps, each in quotation marks, such as ["Peel it off.", "Press it on."]'


def read_changing(tables: list[Table]) -> tuple[ChangeInstruction, ...]:
    """One entry for each kind of part that the sheet speaks of, with faults noted."""
    found: dict[PartKind, ChangeInstruction] = {}
    for table in tables:
        word = table.text("part", "the kind of part", choices=list(PartKind))
        steps = table.texts("steps", _STEPS)
        table.title = f'changing "{word}"' if word else table.title
        if word in found:
            wrong = f"another section tells how to change a {word}"
            table.fault("part", wrong, "Put all steps for it under one [[changing]]")
        if table.close():
            found[PartKind(word)] = ChangeInstruction(PartKind(word), steps)
    return tuple(found.values())
