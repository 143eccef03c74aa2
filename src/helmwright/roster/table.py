"""From the bytes of a file to rows of cells, as a spreadsheet would show them."""

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from helmwright.roster.columns import HAT_HEADING, Column, names_hat, read_header
from helmwright.roster.remark import Remark, RosterError

DELIMITERS = (",", ";", "\t")
HEADER_SEARCH_ROWS = 12


@dataclass(frozen=True, slots=True)
class Table:
    """The columns that the header names, and the rows below it with their numbers.

    Parameters
    ----------
    columns
        One for each heading.
    rows
        Row number as a spreadsheet shows it, and the cells; blank rows are left out.
    header
        Row number of the header.
    above
        Title lines above it.
    tab
        The workbook's tab; empty for a text.
    tabs
        How many tabs there were to choose from.
    notices
        What is to be said of the tab as a whole.

    """

    columns: tuple[Column, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    header: int = 1
    above: tuple[tuple[str, ...], ...] = ()
    tab: str = ""
    tabs: int = 1
    notices: tuple[Remark, ...] = ()


def decode_roster(data: bytes) -> str:
    """The text of a roster file: UTF-8 or UTF-16 with their marks, UTF-8, or Windows-1252.

    Raises
    ------
    RosterError
        For a workbook, or for bytes that are no text.

    """
    if data.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        raise RosterError("this is a workbook, not text")
    encodings = ("utf-16",) if data[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8-sig", "cp1252")
    for encoding in encodings:
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\x00" not in text:
            return text
    raise RosterError("this is no text file; save the roster as CSV (UTF-8) and try again")


def read_table(text: str) -> Table:
    """Rows of cells under the header that fits best; title lines above it are passed over.

    Raises
    ------
    RosterError
        Where no header names a head measure or a player.

    """
    splits = {delimiter: split_cells(text, delimiter) for delimiter in DELIMITERS}
    tables = [under_header(records, delimiter) for delimiter, records in splits.items()]
    found = [table for table in tables if table is not None]
    if not found:
        raise no_header(splits.values())
    return max(found, key=lambda table: sum(c.field is not None for c in table.columns))


def no_header(splits: Iterable[Sequence[Sequence[str]]]) -> RosterError:
    """What to say of a file whose columns are not known; hat sizes go by a name of their own."""
    tops = [
        cell for records in splits for record in records[:HEADER_SEARCH_ROWS] for cell in record
    ]
    hat = f"; {HAT_HEADING}" if any(names_hat(cell) for cell in tops) else ""
    return RosterError(
        "no header row was found; the first row must name the columns,"
        f" for example: number, name, tape (in), length (in), breadth (in){hat}"
    )


def split_cells(text: str, delimiter: str) -> list[list[str]]:
    """Records of the text; a blank line is a record too, as in a spreadsheet."""
    try:
        return list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter))
    except csv.Error as error:
        raise RosterError(f"the file cannot be split into cells ({error})") from error


def under_header(records: Sequence[Sequence[str]], delimiter: str = "") -> Table | None:
    """The first record that names two fields or more is the header; None where none does."""
    for place, record in enumerate(records[:HEADER_SEARCH_ROWS]):
        columns = read_header(record)
        if sum(column.field is not None for column in columns) >= 2:
            below = enumerate(records[place + 1 :], start=place + 2)
            rows = tuple((row, as_wide(cells, len(columns), delimiter)) for row, cells in below)
            filled = tuple(row for row in rows if any(row[1]))
            above = tuple(tuple(record) for record in records[:place])
            return Table(columns, filled, place + 1, above)
    return None


def as_wide(record: Sequence[str], width: int, delimiter: str) -> tuple[str, ...]:
    """The record as long as the header, each cell without the space around it."""
    padded = [*record, *[""] * (width - len(record))][: max(width, len(record))]
    return tuple(_decimal_point(cell.strip(), delimiter) for cell in padded)


def _decimal_point(cell: str, delimiter: str) -> str:
    """Where commas do not part the cells, a comma between two digits is a decimal comma."""
    head, comma, tail = cell.partition(",")
    numeric = head.isdecimal() and tail[:1].isdecimal()
    return f"{head}.{tail}" if delimiter != "," and comma and numeric else cell
