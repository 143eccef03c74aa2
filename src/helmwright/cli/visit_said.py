"""Players and readings as a program sends them, read by the rules of a roster's row."""

from collections.abc import Callable
from datetime import date

from helmwright.anatomy import Over, Reading
from helmwright.roster import (
    ANSWER_MARK,
    Column,
    Field,
    Player,
    Remark,
    RowRead,
    read_heading,
    read_row,
)
from helmwright.visit.lines_in import Said
from helmwright.visit.wire_fault import WireError

_BESIDE = (Field.TAPE_OVER, Field.MEASURED_BY)
"""What may be said beside readings that are taken in the middle of a visit."""


def said_player(
    said: Said,
    *,
    units: str,
    male_share: float,
    ages: tuple[float, float] | None,
    today: date | None,
) -> RowRead:
    """The player whom a message names.

    Parameters
    ----------
    said
        Cells under a roster's headings.
    units
        Unit of bare numbers.
    male_share, ages, today
        As for a row of a roster.

    Raises
    ------
    WireError
        For a heading that is not known, or a cell that cannot be read.
    """
    columns, cells = _row(said, "player", lambda _: True)
    read = read_row(
        columns, cells, row=0, unit=units, male_share=male_share, ages=ages, today=today
    )
    _player(read, "player")
    return read


def said_readings(said: Said, worn: tuple[Over, ...] | None) -> tuple[Reading, ...]:
    """Readings that were taken in the visit, over what is worn where nothing else is said.

    Raises
    ------
    WireError
        For what is no reading, or none at all.
    """
    columns, cells = _row(said, "readings", lambda c: c.is_measure or c.field in _BESIDE)
    if worn:
        columns.append(Column("worn", Field.WORN))
        cells.append(" and ".join(map(str, worn)))
    readings = _player(read_row(columns, cells, row=0), "readings").readings
    if not readings:
        raise WireError("no reading", "readings", 'send one, such as {"length": "7 7/8"}')
    return readings


def _row(
    said: Said, where: str, is_wanted: Callable[[Column], bool]
) -> tuple[list[Column], list[str]]:
    """Columns and cells, a repeat in a column of its own."""
    columns: list[Column] = []
    cells: list[str] = []
    for heading, value in said.items():
        column = read_heading(heading)
        if column.field is None or heading.startswith(ANSWER_MARK) or not is_wanted(column):
            right = "use the headings of docs/reference/roster-file.md, such as tape or length (mm)"
            raise WireError("this heading is not known here", f"{where}, {heading}", right)
        for each in value if isinstance(value, tuple) else (value,):
            columns.append(column)
            cells.append(each if isinstance(each, str) else repr(each))
    return columns, cells


def _player(read: RowRead, where: str) -> Player:
    if read.player is None:
        raise _fault(read.problems[0], where)
    return read.player


def _fault(problem: Remark, where: str) -> WireError:
    place = f"{where}, {problem.column}" if problem.column else where
    held = f'"{problem.value}": ' if problem.value else ""
    return WireError(f"{held}{problem.wrong}", place, problem.right)
