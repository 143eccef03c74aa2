"""Lengths and measures in the words of the page: inches first, as fractions."""

from math import ceil

from helmwright.anatomy import measure_of, spoken_name
from helmwright.catalogue.cell import AIR
from helmwright.units import inches as written_inches


def fraction(length_mm: float, *, denominator: int = 8) -> str:
    """A length as a fraction of inches without its unit: "22 5/8"."""
    return written_inches(length_mm, denominator=denominator)


def inches(length_mm: float, *, denominator: int = 16) -> str:
    """A length as a fraction of inches with its unit: "22 5/8 in"."""
    return written_inches(length_mm, denominator=denominator, mark=" in")


def thickness(pad_mm: float, label: str) -> str:
    """A pad's thickness in inches, as on the bag where that says inches; "air" for a cell."""
    if label == AIR:
        return AIR
    plain = label.strip().removesuffix('"').removesuffix(" in").strip()
    on_bag = plain.replace(" ", "").replace("/", "").isdigit() and "/" in plain
    return plain if on_bag or plain == "1" else fraction(pad_mm, denominator=16)


def measure_words(key: str) -> str:
    """A measure's name for a person, short enough for a column of 25."""
    return spoken_name(key)


def minutes_words(key: str, heads: int = 1) -> str:
    """What taking a measure twice on so many heads takes: "about 3 minutes"."""
    minutes = ceil(measure_of(key).minutes.value * heads)
    return "about 1 minute" if minutes == 1 else f"about {minutes} minutes"
