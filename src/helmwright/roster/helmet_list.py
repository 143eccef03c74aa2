"""Helmets as a list holds them: own ID, serial, model, shell, dates, store and what is in each."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from helmwright.roster.cell import CellError, is_blank
from helmwright.roster.helmet_columns import DATES, HelmetField, read_helmet_header
from helmwright.roster.helmet_day import read_helmet_day
from helmwright.roster.plain import printable
from helmwright.roster.remark import Remark, RosterError
from helmwright.roster.spreadsheet import formula_fault
from helmwright.roster.table import (
    DELIMITERS,
    HEADER_SEARCH_ROWS,
    as_wide,
    decode_roster,
    split_cells,
)
from helmwright.roster.workbook import is_workbook, read_tabs

CODE = re.compile(r"[A-Z0-9][A-Z0-9-]*")
LONGEST_CODE = 20
LONGEST_INTERVAL = 240
LONGEST_LIFE = 40
_WHOLE = re.compile(r"(\d{1,3})(?:\.0+)?(?: ?(?:m|mos?|months?|y|yrs?|years?))?\.?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class HelmetRow:
    """One helmet of the list.

    Parameters
    ----------
    row
        Row number as a spreadsheet shows it.
    code
        Its own ID, in capitals; empty where the row has none.
    said
        Every cell that is filled, as written.
    headings
        The heading of each column that is filled.
    days
        Days that could be read, by the name under which they are kept.
    interval_months, life_years
        Where somebody wrote them.
    problems
        What cannot be read, and what would be right.
    """

    row: int
    code: str
    said: Mapping[HelmetField, str]
    headings: Mapping[HelmetField, str]
    days: Mapping[str, date] = field(default_factory=dict)
    interval_months: int | None = None
    life_years: int | None = None
    problems: tuple[Remark, ...] = ()

    def remark(self, column: HelmetField, wrong: str, right: str) -> Remark:
        """Something that is wrong with one cell."""
        heading = self.headings.get(column, str(column))
        return Remark(self.row, heading, self.said.get(column, ""), wrong, right, self.code)


@dataclass(frozen=True, slots=True)
class HelmetList:
    """All rows, and columns that were left out."""

    rows: tuple[HelmetRow, ...]
    notices: tuple[Remark, ...]


def read_helmets(data: bytes, *, today: date) -> HelmetList:
    """The helmets of a CSV file, or of an XLSX or ODS workbook.

    Parameters
    ----------
    data
        The file's bytes.
    today
        No helmet was made after it.

    Raises
    ------
    RosterError
        Where the file as a whole is no list of helmets.
    """
    columns, rows = _table(data)
    if not rows:
        raise RosterError("there is no row below the header; add a row for each helmet")
    notices = tuple(
        Remark(0, heading, "", "this column is not known and was left out", "call it notes")
        for heading, known in columns
        if known is None and heading
    )
    return HelmetList(tuple(_row(number, cells, columns, today) for number, cells in rows), notices)


Columns = Sequence[tuple[str, HelmetField | None]]
Rows = Sequence[tuple[int, tuple[str, ...]]]


def _table(data: bytes) -> tuple[Columns, Rows]:
    """The list under the header that names the most columns, an ID among them."""
    if is_workbook(data):
        found = [_under_header(records, "") for records in read_tabs(data).values()]
    else:
        text = decode_roster(data)
        found = [_under_header(split_cells(text, mark), mark) for mark in DELIMITERS]
    lists = [each for each in found if each is not None]
    if not lists:
        raise RosterError(
            "no header row was found; the first row must name the columns, for example:"
            " ID, serial, model, shell, color, made, recertified, store"
        )
    return max(lists, key=lambda each: sum(known is not None for _, known in each[0]))


def _under_header(records: Sequence[Sequence[str]], delimiter: str) -> tuple[Columns, Rows] | None:
    for at, record in enumerate(records[:HEADER_SEARCH_ROWS]):
        columns = read_helmet_header(record)
        known = [column for _, column in columns if column is not None]
        if HelmetField.CODE in known and len(set(known)) >= 2:
            below = enumerate(records[at + 1 :], start=at + 2)
            wide = ((row, as_wide(cells, len(columns), delimiter)) for row, cells in below)
            return columns, [(row, cells) for row, cells in wide if any(cells)]
    return None


def _row(row: int, cells: Sequence[str], columns: Columns, today: date) -> HelmetRow:
    said: dict[HelmetField, str] = {}
    headings: dict[HelmetField, str] = {}
    for (heading, known), cell in zip(columns, cells, strict=False):
        if known is not None and known not in said and not is_blank(cell):
            said[known], headings[known] = printable(cell), heading
    code = " ".join(said.get(HelmetField.CODE, "").upper().split())
    read = HelmetRow(row, code, said, headings)
    problems = [*_beyond(read, cells, columns), *_code_problems(read), *_formulas(read)]
    days: dict[str, date] = {}
    numbers: dict[HelmetField, int] = {}
    for column, name in DATES.items():
        if column in said:
            try:
                days[name] = read_helmet_day(said[column], today=today)
            except CellError as error:
                problems.append(read.remark(column, error.wrong, error.right))
    for column, most in (
        (HelmetField.INTERVAL, LONGEST_INTERVAL),
        (HelmetField.LIFE, LONGEST_LIFE),
    ):
        if column in said:
            number = _number(said[column], most)
            if number is None:
                unit = "months" if column is HelmetField.INTERVAL else "years"
                problems.append(
                    read.remark(column, f"this is no number of {unit}", f"write 1 to {most}")
                )
            else:
                numbers[column] = number
    return HelmetRow(
        row,
        code,
        said,
        headings,
        days,
        numbers.get(HelmetField.INTERVAL),
        numbers.get(HelmetField.LIFE),
        tuple(problems),
    )


def _beyond(read: HelmetRow, cells: Sequence[str], columns: Columns) -> list[Remark]:
    if not any(cells[len(columns) :]):
        return []
    wrong = "the row has more cells than the header"
    return [Remark(read.row, "past the last column", cells[-1], wrong, "take out a stray comma")]


def _code_problems(read: HelmetRow) -> list[Remark]:
    if not read.code:
        return [read.remark(HelmetField.CODE, "no ID", "write the ID that stands on its label")]
    if len(read.code) > LONGEST_CODE or not CODE.fullmatch(read.code):
        right = f"use up to {LONGEST_CODE} letters, digits and hyphens, such as TV-0147"
        return [read.remark(HelmetField.CODE, "this cannot stand on a label", right)]
    return []


def _formulas(read: HelmetRow) -> list[Remark]:
    faults = [(column, formula_fault(cell)) for column, cell in read.said.items()]
    return [
        read.remark(column, fault, "type what it should say") for column, fault in faults if fault
    ]


def _number(cell: str, most: int) -> int | None:
    match = _WHOLE.fullmatch(cell.strip())
    return int(match[1]) if match and 1 <= int(match[1]) <= most else None
