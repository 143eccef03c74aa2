"""Quantities written for a person: inches as fractions, feet and inches, pounds."""

from fractions import Fraction

from helmwright.units.length import MM_PER_INCH
from helmwright.units.number import DENOMINATORS
from helmwright.units.weight import KG_PER_POUND


def inches(length_mm: float, *, denominator: int = 8, mark: str = "") -> str:
    """A length [mm] in inches with a reduced fraction, such as `22 5/8` or `7/8`.

    Parameters
    ----------
    length_mm
        Any length, negative ones too [mm].
    denominator
        Parts of an inch to round to, one of DENOMINATORS; halves go to the even part.
    mark
        What to put behind, such as ` in`.

    Raises
    ------
    ValueError
        If no tape has such parts.
    """
    if denominator not in DENOMINATORS:
        parts = ", ".join(str(each) for each in DENOMINATORS)
        raise ValueError(f"an inch is divided into {parts}, not into {denominator}")
    parts_count = round(length_mm / MM_PER_INCH * denominator)
    whole, rest = divmod(abs(parts_count), denominator)
    fraction = str(Fraction(rest, denominator)) if rest else ""
    written = " ".join(each for each in (str(whole) if whole else "", fraction) if each) or "0"
    return f"{'-' if parts_count < 0 else ''}{written}{mark}"


def feet_and_inches(length_mm: float) -> str:
    """A stature [mm] to the nearest inch, such as `5-11`."""
    feet, rest = divmod(round(length_mm / MM_PER_INCH), 12)
    return f"{feet}-{rest}"


def millimeters(length_mm: float, *, digits: int = 0) -> str:
    """A length [mm] with its unit, such as `575 mm`."""
    # Adding zero turns a rounded negative zero into a plain one.
    return f"{round(length_mm, digits) + 0.0:.{digits}f} mm"


def pounds(weight_kg: float) -> str:
    """A weight [kg] to the nearest pound, such as `205 lb`."""
    return f"{weight_kg / KG_PER_POUND:.0f} lb"
