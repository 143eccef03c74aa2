"""Days on a helmet list: the month first, and a question where a day could be meant otherwise."""

import re
from datetime import date

from helmwright.roster.cell import CellError
from helmwright.roster.day import read_day

_TWO_NUMBERS = re.compile(r"(\d{1,2})([/.-])(\d{1,2})\2(\d{4}|\d{2})")
_NO_DAY = re.compile(
    r"(?P<year>(?:19|20)\d{2})|(?P<month>\d{1,2})[/-](?P<of>(?:19|20)\d{2})"
    r"|(?P<name>[a-z]{3})[a-z]*\.?[ -]+(?P<when>(?:19|20)\d{2})",
    re.IGNORECASE,
)
_YEAR_ONLY = re.compile(r"(?:19|20)\d{2}(?:\.0+)?")


def read_helmet_day(cell: str, *, today: date) -> date:
    """A day such as 3/1/2024 (month first), 2024-03-01, Mar 1, 2024, or a spreadsheet's number.

    Parameters
    ----------
    cell
        As written.
    today
        The day may not lie after it.

    Raises
    ------
    CellError
        Where it is no day, has not come, or could be two days; the words ask which is meant.
    """
    text = cell.strip()
    if _YEAR_ONLY.fullmatch(text) or _NO_DAY.fullmatch(text):
        raise CellError("the day is missing", "write the whole date, such as 3/1/2024")
    match = _TWO_NUMBERS.fullmatch(text)
    if match and match[2] == "." and match[1] != match[3] and int(match[3]) <= 12:
        raise CellError(
            "with points between its numbers this may be month or day first",
            f"is it {_named(match[1], match[3])} or {_named(match[3], match[1])}?"
            f" Write {match[1]}/{match[3]}/{match[4]} where the month stands first",
        )
    if match and int(match[1]) > 12 and int(match[3]) <= 12:
        raise CellError(
            "there is no such month",
            f"is it {_named(match[3], match[1])}? Write {match[3]}/{match[1]}/{match[4]}",
        )
    return read_day(text, today=today)


def _named(month: str, day: str) -> str:
    try:
        return f"{date(2000, int(month), int(day)):%b} {int(day)}"
    except ValueError:
        return f"month {month}, day {day}"
