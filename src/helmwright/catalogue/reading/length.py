"""Lengths as a sheet writes them, always with their unit."""

import re

_LENGTH = re.compile(
    r"(?P<sign>-)?\s*(?:(?P<whole>\d+)[ -]+)?(?P<over>\d+)/(?P<under>\d+)\s*(?:in|\"|inch|inches)"
    r"|(?P<minus>-)?\s*(?P<number>\d+(?:\.\d+)?)\s*(?P<unit>mm|cm|in|\"|inch|inches)"
)


def millimeters(text: str) -> float | None:
    """The length [mm], or None where the text is no length with a unit."""
    found = _LENGTH.fullmatch(text.strip())
    if found is None:
        return None
    if found["number"]:
        size = {"mm": 1.0, "cm": 10.0}.get(found["unit"], 25.4)
        return float(found["number"]) * size * (-1 if found["minus"] else 1)
    if int(found["under"]) == 0:
        return None
    inches = int(found["whole"] or 0) + int(found["over"]) / int(found["under"])
    return inches * 25.4 * (-1 if found["sign"] else 1)
