"""What the events of a visit name, read once for each model sheet."""

from functools import lru_cache

from helmwright.records.models import Sheet
from helmwright.records.sheets import read_sheet
from helmwright.records.visit_fold import Known
from helmwright.visit import protocol_for


def known_of(sheet: Sheet) -> Known:
    """The model of a sheet, and its checks."""
    return _known(sheet.text)


@lru_cache(maxsize=32)
def _known(text: str) -> Known:
    sheet = read_sheet(text)
    return Known(sheet, protocol_for(sheet))
