"""Weights off a kitchen scale as people write them, in kilograms."""

import re

from helmwright.units.length import ImplausibleError, NoUnitError, UnknownUnitError
from helmwright.units.number import number, plain
from helmwright.units.weight import KG_PER_POUND

KG_PER_OUNCE = KG_PER_POUND / 16.0

MOST_ON_SCALE_KG = 25.0
"""More than any kitchen scale reads; a check on typing (assumed)."""

SCALE_UNITS: dict[str, float] = {"lb": KG_PER_POUND, "oz": KG_PER_OUNCE, "g": 0.001, "kg": 1.0}
"""Units of a kitchen scale, and how many kg each is."""

_SPELLINGS = {
    **dict.fromkeys(("lb", "lbs", "pound", "pounds", "#"), "lb"),
    **dict.fromkeys(("oz", "ounce", "ounces"), "oz"),
    **dict.fromkeys(("g", "gr", "gram", "grams"), "g"),
    **dict.fromkeys(("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"), "kg"),
}
_PART = re.compile(
    r"(?P<number>\d[\d ./-]*?|\d*[.,]\d+) ?(?P<unit>#|[a-z]+)\.?(?: |$)", re.IGNORECASE
)


def pounds_and_ounces(weight_kg: float) -> str:
    """A weight [kg] to the nearest ounce, such as `2 lb 3 oz`, `2 lb` or `8 oz`."""
    pounds, ounces = divmod(round(weight_kg / KG_PER_OUNCE), 16)
    parts = (f"{pounds} lb" if pounds else "", f"{ounces} oz" if ounces or not pounds else "")
    return " ".join(part for part in parts if part)


def parse_scale(text: str) -> float:
    """Kilograms of a weight on a kitchen scale: `2 lb`, `2 lb 3 oz`, `12.5 oz`, `500 g`, `1.2 kg`.

    Raises
    ------
    UnitsError
        If the number or its unit cannot be read, or no kitchen scale reads so much.

    Examples
    --------
    >>> round(parse_scale("2 lb 3 oz"), 3)
    0.992
    """
    written = plain(text)
    parts = list(_PART.finditer(written))
    if not parts or "".join(part[0] for part in parts) != written:
        number(written)  # what is no number at all says so itself
        raise NoUnitError(f"{written} has no unit; write lb, oz, g or kg behind it")
    for part in parts:
        if part["unit"].lower() not in _SPELLINGS:
            raise UnknownUnitError(
                f"{written!r}: {part['unit']!r} is no weight of a kitchen scale; write lb, oz, g "
                "or kg"
            )
    units = [_SPELLINGS[part["unit"].lower()] for part in parts]
    if len(parts) > 1 and units != ["lb", "oz"]:
        raise UnknownUnitError(
            f"{written!r}: only pounds and ounces go together, such as 2 lb 3 oz"
        )
    values = [number(part["number"].strip()).value for part in parts]
    weight = sum(value * SCALE_UNITS[unit] for value, unit in zip(values, units, strict=True))
    if weight > MOST_ON_SCALE_KG:
        raise ImplausibleError(
            f"{written} is more than a kitchen scale reads, {MOST_ON_SCALE_KG / KG_PER_POUND:.0f} "
            f"lb ({MOST_ON_SCALE_KG:.0f} kg)"
        )
    return float(weight)
