"""Body weights as people write them, in kilograms."""

import re

from helmwright.units.length import ImplausibleError, NoUnitError, UnknownUnitError
from helmwright.units.number import number, plain, refuse_date

KG_PER_POUND = 0.45359237
"""Exact since 1959."""

WEIGHT_UNITS: dict[str, float] = {"lb": KG_PER_POUND, "kg": 1.0}
"""Units of weight that a column may have, and how many kg each is."""

PLAUSIBLE_WEIGHT_KG = (30.0, 230.0)
"""Weight of any grown player; a check on typing (assumed)."""

PLAUSIBLE_YOUTH_WEIGHT_KG = (15.0, 230.0)
"""Weight of any player from 8 years up; a check on typing (assumed)."""

_SPELLINGS = {
    "lb": "lb",
    "lb.": "lb",
    "lbs": "lb",
    "lbs.": "lb",
    "#": "lb",
    "pound": "lb",
    "pounds": "lb",
    "kg": "kg",
    "kg.": "kg",
    "kgs": "kg",
    "kilogram": "kg",
    "kilograms": "kg",
}
_UNIT_AT_END = re.compile(r"(?P<number>.*?[\d.]) ?(?P<unit>#|[a-z]+\.?)", re.IGNORECASE)


def parse_weight(
    text: str,
    unit: str | None = None,
    *,
    plausible: tuple[float, float] = PLAUSIBLE_WEIGHT_KG,
) -> float:
    """Kilograms of a body weight: `205`, `205 lb`, `205 lbs`, `205#`, `93 kg`.

    Parameters
    ----------
    text
        As written.
    unit
        Unit of a bare number, one of WEIGHT_UNITS.
    plausible
        Between which it is a player's weight [kg].

    Raises
    ------
    UnitsError
        If the number or its unit cannot be read, or it is no weight of a player in that unit.
    """
    if unit is not None and unit not in WEIGHT_UNITS:
        raise UnknownUnitError(f"{unit!r} is no unit of weight; there are lb and kg")
    written = plain(text)
    refuse_date(written, "205")
    chosen = unit
    if match := _UNIT_AT_END.fullmatch(written):
        if match["unit"].lower() not in _SPELLINGS:
            raise UnknownUnitError(f"{written!r}: {match['unit']!r} is no weight; write lb or kg")
        written, chosen = match["number"].strip(), _SPELLINGS[match["unit"].lower()]
    value = number(written).value
    if chosen is None:
        raise NoUnitError(f"{written} has no unit; {written} lb or {written} kg?")
    return _plausible(written, value, chosen, plausible)


def _plausible(written: str, value: float, unit: str, plausible: tuple[float, float]) -> float:
    low, high = plausible
    weight = value * WEIGHT_UNITS[unit]
    if low <= weight <= high:
        return weight
    other = "kg" if unit == "lb" else "lb"
    if low <= value * WEIGHT_UNITS[other] <= high:
        asked = f"{written} {other}"
        raise ImplausibleError(f"{written} {unit} is no weight of a player; {asked}?", asked)
    raise ImplausibleError(
        f"{written} {unit} is no weight of a player, which runs from "
        f"{low / KG_PER_POUND:.0f} to {high / KG_PER_POUND:.0f} lb ({low:.0f} to {high:.0f} kg)"
    )
