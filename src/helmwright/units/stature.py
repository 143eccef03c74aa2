"""Statures as people write them, in millimeters."""

import re

from helmwright.units.length import (
    MM_PER_INCH,
    ImplausibleError,
    NoUnitError,
    parse_length,
)
from helmwright.units.number import UnreadableError, number, plain, refuse_date

PLAUSIBLE_STATURE_MM = (1200.0, 2300.0)
"""Stature of any grown player; a check on typing (assumed)."""

PLAUSIBLE_YOUTH_STATURE_MM = (1000.0, 2300.0)
"""Stature of anybody from 8 years up; a check on typing (assumed)."""

_FEET = re.compile(
    r"(?P<feet>\d+) ?(?:'|ft\.?|foot|feet) ?-? ?"
    r"(?:(?P<inches>\d.*?) ?(?:\"|''|in\.?|inch|inches)?)?",
    re.IGNORECASE,
)
_DASHED = re.compile(r"(?P<feet>[3-7]) ?- ?(?P<inches>\d+(?:\.\d+|[ -]\d+/\d+)?)(?: ?\")?")
_SPACED = re.compile(r"([3-7]) (\d{1,2})")
_DOTTED = re.compile(r"([4-7])\.(\d{1,2})")


def parse_stature(
    text: str,
    unit: str | None = None,
    *,
    plausible: tuple[float, float] = PLAUSIBLE_STATURE_MM,
) -> float:
    """Millimeters of a stature: `5'11"`, `5-11`, `5 ft 11 1/2 in`, `71 in`, `180 cm`, `1.80 m`.

    Parameters
    ----------
    text
        As written.
    unit
        Unit of a bare number; see `parse_length`.
    plausible
        Between which it is a stature [mm].

    Raises
    ------
    UnitsError
        As `parse_length`; feet with twelve inches or more are refused.
    """
    written = plain(text)
    refuse_date(written, "5-11")
    match = _FEET.fullmatch(written) or _DASHED.fullmatch(written)
    if match:
        return _from_feet(written, int(match["feet"]), match["inches"], plausible)
    if unit is None and (dotted := _DOTTED.fullmatch(written)):
        feet, inches = dotted.groups()
        raise NoUnitError(
            f"{written!r} may be feet and inches or feet with decimals; {feet}-{inches}?",
            f"{feet}-{inches}",
        )
    if spaced := _SPACED.fullmatch(written):
        asked = "-".join(spaced.groups())
        raise UnreadableError(f"{written!r} has no mark between feet and inches; {asked}?", asked)
    return parse_length(written, unit, plausible, what="stature")


def _from_feet(
    written: str, feet: int, inches: str | None, plausible: tuple[float, float]
) -> float:
    over = number(inches).value if inches else 0.0
    if over >= 12.0:
        raise UnreadableError(f"{written!r}: a foot has 12 inches, so {over:g} cannot follow it")
    stature = (12.0 * feet + over) * MM_PER_INCH
    if not plausible[0] <= stature <= plausible[1]:
        low, high = ("-".join(map(str, divmod(int(end / MM_PER_INCH), 12))) for end in plausible)
        raise ImplausibleError(f"{written!r} is no stature; it runs from {low} to {high}")
    return stature
