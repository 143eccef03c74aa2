"""What was left standing of the invented row of an empty roster, under somebody's name."""

from collections.abc import Iterator

from helmwright.roster.columns import Field
from helmwright.roster.demonstration import TEMPLATE
from helmwright.roster.remark import Remark
from helmwright.roster.table import Table

MANY = 3
"""Cells of the example from which on they are no chance (assumed)."""


def example_notices(table: Table) -> tuple[Remark, ...]:
    """A notice where the first row keeps measures of the example, but not its name."""
    return tuple(_notices(table))


def _notices(table: Table) -> Iterator[Remark]:
    row, cells = table.rows[0]
    pairs = list(zip(table.columns, cells, strict=False))
    named = [cell for column, cell in pairs if column.field is Field.NAME]
    kept = [
        (column.heading, cell)
        for column, cell in pairs
        if column.is_measure and cell and TEMPLATE.get(column.heading) == cell
    ]
    if len(kept) >= MANY and TEMPLATE["Player"] not in named:
        yield Remark(
            row,
            " and ".join(heading for heading, _ in kept),
            " and ".join(cell for _, cell in kept),
            "the same as in the example of the empty roster",
            "clear what was not measured on this head",
            named[0] if named else "",
        )
