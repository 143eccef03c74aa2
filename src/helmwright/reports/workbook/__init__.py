"""Workbooks to open in a spreadsheet: a roster's answer, and an empty roster to fill in."""

from helmwright.reports.workbook.answer import answer_workbook
from helmwright.reports.workbook.lists import helmet_template_workbook, stock_template_workbook
from helmwright.reports.workbook.template import template_workbook

__all__ = [
    "answer_workbook",
    "helmet_template_workbook",
    "stock_template_workbook",
    "template_workbook",
]
