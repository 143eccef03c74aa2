"""Elevations above the sea as people write them, in meters."""

import re

from helmwright.units.length import ImplausibleError, NoUnitError
from helmwright.units.number import number, plain

METERS_PER_FOOT = 0.3048
"""Exact since 1959."""

PLAUSIBLE_ELEVATION_M = (-450.0, 5000.0)
"""Where games are played, and well beyond; a check on typing."""

_WRITTEN = re.compile(r"(?P<sign>-?) ?(?P<number>[\d.,]+) ?(?P<unit>[a-z']*)\.?", re.IGNORECASE)
_SPELLINGS = {
    "ft": METERS_PER_FOOT,
    "feet": METERS_PER_FOOT,
    "foot": METERS_PER_FOOT,
    "'": METERS_PER_FOOT,
    "m": 1.0,
    "meter": 1.0,
    "meters": 1.0,
    "metre": 1.0,
    "metres": 1.0,
}


def parse_elevation(text: str) -> float:
    """Meters of an elevation with its unit: `5280 ft`, `1600 m`.

    Raises
    ------
    UnitsError
        If there is no number or no unit, or nobody plays there.

    Examples
    --------
    >>> round(parse_elevation("5280 ft"))
    1609
    """
    written = plain(text)
    found = _WRITTEN.fullmatch(written)
    if not found or (found["unit"] and found["unit"].lower() not in _SPELLINGS):
        raise NoUnitError(f"{written!r} is no elevation; write it like 5280 ft or 1600 m")
    if not found["unit"]:
        raise NoUnitError(f"{written} has no unit; {written} ft or {written} m?")
    value = number(found["number"]).value * (-1.0 if found["sign"] else 1.0)
    meters = value * _SPELLINGS[found["unit"].lower()]
    low, high = PLAUSIBLE_ELEVATION_M
    if not low <= meters <= high:
        raise ImplausibleError(
            f"{written} is no elevation of a field, which runs from "
            f"{low / METERS_PER_FOOT:.0f} to {high / METERS_PER_FOOT:.0f} ft ({low:.0f} to "
            f"{high:.0f} m)"
        )
    return meters
