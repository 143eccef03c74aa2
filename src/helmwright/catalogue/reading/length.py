"""Lengths as a sheet writes them: with their unit, and with a sign where heights may be below."""

import re

from helmwright.units import UnitsError, parse_length

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
