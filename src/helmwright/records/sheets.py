"""Model sheets out of the records, read once."""

from functools import lru_cache

from helmwright.catalogue import ModelSheet, parse_sheet
from helmwright.records.models import Sheet


def sheet_of(row: Sheet) -> ModelSheet:
    """The sheet that a row keeps as text; reading it anew takes milliseconds, so it is kept."""
    return read_sheet(row.text)


@lru_cache(maxsize=32)
def read_sheet(text: str) -> ModelSheet:
    """The sheet of a text.

    Raises
    ------
    SheetError
        For a text that is none, with every fault and its line.
    """
    return parse_sheet(text, name="the sheet")
