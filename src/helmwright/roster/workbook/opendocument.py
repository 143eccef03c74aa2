"""What is marked in the tabs of an ODS workbook, and how far they go with repeated cells."""

from collections.abc import Mapping

from helmwright.roster.workbook.marks import Marks
from helmwright.roster.workbook.markup import Attributes, parse
from helmwright.roster.workbook.number_format import shown

CELLS = ("table-cell", "covered-table-cell")
MOST_REPEATS = 400_000
"""Repetitions of a cell up to which it is marked; more are refused as too large a tab."""


def opendocument_marks(content: bytes) -> Mapping[str, Marks]:
    """Faults, percentages, hidden rows and the extent of each tab, by the tab's name."""
    reader = _Extents()
    parse(content, start=reader.start, end=reader.end)
    return reader.tabs


class _Extents:
    """Counts rows and columns with their repetitions."""

    def __init__(self) -> None:
        self.tabs: dict[str, Marks] = {}
        self.marks = Marks()
        self.row = self.column = self.rows = self.columns = self.widest = 0

    def start(self, name: str, attributes: Attributes) -> None:
        if name == "table":
            self.marks = self.tabs[attributes.get("name", "")] = Marks()
            self.row = 0
        elif name == "table-row":
            self.rows = int(attributes.get("number-rows-repeated", 1))
            self.column = self.widest = 0
            if attributes.get("visibility") in ("collapse", "filter"):
                self.marks.hidden.extend(range(self.row + 1, self.row + 1 + min(self.rows, 9999)))
        elif name in CELLS:
            self.columns = int(attributes.get("number-columns-repeated", 1))
            if "value-type" in attributes:
                self.widest = self.column + self.columns
                self._mark(attributes)

    def _mark(self, attributes: Attributes) -> None:
        """The text of a cell that the reading library would give as empty or as a plain share."""
        kind = attributes["value-type"]
        if kind == "error":
            text = "#ERROR!"
        elif kind == "percentage":
            text = shown(float(attributes.get("value", "nan")), "0%")
        else:
            return
        if self.rows * self.columns > MOST_REPEATS:
            return
        for row in range(1, 1 + self.rows):
            for column in range(1, 1 + self.columns):
                self.marks.texts[self.row + row, self.column + column] = text

    def end(self, name: str) -> None:
        if name in CELLS:
            self.column += self.columns
        elif name == "table-row":
            self.row += self.rows
            if self.widest:
                self.marks.last_row = self.row
                self.marks.last_column = max(self.marks.last_column, self.widest)
