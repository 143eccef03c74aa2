"""Parts as people name them: where they go, and what is written on the bag."""

from django.utils.html import format_html
from django.utils.safestring import SafeString

from helmwright.web.templatetags.house import inch_parts, inches

PLACES = {
    "sides": "side pad, left or right",
    "jaw": "jaw pad, left or right",
    "shell": "helmet, shell",
    "guard": "face guard",
    "strap": "chin strap",
}


def place_words(place: str) -> str:
    """Where a part goes: "front pad", "helmet, shell"."""
    return PLACES.get(place) or f"{place} pad"


def size_words(size: str, thickness_mm: float | None) -> SafeString:
    """What is on the bag, its fraction built; as written where it is no length in inches."""
    if thickness_mm is None or not is_written_in_inches(size, thickness_mm):
        return format_html('<span class="numeral">{}</span>', size)
    return inches(thickness_mm)


def is_written_in_inches(size: str, thickness_mm: float) -> bool:
    """Whether the bag says the thickness in whole sixteenths of an inch."""
    whole, numerator, denominator = inch_parts(thickness_mm)
    said = size.removesuffix("in").strip()
    fraction = f"{numerator}/{denominator}" if numerator else ""
    return said == (f"{whole} {fraction}".strip() if whole else fraction)
