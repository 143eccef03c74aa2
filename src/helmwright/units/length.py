"""Lengths as people write them, in millimeters."""

import re
from math import pi

from helmwright.units.number import Number, UnitsError, UnreadableError, number, plain, refuse_date

MM_PER_INCH = 25.4
"""Exact since 1959."""

MM_PER_HAT_SIZE = pi * MM_PER_INCH
"""A United States hat size is the circumference in inches over pi."""

UNITS: dict[str, float] = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH}
"""Units of length that a column or a field may have, and how many mm each is."""

_SPELLINGS = {
    '"': "in",
    "''": "in",
    "in": "in",
    "in.": "in",
    "ins": "in",
    "inch": "in",
    "inches": "in",
    "cm": "cm",
    "cm.": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "centimetre": "cm",
    "centimetres": "cm",
    "mm": "mm",
    "mm.": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "m": "m",
    "meter": "m",
    "meters": "m",
    "metre": "m",
    "metres": "m",
}
_UNIT_AT_END = re.compile(r"(?P<number>.*?[\d.]) ?(?P<unit>\"|''|[a-z]+\.?)", re.IGNORECASE)
_HAT_BEFORE = re.compile(r"us hat(?: size)?:? (?P<number>.+)", re.IGNORECASE)
_HAT_BEHIND = re.compile(r"(?P<number>.+?) us hat(?: size)?", re.IGNORECASE)
_ANY_HAT = re.compile(r"\bhat\b", re.IGNORECASE)


class NoUnitError(UnitsError):
    """A bare number came without a unit to take."""


class UnknownUnitError(UnitsError):
    """A unit was written that is no unit of this quantity."""


class HatSizeError(UnitsError):
    """A hat size that is not named as a United States one."""


class ImplausibleError(UnitsError):
    """The number is not this quantity in that unit."""


def parse_length(
    text: str,
    unit: str | None = None,
    expected: tuple[float, float] | None = None,
    *,
    what: str = "length",
) -> float:
    """Millimeters of a length as a person writes it.

    Parameters
    ----------
    text
        For example `22 5/8`, `22-5/8 in`, `22.625"`, `22⅝`, `57.5 cm`, `57,5 cm`, `575 mm`,
        `7 1/4 US hat`.
    unit
        Unit of a bare number, one of UNITS; a unit in the text goes before it.
    expected
        Smallest and largest plausible value [mm]; None accepts any length.
    what
        What is being read, for the message.

    Returns
    -------
    float
        The length [mm].

    Raises
    ------
    UnreadableError, MissingSpaceError, SpreadsheetDateError, DecimalCommaError
        If the number cannot be taken as written.
    NoUnitError, UnknownUnitError, HatSizeError
        If its unit cannot.
    ImplausibleError
        If it is not plausible in its unit; the message asks about the unit in which it would be.

    Examples
    --------
    >>> round(parse_length('22 5/8"'), 2)
    574.67
    """
    if unit is not None and unit not in UNITS:
        raise UnknownUnitError(f"{unit!r} is no unit here; there are {', '.join(UNITS)}")
    written = plain(text)
    refuse_date(written)
    if _ANY_HAT.search(written):
        value = _hat_number(written)
        return _checked(value, MM_PER_HAT_SIZE, "US hat", expected, what)
    value, own_unit = _split(written)
    chosen = own_unit or unit
    if chosen is None:
        raise NoUnitError(*_unit_question(value, expected, what))
    return _checked(value, UNITS[chosen], chosen, expected, what)


def _hat_number(written: str) -> Number:
    match = _HAT_BEFORE.fullmatch(written) or _HAT_BEHIND.fullmatch(written)
    if not match:
        raise HatSizeError(
            f"{written!r}: hat sizes differ between countries; write 7 1/4 US hat if it is a "
            "United States size, or measure"
        )
    return number(match["number"])


def _split(written: str) -> tuple[Number, str | None]:
    match = _UNIT_AT_END.fullmatch(written)
    if not match:
        return number(written), None
    spelled = match["unit"].lower()
    if spelled not in _SPELLINGS:
        raise UnknownUnitError(
            f"{written!r}: {match['unit']!r} is no unit of length here; write in, cm or mm"
        )
    return number(match["number"].strip()), _SPELLINGS[spelled]


def _checked(
    value: Number, mm_per_unit: float, unit: str, expected: tuple[float, float] | None, what: str
) -> float:
    length = value.value * mm_per_unit
    if not length > 0.0:
        raise UnreadableError(f"{shown(value)} {unit} is no {what}: a length is more than 0")
    if expected is not None and not expected[0] <= length <= expected[1]:
        raise ImplausibleError(*_implausible(value, unit, expected, what))
    return length


def _implausible(
    value: Number, unit: str, expected: tuple[float, float], what: str
) -> tuple[str, str | None]:
    other = [each for each in _possible(value, expected) if each != f"{shown(value)} {unit}"]
    opening = f"{shown(value)} {unit} is no {what}"
    if other:
        return f"{opening}; {' or '.join(other)}?", other[0]
    low, high = expected
    inch_range = f"{low / MM_PER_INCH:.1f} to {high / MM_PER_INCH:.1f} in"
    cm_range = f"{low / 10:.0f} to {high / 10:.0f} cm"
    return f"{opening}, which runs from {inch_range} ({cm_range}); measure again", None


def _unit_question(
    value: Number, expected: tuple[float, float] | None, what: str
) -> tuple[str, str | None]:
    # Nobody writes centimeters in fractions.
    units = ("in",) if value.has_fraction else ("in", "cm")
    asked = _possible(value, expected) if expected else [f"{shown(value)} {u}" for u in units]
    if asked:
        return (
            f"{shown(value)} has no unit; {' or '.join(asked)}?",
            asked[0] if len(asked) == 1 else None,
        )
    return f"{shown(value)} has no unit, and is no {what} in inches, cm or mm; measure again", None


def _possible(value: Number, expected: tuple[float, float]) -> list[str]:
    # Nobody takes a head in meters, and nobody writes millimeters in fractions.
    likely = ("in",) if value.has_fraction else ("in", "cm", "mm")
    units = {**{key: UNITS[key] for key in likely}, "US hat": MM_PER_HAT_SIZE}
    # A hat size is an eighth, near 7: any other number would make an unlikely question.
    if not 5.0 <= value.value <= 9.0:
        del units["US hat"]
    low, high = expected
    return [
        f"{shown(value)} {unit}" for unit, mm in units.items() if low <= value.value * mm <= high
    ]


def shown(value: Number) -> str:
    """A number as a person would write it again."""
    if not value.has_fraction:
        return f"{value.value:g}"
    whole, part = divmod(value.value, 1.0)
    above, below = part.as_integer_ratio()
    return f"{int(whole)} {above}/{below}" if whole else f"{above}/{below}"
