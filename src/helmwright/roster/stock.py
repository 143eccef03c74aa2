"""What is on the shelf: a list of places, sizes and counts, read from a text or a workbook."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES
from helmwright.roster.cell import CellError, is_blank
from helmwright.roster.columns import without_unit
from helmwright.roster.plain import printable
from helmwright.roster.player import some_names
from helmwright.roster.remark import Remark, RosterError
from helmwright.roster.stock_place import PAD_PLACES, SHELL, read_place, read_size
from helmwright.roster.table import (
    DELIMITERS,
    HEADER_SEARCH_ROWS,
    as_wide,
    decode_roster,
    split_cells,
)
from helmwright.roster.workbook import is_workbook, read_tabs

MOST = 100_000
"""A count above this is a date or a price."""


class StockField(StrEnum):
    """What a column of a stock list can hold."""

    PLACE = "place"
    SIZE = "size"
    COUNT = "count"


SYNONYMS: Mapping[StockField, str] = {
    StockField.PLACE: "place|zone|where|part|pad|goes in|position in the helmet",
    StockField.SIZE: "size|thickness|thick|label|pad size|on the bag|shell or thickness",
    StockField.COUNT: "count|qty|quantity|on hand|in stock|stock|pieces|how many|number|have|here",
}
_KNOWN = {name: field for field, names in SYNONYMS.items() for name in names.split("|")}
_WHOLE = re.compile(r"\d+(?:\.0*)?|\d{1,3}(?:,\d{3})+", re.ASCII)

Row = tuple[str, str, int]


@dataclass(frozen=True, slots=True)
class Stock:
    """Parts at this store.

    Parameters
    ----------
    rows
        (place, size, count): the place "shell" or where the pads go, the shell's number or the
        thickness as written on the bag, how many; in the order of the sheet, each once.
    notices
        What to look at.
    is_uncounted
        Whether no row has a count at all.

    """

    rows: tuple[Row, ...]
    notices: tuple[Remark, ...] = ()
    is_uncounted: bool = False


@dataclass(frozen=True, slots=True)
class StockRow:
    """One row of the list: where it stands, which part, and how many; None where nobody wrote."""

    row: int
    place: str
    size: str
    count: int | None


@dataclass(frozen=True, slots=True)
class StockRows:
    """Every row of a list: those that can be read, and what is wrong with the others."""

    rows: tuple[StockRow, ...]
    problems: tuple[Remark, ...]


class StockError(RosterError):
    """Rows of a stock list that cannot be read, every one of them named."""

    def __init__(self, problems: tuple[Remark, ...]) -> None:
        self.problems = problems
        super().__init__("\n".join(map(str, problems)))


@dataclass(frozen=True, slots=True)
class _List:
    """The columns by what they hold, and the rows below the header with their numbers."""

    places: Mapping[StockField, int]
    headings: tuple[str, ...]
    unit: str | None
    rows: tuple[tuple[int, tuple[str, ...]], ...]

    def cell(self, cells: Sequence[str], field: StockField) -> str:
        return printable(cells[self.places[field]])

    def heading(self, field: StockField) -> str:
        return self.headings[self.places[field]]


def read_stock(
    data: bytes, sheet: ModelSheet, *, tab: str | None = None, unit: str = "in"
) -> Stock:
    """The parts that a stock list holds.

    Parameters
    ----------
    data
        Bytes of a CSV file, or of an XLSX or ODS workbook.
    sheet
        The model whose parts they are.
    tab
        The workbook's tab; without it the first that looks like a stock list.
    unit
        Unit of a bare thickness in a column that names none.

    Returns
    -------
    Stock
        Rows of the same part are added up. What is not listed is not here.

    Raises
    ------
    StockError
        For rows that cannot be read, or parts that the sheet does not have.
    RosterError
        Where the file as a whole is no stock list.

    """
    return _stock(_list(data, tab), sheet, unit)


def read_stock_rows(
    data: bytes, sheet: ModelSheet, *, tab: str | None = None, unit: str = "in"
) -> StockRows:
    """The same, row by row: a row that cannot be read stands beside the others.

    Raises
    ------
    RosterError
        Where the file as a whole is no stock list.

    """
    found = _list(data, tab)
    read = [(row, _row(row, cells, found, sheet, unit)) for row, cells in found.rows]
    return StockRows(
        tuple(StockRow(row, *each) for row, each in read if not isinstance(each, Remark)),
        tuple(each for _, each in read if isinstance(each, Remark)),
    )


def stock_of(rows: Sequence[tuple[str, str, int]], sheet: ModelSheet, *, unit: str = "in") -> Stock:
    """The parts of a list that no file holds; its rows are numbered from 1.

    Parameters
    ----------
    rows
        Place, size and count, as a stock list has them.
    sheet, unit
        As for `read_stock`.

    Raises
    ------
    StockError
        As `read_stock`.

    """
    cells = tuple((at, (place, size, str(n))) for at, (place, size, n) in enumerate(rows, start=1))
    headings = tuple(map(str, StockField))
    return _stock(
        _List(dict(zip(StockField, range(3), strict=True)), headings, None, cells), sheet, unit
    )


def _stock(found: _List, sheet: ModelSheet, unit: str) -> Stock:
    counts: dict[tuple[str, str], int] = {}
    rows_of: dict[tuple[str, str], list[int]] = {}
    problems, blanks = [], []
    for row, cells in found.rows:
        read = _row(row, cells, found, sheet, unit)
        if isinstance(read, Remark):
            problems.append(read)
            continue
        place, size, count = read
        if count is None:
            blanks.append(row)
        counts[place, size] = counts.get((place, size), 0) + (count or 0)
        rows_of.setdefault((place, size), []).append(row)
    if problems:
        raise StockError(tuple(problems))
    order = sorted(counts, key=lambda part: _order(part, sheet))
    rows = tuple((place, size, counts[place, size]) for place, size in order)
    notices = (*_added(rows_of), *_uncounted(blanks), *_unlisted(rows, sheet))
    return Stock(rows, notices, is_uncounted=len(blanks) == len(found.rows))


def _row(
    row: int, cells: Sequence[str], found: _List, sheet: ModelSheet, unit: str
) -> tuple[str, str, int | None] | Remark:
    """Place, size and count of a row, or what is wrong with it."""
    if any(cells[len(found.headings) :]):
        wrong = "the row has more cells than the header"
        return Remark(row, "past the last column", cells[-1], wrong, "take out a stray comma")
    field, cell = StockField.PLACE, found.cell(cells, StockField.PLACE)
    try:
        place = read_place(cell)
        field, cell = StockField.SIZE, found.cell(cells, StockField.SIZE)
        size = read_size(cell, place, sheet, found.unit or unit)
        field, cell = StockField.COUNT, found.cell(cells, StockField.COUNT)
        return place, size, _count(cell)
    except CellError as error:
        return Remark(row, found.heading(field), cell, error.wrong, error.right)


def _count(cell: str) -> int | None:
    """How many; None where the cell is empty."""
    if is_blank(cell):
        return None
    if not _WHOLE.fullmatch(cell):
        raise CellError("this is no count", "write a whole number, 0 or more")
    count = int(cell.replace(",", "").partition(".")[0])
    if count > MOST:
        raise CellError(f"no store holds more than {MOST:,} of a part", "write how many are here")
    return count


def _order(part: tuple[str, str], sheet: ModelSheet) -> tuple[int, int]:
    """Shells first, then places in their order, thin to thick."""
    place, size = part
    if place == SHELL:
        return -1, int(size)
    labels = sheet.pad(PAD_PLACES[place][0]).labels
    return list(PAD_PLACES).index(place), labels.index(size)


def _added(rows_of: Mapping[tuple[str, str], Sequence[int]]) -> list[Remark]:
    return [
        Remark(
            rows[-1],
            "",
            "",
            f"{place} {size} stands in rows {', '.join(map(str, rows))}; the counts were added up",
            "if they are one count written twice, take one out",
        )
        for (place, size), rows in rows_of.items()
        if len(rows) > 1
    ]


def _uncounted(rows: Sequence[int]) -> list[Remark]:
    if not rows:
        return []
    named = some_names([str(row) for row in rows])
    return [Remark(0, "", "", f"no count in row {named}; taken as none here", "write how many")]


def _unlisted(rows: Sequence[Row], sheet: ModelSheet) -> list[Remark]:
    """Places of which nothing is listed: whoever counted pads only means no lack of shells."""
    listed = {zone for place, *_ in rows if place != SHELL for zone in PAD_PLACES[place]}
    lacking = [
        str(zone)
        for zone in ZONES
        if zone not in listed and sheet.pad(zone).seats and sheet.pad(zone).cell is None
    ]
    if not any(place == SHELL for place, *_ in rows):
        lacking.insert(0, "shells")
    if not lacking:
        return []
    wrong = f"nothing is listed for {', '.join(lacking)}; only what is in the helmet now is there"
    return [Remark(0, "", "", wrong, "list what is on the shelf, or leave the stock list out")]


def _list(data: bytes, tab: str | None) -> _List:
    """The list under the header that names the three columns."""
    if is_workbook(data):
        found = [_under_header(records, "") for records in read_tabs(data, tab=tab).values()]
    elif tab is not None:
        raise RosterError("only a workbook has tabs; leave the tab out")
    else:
        text = decode_roster(data)
        found = [_under_header(split_cells(text, mark), mark) for mark in DELIMITERS]
    lists = [each for each in found if each is not None]
    if not lists:
        raise RosterError(
            "no header row was found; the first row must name the columns: place, size, count"
        )
    if not lists[0].rows:
        raise RosterError("there is no row below the header; add a row for each part")
    return lists[0]


def _under_header(records: Sequence[Sequence[str]], delimiter: str) -> _List | None:
    for at, record in enumerate(records[:HEADER_SEARCH_ROWS]):
        headings = tuple(printable(cell) for cell in record)
        named = [_heading(heading) for heading in headings]
        places = {field: place for place, (field, _) in reversed([*enumerate(named)]) if field}
        if len(places) == len(StockField):
            below = enumerate(records[at + 1 :], start=at + 2)
            wide = ((row, as_wide(cells, len(headings), delimiter)) for row, cells in below)
            rows = tuple((row, cells) for row, cells in wide if any(cells))
            return _List(places, headings, named[places[StockField.SIZE]][1], rows)
    return None


def _heading(heading: str) -> tuple[StockField | None, str | None]:
    """What a column holds, and the unit that its heading names."""
    words = " ".join(heading.lower().replace("_", " ").split())
    if words in _KNOWN:
        return _KNOWN[words], None
    words, unit = without_unit(words)
    return _KNOWN.get(words.strip(" .:")), unit
