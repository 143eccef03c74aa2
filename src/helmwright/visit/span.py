"""A length as it is read at a check: inches with fractions, millimeters, or finger widths."""

import re

from helmwright.fit.sight import FINGER
from helmwright.units import MM_PER_INCH, UnitsError, inches, parse_length
from helmwright.visit.check import Length

_FINGERS = re.compile(r"(?P<number>.+?) ?(?:finger|fingers|finger widths?|f)", re.IGNORECASE)


class SpanError(ValueError):
    """A length that a check cannot take; the message says what would be right."""


def read_span(text: str, length: Length) -> float:
    """The length [mm] of what a person typed at a check.

    Parameters
    ----------
    text
        For example "1 1/8", "1 1/8 in", "28 mm", "1 finger", "1 1/2 fingers". A bare number is in
        inches.
    length
        What the check reads; what lies outside its low and high is refused.

    Raises
    ------
    SpanError
        Where it is no such length.

    Notes
    -----
    A finger width is `helmwright.fit.sight.FINGER`, 3/4 in, which is assumed. A ruler is better.
    """
    found = _FINGERS.fullmatch(text.strip())
    if found and not length.fingers:
        raise SpanError(f'"{text}": this check is read with a ruler, such as "1 1/8"')
    written = found["number"] if found else text.strip()
    if re.fullmatch(r"0+(?:\.0*)?(?: ?(?:in|mm|cm|\"))?", written):
        value = 0.0
    else:
        value = _parsed(written, text)
    value *= FINGER.value / MM_PER_INCH if found else 1.0
    if not length.low_mm <= value <= length.high_mm:
        low, high = inches(length.low_mm), inches(length.high_mm)
        raise SpanError(f'"{text}" is out of range. Write a length from {low} to {high} in')
    return value


def _parsed(written: str, text: str) -> float:
    try:
        return parse_length(written, "in")
    except UnitsError as error:
        example = 'Write inches, such as "1 1/8", or finger widths, such as "1 finger"'
        stop = "" if str(error).endswith(("?", ".")) else "."
        said = f"{error}" if f"{error}".startswith(repr(text.strip())) else f'"{text}": {error}'
        raise SpanError(f"{said}{stop} {example}") from None
