"""The first sheet of an answer: the roster as it was, with shell, pads and chances beside it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from helmwright.catalogue.sheet import ModelSheet
from helmwright.reports.warnings import FORECAST
from helmwright.reports.workbook.answer_columns import (
    ANSWERED,
    COLUMNS,
    NOT_ANSWERED,
    OUTCOME,
    REMARKS,
    WORDS,
    Cell,
)
from helmwright.reports.workbook.book import HEADING, TEXT, Book, fitting_width, number_or_text
from helmwright.roster import ANSWER_MARK, Column, Field, PlayerAnswer, Remark, RosterAnswer, Table

HATCHED = {"pattern": 14, "fg_color": "#808080", "bg_color": "#FFFFFF"}
"""Thin strokes over a row that is not answered; they show on any printer."""

FRAMED = {"border": 2, "bold": True}
"""A cell that a remark speaks of."""

KEPT_COLUMNS = 4
"""The name stays in sight where it is among the first columns."""

_LINE = 34
_WORDS = (OUTCOME, *(column.heading for column in COLUMNS), REMARKS)
_WIDTHS = (15.0, *(column.width for column in COLUMNS), 60.0)


@dataclass(frozen=True, slots=True)
class _Row:
    """One row of the roster with what is to be said of it."""

    number: int
    cells: Sequence[str]
    remarks: Sequence[Remark]
    told: Sequence[Cell]
    is_answered: bool


def builds_sheet(book: Book, answer: RosterAnswer, table: Table) -> None:
    """Writes the sheet; every row stands where it stood in the file."""
    sheet = book.sheet("Builds")
    start = max([len(table.columns), *(len(cells) for _, cells in table.rows)])
    _top(book, sheet, table, start)
    for row in _rows(answer, table):
        _write_row(book, sheet, row, table.columns, start)
    _widths(sheet, table, start)
    sheet.freeze_panes(table.header, _kept(table.columns))
    sheet.repeat_rows(table.header - 1)
    last = max((row for row, _ in table.rows), default=table.header)
    sheet.autofilter(table.header - 1, 0, last - 1, start + len(_WORDS) - 1)
    sheet.ignore_errors({"number_stored_as_text": "A1:XFD1048576"})


def _rows(answer: RosterAnswer, table: Table) -> Iterable[_Row]:
    answers = {each.player.row: each for each in answer.answers}
    said: dict[int, list[Remark]] = {}
    for remark in (*answer.problems, *answer.notices):
        said.setdefault(remark.row, []).append(remark)
    return [
        _Row(
            row,
            cells,
            said.get(row, []),
            _told(answers.get(row), said.get(row, []), answer.sheet),
            row in answers,
        )
        for row, cells in table.rows
    ]


def _top(book: Book, sheet: Any, table: Table, start: int) -> None:
    """Title lines, and the headings."""
    for row, cells in enumerate(table.above):
        for column, cell in enumerate(cells):
            if cell:
                book.write(sheet, row, column, cell)
    headings = [each.heading for each in table.columns]
    headings += [""] * (start - len(headings))
    headings += [f"{ANSWER_MARK} {word}" for word in _WORDS]
    for column, heading in enumerate(headings):
        book.write(sheet, table.header - 1, column, heading, **HEADING)
    for column, (_, meaning) in enumerate(WORDS, start=start):
        _comment(sheet, table.header - 1, column, [meaning])


def _write_row(book: Book, sheet: Any, row: _Row, columns: Sequence[Column], start: int) -> None:
    ground: Mapping[str, Any] = {} if row.is_answered else HATCHED
    at_fault = _at_fault(row, columns, start)
    for place in range(start):
        cell = row.cells[place] if place < len(row.cells) else ""
        style = {**ground, **_own(place, columns), **(FRAMED if place in at_fault else {})}
        kept = cell if "num_format" in style else number_or_text(cell)
        book.write(sheet, row.number - 1, place, kept, **style)
    for place, told in enumerate(row.told, start=start):
        style = {**ground, **(FRAMED if place in at_fault else {})}
        book.write(sheet, row.number - 1, place, told, **style)
    for place, remarks in at_fault.items():
        _comment(sheet, row.number - 1, place, [remark.words for remark in remarks])


def _own(place: int, columns: Sequence[Column]) -> Mapping[str, Any]:
    """Text for a column in which a spreadsheet would make dates of fractions and heights."""
    column = columns[place] if place < len(columns) else None
    is_text = column is not None and (column.is_measure or column.field is Field.STATURE)
    return TEXT if is_text else {}


def _told(
    answer: PlayerAnswer | None, said: Sequence[Remark], sheet: ModelSheet | None
) -> list[Cell]:
    """The cells that the answer adds to a row."""
    remarks = " | ".join(str(remark) for remark in said)
    if answer is None or answer.proposal is None:
        return [ANSWERED if answer else NOT_ANSWERED, *[""] * len(COLUMNS), remarks]
    outcome = ANSWERED if answer.proposal.measured else FORECAST
    return [outcome, *(each.cell(answer, answer.proposal, sheet) for each in COLUMNS), remarks]


def _at_fault(row: _Row, columns: Sequence[Column], start: int) -> dict[int, list[Remark]]:
    """Places of cells with the remarks that speak of them; the outcome's where none is named."""
    found: dict[int, list[Remark]] = {}
    for remark in row.remarks:
        for place in _places(remark, row.cells, columns) or [start]:
            found.setdefault(place, []).append(remark)
    return found


def _places(remark: Remark, cells: Sequence[str], columns: Sequence[Column]) -> list[int]:
    """Columns that a remark names; of several with one heading, those with the cell it names."""
    named = [
        place
        for place, column in enumerate(columns)
        if column.heading and _names(remark.column, column.heading) and cells[place]
    ]
    held = [place for place in named if _names(remark.value, cells[place])]
    return held or named


def _names(words: str, one: str) -> bool:
    """Whether one of the words joined by "and" is this one."""
    return words == one or one in words.split(" and ")


def _comment(sheet: Any, row: int, column: int, said: Sequence[str]) -> None:
    text = "\n".join(said)
    lines = sum(len(words) // _LINE + 1 for words in said)
    sheet.write_comment(
        row, column, text, {"author": "Helmwright", "width": 240, "height": 18 * (lines + 1)}
    )


def _widths(sheet: Any, table: Table, start: int) -> None:
    for place in range(start):
        texts = [cells[place] for _, cells in table.rows if place < len(cells)]
        heading = table.columns[place].heading if place < len(table.columns) else ""
        longest_word = max(heading.split(), key=len, default="")
        sheet.set_column(place, place, fitting_width([*texts, longest_word]))
    for place, width in enumerate(_WIDTHS, start=start):
        sheet.set_column(place, place, width)


def _kept(columns: Sequence[Column]) -> int:
    """How many columns stay in sight: up to the name, where that is near the edge."""
    names = (Field.NAME, Field.FAMILY_NAME, Field.GIVEN_NAME)
    places = [place for place, column in enumerate(columns) if column.field in names]
    return max(places, default=-1) + 1 if max(places, default=-1) < KEPT_COLUMNS else 0
