"""Lengths as a sheet writes them: with their unit, and with a sign where heights may be below."""

import re

from helmwright.units import NoUnitError, UnitsError, parse_length

_ZERO = re.compile(r"[-−]?0+(?:\.0*)? ?(?:mm|cm|in|inch|inches|\")?")


def sheet_length_mm(text: str) -> float:
    """The length [mm].

    Raises
    ------
    UnitsError
        Where the text is no length with a unit; its message says what would be right.
    """
    stripped = text.strip()
    if _ZERO.fullmatch(stripped):
        return 0.0
    if stripped.startswith(("-", "−")):
        return -parse_length(stripped[1:])
    return parse_length(stripped)


def likely_length(text: str, low_mm: float, high_mm: float) -> str | None:
    """What was probably meant by a length that is out of its interval; None where nothing is."""
    try:
        parse_length(text, expected=(low_mm, high_mm))
    except UnitsError as error:
        return error.suggestion
    return None


def bare_number(text: str, low_mm: float, high_mm: float) -> str:
    """What is wrong with a number without a unit; asks only of units in which it would do."""
    stripped, sign = text.strip(), 1.0
    if stripped.startswith(("-", "−")):
        stripped, sign = stripped[1:], -1.0
    ends = sorted((sign * low_mm, sign * high_mm))
    try:
        parse_length(stripped, expected=(ends[0], ends[1]))
    except NoUnitError as error:
        asked = str(error).partition("; ")[2] if str(error).endswith("?") else ""
        return f"{text.strip()} has no unit" + (f"; {asked}" if asked and sign > 0 else "")
    except UnitsError as error:
        return str(error)
    return f"{text.strip()} has no unit"
