"""Reading a model sheet: text in, a checked sheet or every fault with its line out."""

from helmwright.catalogue.reading.fault import SheetError, SheetFault
from helmwright.catalogue.reading.whole import parse_sheet

__all__ = ["SheetError", "SheetFault", "parse_sheet"]
