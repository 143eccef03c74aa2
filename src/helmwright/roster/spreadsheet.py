"""What a spreadsheet does to a fraction: dates and day numbers where lengths were typed."""

import re

_NUMERIC = re.compile(r"(?P<a>\d{1,2})(?P<s>[/.-])(?P<b>\d{1,2})(?P=s)(?P<y>\d{4}|\d{2})")
_ISO = re.compile(r"(?P<y>\d{4})-(?P<a>\d{1,2})-(?P<b>\d{1,2})(?:[ T].*)?")
_DAY_NUMBER = re.compile(r"[345]\d{4}(?:\.0+)?")
_DENOMINATORS = (2, 4, 8, 16, 32)


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
