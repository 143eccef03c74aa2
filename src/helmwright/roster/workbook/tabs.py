"""Which tab of a workbook is the roster, and its cells."""

import contextlib
import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from helmwright.roster.remark import Remark, RosterError
from helmwright.roster.spreadsheet import column_letters
from helmwright.roster.table import Table, no_header, under_header
from helmwright.roster.workbook.archive import broken, locked, unpacked
from helmwright.roster.workbook.cells import text_rows
from helmwright.roster.workbook.marks import Marks, workbook_marks
from helmwright.roster.workbook.opendocument import opendocument_marks

if TYPE_CHECKING:
    from python_calamine import CalamineWorkbook

MOST_CELLS = 400_000
"""Cells from the first to the last of a tab; a roster of 500 players has some 10 thousand."""

PANIC = "PanicException"
"""What the reading library raises where its own code gives up."""

Merged = Sequence[tuple[tuple[int, int], tuple[int, int]]]


@dataclass(frozen=True, slots=True)
class _Tab:
    """One tab as text, with what is marked in it and which cells are merged."""

    name: str
    records: list[list[str]]
    marks: Marks
    merged: Merged


def read_workbook(data: bytes, *, tab: str | None = None) -> Table:
    """The roster's tab: the one that is named, or the one whose header fits best.

    Parameters
    ----------
    data
        Bytes of an XLSX, XLSM or ODS file.
    tab
        Name of a tab, in any capitals; hidden tabs are read only when named.

    Raises
    ------
    RosterError
        Where the file cannot be opened, is locked or larger than a roster can be, or no tab has
        a header; the message names the tabs that there are.

    """
    tabs = _tabs(data, tab)
    found = [(table, each) for each in tabs if (table := _table(each)) is not None]
    if not found:
        raise _no_roster(tabs)
    table, chosen = max(found, key=lambda pair: _fitness(pair[0]))
    others = [other.tab for other, _ in found if other is not table]
    notices = (*_chosen_words(table, others), *_notices(table, chosen))
    return replace(table, notices=notices, tabs=len(tabs))


def read_tabs(data: bytes, *, tab: str | None = None) -> dict[str, list[list[str]]]:
    """The cells of every tab that is seen, or of the one that is named, as text.

    Raises
    ------
    RosterError
        Where the file cannot be opened, is locked or larger than a roster can be.

    """
    return {each.name: each.records for each in _tabs(data, tab)}


def _tabs(data: bytes, tab: str | None) -> list[_Tab]:
    parts = unpacked(data)
    if "xl/workbook.bin" in parts:
        raise RosterError("this workbook is of a binary kind (.xlsb); save it as .xlsx")
    marks = _marks(parts)
    with _faults_in_words():
        book = _opened(data)
        return [_read(book, name, marks.get(name, Marks())) for name in _named(book, tab)]


def _marks(parts: Mapping[str, bytes]) -> Mapping[str, Marks]:
    """What is marked in each tab."""
    if "content.xml" in parts:
        return opendocument_marks(parts["content.xml"])
    return workbook_marks(parts)


def _refuse_far(name: str, row: int, column: int) -> None:
    if row * column > MOST_CELLS:
        raise RosterError(
            f'the tab "{name}" is larger than a roster can be: something stands as far as cell'
            f" {column_letters(column)}{row}; delete what lies beyond the players, or read another"
            " tab with --tab"
        )


@contextlib.contextmanager
def _faults_in_words() -> Iterator[None]:
    """What the reading library says of a file, in words for whoever has the file."""
    from python_calamine import CalamineError, PasswordError  # noqa: PLC0415 - as below

    try:
        yield
    except PasswordError as error:
        raise locked() from error
    except CalamineError as error:
        raise broken() from error
    except BaseException as error:
        # On some damaged files the library's own code gives up; that is no exception of Python's.
        if type(error).__name__ == PANIC:
            raise broken() from error
        raise


