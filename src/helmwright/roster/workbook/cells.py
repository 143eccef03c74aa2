"""The value of a cell as text, the way the sheet would be saved as CSV."""

import datetime as dt
from collections.abc import Mapping, Sequence

from helmwright.roster.workbook.marks import Place
from helmwright.roster.workbook.number_format import plain

Value = int | float | str | bool | dt.time | dt.date | dt.datetime | dt.timedelta


def cell_text(value: Value) -> str:
    """One cell as text; a date comes year first, so that nobody has to ask which is the month."""
    if isinstance(value, bool):
        return str(value).upper()
    if isinstance(value, (int, float)):
        return plain(value)
    if isinstance(value, dt.datetime) and value.time() == dt.time.min:
        return value.date().isoformat()
    return str(value)


def text_rows(rows: Sequence[Sequence[Value]], texts: Mapping[Place, str]) -> list[list[str]]:
    """All the cells as text, every row as wide as the widest; what is marked goes first."""
    height = max([len(rows), *(row for row, _ in texts)])
    width = max([0, *map(len, rows), *(column for _, column in texts)])
    told = [[cell_text(value) for value in values] for values in rows]
    grid = [[*cells, *[""] * (width - len(cells))] for cells in told]
    grid += [[""] * width for _ in range(height - len(grid))]
    for (row, column), text in texts.items():
        grid[row - 1][column - 1] = text
    return grid
