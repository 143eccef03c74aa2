"""Workbooks: from the bytes of an XLSX, XLS or ODS file to the cells of one tab, as text."""

from helmwright.roster.workbook.archive import is_workbook
from helmwright.roster.workbook.tabs import read_tabs, read_workbook

__all__ = ["is_workbook", "read_tabs", "read_workbook"]