def _opened(data: bytes) -> "CalamineWorkbook":
    from python_calamine import CalamineWorkbook  # noqa: PLC0415 - a text needs no such library

    return CalamineWorkbook.from_filelike(io.BytesIO(data))


def _named(book: "CalamineWorkbook", tab: str | None) -> list[str]:
    """The tabs to look at: all that are seen, or the one that was asked for."""
    from python_calamine import SheetTypeEnum, SheetVisibleEnum  # noqa: PLC0415 - as above

    sheets = [each for each in book.sheets_metadata if each.typ == SheetTypeEnum.WorkSheet]
    if tab is None:
        return [each.name for each in sheets if each.visible == SheetVisibleEnum.Visible]
    asked = tab.strip().casefold()
    matching = [each.name for each in sheets if each.name.strip().casefold() == asked]
    if not matching:
        known = ", ".join(f'"{each.name}"' for each in sheets)
        raise RosterError(f'the workbook has no tab "{tab}"; it has {known or "none"}')
    return matching[:1]


def _read(book: "CalamineWorkbook", name: str, marks: Marks) -> _Tab:
    # Looked at before the library is asked: it sets aside memory for every cell in between.
    _refuse_far(name, marks.last_row, marks.last_column)
    sheet = book.get_sheet_by_name(name)
    _refuse_far(name, sheet.total_height, sheet.total_width)
    values = sheet.to_python(skip_empty_area=False)
    merged = sheet.merged_cell_ranges or []
    return _Tab(name, _spread(text_rows(values, marks.texts), merged), marks, merged)


def _spread(records: list[list[str]], merged: Merged) -> list[list[str]]:
    """Headings merged over several columns stand over each of them."""
    for (top, left), (bottom, right) in merged:
        if top == bottom < len(records) and right < len(records[top]):
            words = records[top][left]
            records[top][left : right + 1] = [words] * (right - left + 1)
    return records


def _table(tab: _Tab) -> Table | None:
    table = under_header(tab.records)
    return None if table is None else replace(table, tab=tab.name)


def _fitness(table: Table) -> tuple[int, int]:
    """Known columns, and then rows: of two copies of one roster the fuller one is meant."""
    return sum(column.field is not None for column in table.columns), len(table.rows)


def _no_roster(tabs: Sequence[_Tab]) -> RosterError:
    error = no_header([tab.records for tab in tabs])
    names = ", ".join(f'"{tab.name}"' for tab in tabs) or "none that is seen"
    return RosterError(f"{error} (tabs looked at: {names})")


def _chosen_words(table: Table, others: Sequence[str]) -> Iterator[Remark]:
    """Where more than one tab looks like a roster, which one was read."""
    if others:
        also = ", ".join(f'"{name}"' for name in others)
        wrong = f'the tab "{table.tab}" was read; {also} looks like a roster too'
        yield Remark(0, "", "", wrong, f'--tab "{others[0]}" reads that one')


def _notices(table: Table, tab: _Tab) -> Iterator[Remark]:
    """Rows that nobody sees but that are answered, and cells of which only the first counts."""
    rows = {row for row, _ in table.rows}
    hidden = [row for row in tab.marks.hidden if row in rows]
    if hidden:
        wrong = f"hidden in the spreadsheet, but read: row {_ranges(hidden)}"
        yield Remark(0, "", "", wrong, "delete rows that are not to be answered")
    for (top, left), (bottom, _) in tab.merged:
        known = left < len(table.columns) and table.columns[left].field is not None
        if top + 1 > table.header and bottom > top and known:
            value = tab.records[top][left]
            wrong = f"one cell merged down to row {bottom + 1}; only row {top + 1} has it"
            yield Remark(top + 1, table.columns[left].heading, value, wrong, "unmerge and fill")


def _ranges(rows: Sequence[int]) -> str:
    """Row numbers with neighbors drawn together: "4, 7 to 9"."""
    runs: list[list[int]] = []
    for row in sorted(rows):
        if runs and row == runs[-1][-1] + 1:
            runs[-1].append(row)
        else:
            runs.append([row])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs)
