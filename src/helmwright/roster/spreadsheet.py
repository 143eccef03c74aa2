"""What a spreadsheet makes of fractions and heights: dates, day numbers, faults of formulas."""

import re

NOT_COMPUTED = "=?"
"""Stands for a formula of which a workbook holds no value."""

_FAULT = re.compile(r"#(?:REF!|N/A|VALUE!|DIV/0!|NAME\?|NUM!|NULL!|ERROR!?|[A-Z_]+!)|Err:\d+")
_NUMERIC = re.compile(r"(?P<a>\d{1,2})(?P<s>[/.-])(?P<b>\d{1,2})(?P=s)(?P<y>\d{4}|\d{2})")
_ISO = re.compile(r"(?P<y>\d{4})-(?P<a>\d{1,2})-(?P<b>\d{1,2})(?:[ T].*)?")
_DAY_NUMBER = re.compile(r"[345]\d{4}(?:\.0+)?")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_NAMED = re.compile(r"(?P<d>\d{1,2})[-/ ](?P<m>[a-z]{3})[a-z]*(?:[-/ ]\d{2,4})?", re.IGNORECASE)
_NAMED_FIRST = re.compile(r"(?P<m>[a-z]{3})[a-z]*[-/ ](?P<d>\d{1,2})", re.IGNORECASE)
_FEET = range(4, 8)
_DENOMINATORS = (2, 4, 8, 16, 32)


def column_letters(column: int) -> str:
    """A column's name as a spreadsheet shows it, counted from 1: 28 is AB."""
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def formula_fault(cell: str) -> str | None:
    """What is wrong where a cell shows a formula, or that one failed: "#REF!"; else None."""
    if cell == NOT_COMPUTED:
        return "a formula that no spreadsheet has computed yet"
    if _FAULT.fullmatch(cell):
        return "a formula in this cell failed"
    return "a formula, not its value" if cell.startswith("=") else None


def looks_like_day_number(cell: str) -> bool:
    """Whether this is a date as a spreadsheet counts days: 39600 is one in June of 2008."""
    return _DAY_NUMBER.fullmatch(cell) is not None


def fraction_behind(cell: str) -> str | None:
    """The mixed fraction that was probably typed, such as 6 1/8 behind 6/1/2008.

    It is offered as a question only; None where nothing sensible can be read back.
    """
    match = _NUMERIC.fullmatch(cell) or _ISO.fullmatch(cell)
    if match is None:
        return None
    whole, top, bottom = int(match["a"]), int(match["b"]), int(match["y"]) % 100
    proper = bottom in _DENOMINATORS and 0 < top < bottom
    return f"{whole} {top}/{bottom}" if proper else None


def stature_behind(cell: str) -> str | None:
    """The height that was probably typed, such as 5-10 behind 10-May or 5/10/2024.

    A spreadsheet takes 5-10 for a day of May, or elsewhere for the fifth of October; where both
    could be meant the month counts as the feet. None where nothing sensible can be read back.
    """
    if match := _NAMED.fullmatch(cell) or _NAMED_FIRST.fullmatch(cell):
        name = match["m"].lower()
        month, day = (_MONTHS.index(name) + 1 if name in _MONTHS else 0), int(match["d"])
    elif match := _NUMERIC.fullmatch(cell) or _ISO.fullmatch(cell):
        month, day = int(match["a"]), int(match["b"])
    else:
        return None
    for feet, over in ((month, day), (day, month)):
        if feet in _FEET and over < 12:
            return f"{feet}-{over}"
    return None
