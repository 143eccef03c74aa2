"""Days and years as rosters write them."""

import re
from datetime import date, timedelta

from helmwright.roster.cell import CellError

FIRST_DAY = date(1899, 12, 30)
"""Day from which a spreadsheet counts."""

EXAMPLE = "write it like 5/4/2013"

_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})(?:[ T].*)?")
_NUMERIC = re.compile(r"(\d{1,2})([/.-])(\d{1,2})\2(\d{4}|\d{2})")
_DAY_FIRST = re.compile(r"(\d{1,2})[- ]([a-z]{3})[a-z]*\.?[- ,]+(\d{4}|\d{2})", re.IGNORECASE)
_MONTH_FIRST = re.compile(r"([a-z]{3})[a-z]*\.?[- ](\d{1,2})[- ,]+(\d{4}|\d{2})", re.IGNORECASE)
_COUNTED = re.compile(r"([345]\d{4})(?:\.0+)?")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def read_day(cell: str, *, today: date) -> date:
    """A day: 5/4/2013 (month first), 2013-05-04, May 4, 2013, 4-May-13 or a spreadsheet's number.

    Of two-digit years the latest is meant that does not lie ahead.

    Raises
    ------
    CellError
        Where it is no day, or one that has not come.

    """
    found = _day(cell.strip(), today)
    if found is None:
        raise CellError("this is no date", EXAMPLE)
    if found > today:
        raise CellError("this day has not come yet", "check the year")
    return found


def _day(cell: str, today: date) -> date | None:
    if match := _COUNTED.fullmatch(cell):
        return FIRST_DAY + timedelta(days=int(match[1]))
    if match := _ISO.fullmatch(cell):
        year, month, day = match.groups()
    elif match := _NUMERIC.fullmatch(cell):
        month, _, day, year = match.groups()
    elif match := _DAY_FIRST.fullmatch(cell):
        day, month, year = match[1], _named(match[2]), match[3]
    elif match := _MONTH_FIRST.fullmatch(cell):
        month, day, year = _named(match[1]), match[2], match[3]
    else:
        return None
    return _made(_whole_year(year, today), int(month), int(day))


def _made(year: int, month: int, day: int) -> date:
    try:
        return date(year, month, day)
    except ValueError as error:
        raise CellError("there is no such day", f"{EXAMPLE}, the month first") from error


def _named(month: str) -> str:
    """The month's number; 0, which is none, for any other word."""
    short = month.lower()
    return str(_MONTHS.index(short) + 1 if short in _MONTHS else 0)


def _whole_year(year: str, today: date) -> int:
    if len(year) == 4:
        return int(year)
    near = today.year - today.year % 100 + int(year)
    return near if near <= today.year else near - 100


def completed_years(born: date, today: date) -> int:
    """Birthdays had so far, not counting the day of birth."""
    return today.year - born.year - ((today.month, today.day) < (born.month, born.day))
