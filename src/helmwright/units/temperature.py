"""Temperatures of the air as people write them, in degrees Celsius."""

import re

from helmwright.units.length import ImplausibleError, NoUnitError
from helmwright.units.number import number, plain

PLAUSIBLE_TEMPERATURE_C = (-45.0, 60.0)
"""Air that a helmet is filled or worn in; a check on typing (assumed)."""

_WRITTEN = re.compile(
    r"(?P<sign>[-+]?) ?(?P<number>[\d.,]+) ?(?:°|deg\.? ?)?(?P<unit>[a-z]*)\.?", re.IGNORECASE
)
_SPELLINGS = {"f": "F", "fahrenheit": "F", "c": "C", "celsius": "C", "": ""}


def celsius_of(fahrenheit: float) -> float:
    """Degrees Celsius of degrees Fahrenheit."""
    return (fahrenheit - 32.0) / 1.8


def fahrenheit_of(celsius: float) -> float:
    """Degrees Fahrenheit of degrees Celsius."""
    return celsius * 1.8 + 32.0


def parse_temperature(text: str) -> float:
    """Degrees Celsius of a temperature with its unit: `32 F`, `-5 C`, `70°F`.

    Raises
    ------
    UnitsError
        If there is no number or no unit, or no helmet is worn in such air.

    Examples
    --------
    >>> parse_temperature("32 F")
    0.0
    """
    written = plain(text)
    found = _WRITTEN.fullmatch(written)
    unit = _SPELLINGS.get(found["unit"].lower()) if found else None
    if not found or unit is None:
        raise NoUnitError(f"{written!r} is no temperature; write it like 32 F or 0 C")
    value = number(found["number"]).value * (-1.0 if found["sign"] == "-" else 1.0)
    if not unit:
        raise NoUnitError(f"{written} has no unit; {written} F or {written} C?")
    celsius = celsius_of(value) if unit == "F" else value
    low, high = PLAUSIBLE_TEMPERATURE_C
    if low <= celsius <= high:
        return celsius
    other = celsius_of(value) if unit == "C" else value
    asked = f"; {value:g} {'F' if unit == 'C' else 'C'}?" if low <= other <= high else ""
    raise ImplausibleError(
        f"{value:g} {unit} is no air for a helmet, which runs from {fahrenheit_of(low):.0f} to "
        f"{fahrenheit_of(high):.0f} F ({low:.0f} to {high:.0f} C){asked}"
    )
