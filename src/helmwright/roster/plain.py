"""Text out of a file, as it may be printed on anybody's screen."""

import unicodedata

JOINERS = "\N{ZERO WIDTH NON-JOINER}\N{ZERO WIDTH JOINER}"
"""Marks without a shape that some scripts cannot be written without."""


def printable(text: str) -> str:
    """The text in one line, without what a terminal would obey instead of show."""
    shown = (" " if letter.isspace() else letter for letter in text if _is_shown(letter))
    return " ".join("".join(shown).split())


def _is_shown(letter: str) -> bool:
    hidden = unicodedata.category(letter) in ("Cc", "Cf", "Cs")
    return letter.isspace() or letter in JOINERS or not hidden
