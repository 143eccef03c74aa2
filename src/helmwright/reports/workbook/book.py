"""One workbook in the making: its formats, its cells, how its sheets print."""

import datetime as dt
import io
import re
from collections.abc import Iterable, Sequence
from typing import Any

from helmwright.roster.formulas import FORMULA_STARTS

MADE = dt.datetime(2000, 1, 1, tzinfo=dt.UTC)
"""Stands in every workbook, so that the same answer is the same file."""

LETTER = 1
WIDEST = 40
_NUMBER = re.compile(r"(?:0|[1-9]\d{0,14})(?:\.\d{1,9})?")
_FOOTER = (
    "&L&8Proposals, not a safety score; limits of fit are assumed: see the sheet of cautions"
    "&R&8&A, page &P of &N"
)

HEADING = {"bold": True, "text_wrap": True, "valign": "top", "bottom": 2}
WRAPPED = {"text_wrap": True, "valign": "top"}
TEXT = {"num_format": 49}
"""Text, by the number that stands for it: a cell in which a fraction stays a fraction."""


class Book:
    """Writes cells into a workbook that is kept in memory.

    Every text is written as text: what a spreadsheet would run as a formula gets, besides, the
    mark that keeps it text when somebody edits the cell.
    """

    def __init__(self) -> None:
        import xlsxwriter  # noqa: PLC0415 - a page or a document needs no such library

        self._file = io.BytesIO()
        # Formulas and addresses in a name must stay what they are: letters.
        plain = {"strings_to_formulas": False, "strings_to_urls": False, "in_memory": True}
        self._book = xlsxwriter.Workbook(self._file, plain)
        self._book.set_properties({"created": MADE, "author": "Helmwright"})
        self._formats: dict[tuple[tuple[str, Any], ...], Any] = {}

    def sheet(self, name: str) -> Any:
        """A new sheet that prints on letter paper, landscape, one page wide."""
        sheet = self._book.add_worksheet(name)
        sheet.set_landscape()
        sheet.set_paper(LETTER)
        sheet.set_margins(left=0.4, right=0.4, top=0.5, bottom=0.6)
        sheet.fit_to_pages(1, 0)
        sheet.set_footer(_FOOTER)
        return sheet

    def style(self, **properties: Any) -> Any:
        """The format with these properties."""
        key = tuple(sorted(properties.items()))
        if key not in self._formats:
            self._formats[key] = self._book.add_format(properties)
        return self._formats[key]

    def write(
        self, sheet: Any, row: int, column: int, cell: str | float, **properties: Any
    ) -> None:
        """One cell, by its row and column from 0."""
        if isinstance(cell, str) and cell.lstrip(" ").startswith(FORMULA_STARTS):
            properties["quote_prefix"] = True
        style = self.style(**properties) if properties else None
        if cell == "":
            sheet.write_blank(row, column, None, style)
        elif isinstance(cell, str):
            sheet.write_string(row, column, cell, style)
        else:
            sheet.write_number(row, column, cell, style)

    def table(
        self, sheet: Any, headings: Sequence[str], rows: Iterable[Sequence[str | float]]
    ) -> None:
        """A table from the first row on: heading kept in sight and on every page, text wrapped."""
        for column, heading in enumerate(headings):
            self.write(sheet, 0, column, heading, **HEADING)
        for row, cells in enumerate(rows, start=1):
            for column, cell in enumerate(cells):
                self.write(sheet, row, column, cell, **WRAPPED)
        sheet.freeze_panes(1, 0)
        sheet.repeat_rows(0)

    def bytes(self) -> bytes:
        """The finished workbook; nothing can be added afterward."""
        self._book.close()
        return self._file.getvalue()


def number_or_text(cell: str) -> str | float:
    """A number where the text is one and looks the same as a number: 215, but not 007."""
    return float(cell) if _NUMBER.fullmatch(cell) else cell


def fitting_width(texts: Iterable[str], *, least: float = 6, most: float = WIDEST) -> float:
    """Width of a column that holds most of these texts in a line."""
    longest = max((len(text) for text in texts), default=0)
    return min(max(longest + 1.5, least), most)
