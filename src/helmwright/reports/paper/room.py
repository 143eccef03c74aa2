"""Whether the words on the front of a card must stand closer to stay on their side."""

from collections.abc import Mapping
from math import ceil
from typing import Any

LETTERS = {"about": 46, "warnings": 80, "key": 92}
"""Letters of the longest line that surely holds what it is about, at the usual size."""

CHECK_LETTERS, CHECK_LINE, KEY_LINE = 86, 1.12, 0.9
"""The same for a check, and the height of lines of checks and of the key [lines]."""

LINE_MM = 4.0
TABLE_MM, CAPTION_MM = 47.0, 4.5
"""Heights of a line, of the list of zones and of a caption [mm]."""

ROOM = 35.8
"""Lines, drawings counted as such, that a front surely holds at the usual size.

Counted on some 300 cards of few and many words, of which none with fewer ran over.
"""


def is_crowded(front: Mapping[str, Any], scale: float) -> bool:
    """Whether a front may not hold its words at the usual size.

    Parameters
    ----------
    front
        What stands on it.
    scale
        Size on the card of a millimeter of head and helmet [mm].

    Notes
    -----
    Having the typesetter measure every front before it sets it would take as long as setting it.
    Where in doubt the words stand closer: that costs nobody a line.
    """
    above, beside, below = (section["height"] * scale for section in front["sections"])
    drawn = max(above, beside) + max(below + CAPTION_MM, TABLE_MM)
    said = sum(ceil(len(front[part]) / most) for part, most in LETTERS.items() if part != "key")
    key = KEY_LINE * ceil(len(front["key"]) / LETTERS["key"])
    checks = CHECK_LINE * sum(ceil(len(check) / CHECK_LETTERS) for check in front["checks"])
    return bool(said + bool(front["kit"]) + key + checks + drawn / LINE_MM > ROOM)
