"""Plain text of a given width: wrapped paragraphs, columns, rules."""

import textwrap
from collections.abc import Iterable, Sequence
from itertools import pairwise

_UNITS = ("in", "mm", "of", "kPa", "lb", "N")


def wrapped(text: str, width: int, *, indent: str = "", hanging: str | None = None) -> list[str]:
    """Lines no longer than the width; fractions stay with their whole number."""
    glued = _glue(text)
    lines = textwrap.wrap(
        glued,
        max(width, 20),
        initial_indent=indent,
        subsequent_indent=indent if hanging is None else hanging,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return [line.replace("\u00a0", " ") for line in lines] or [""]


def bullets(items: Iterable[str], width: int) -> list[str]:
    """Each item as a wrapped paragraph behind a dash."""
    return [line for item in items for line in wrapped(item, width, indent="  - ", hanging="    ")]


def cut(text: str, width: int) -> str:
    """The text, or as much as fits with two dots after it."""
    return text if len(text) <= width else f"{text[: max(width - 2, 1)]}.."


def columns(cells: Sequence[str], widths: Sequence[int]) -> str:
    """Cells side by side, each cut to its width; the last one runs free."""
    body = [f"{cut(cell, width):<{width}}" for cell, width in zip(cells, widths, strict=False)]
    return " ".join([*body, *cells[len(widths) :]]).rstrip()


def heading(text: str, width: int) -> list[str]:
    """A heading with a rule of its length below it."""
    lines = wrapped(text, width)
    return ["", *lines, "-" * max(len(line) for line in lines)]


def title(text: str, width: int) -> list[str]:
    """A heading without a rule, for a page of many short sections."""
    return ["", *wrapped(text, width)]


def _glue(text: str) -> str:
    """Ties a fraction to the number before it and to the unit behind it."""
    words = text.split(" ")
    glued = words[0]
    for before, word in pairwise(words):
        fraction = "/" in word and word[0].isdigit() and before[-1:].isdigit()
        unit = before[-1:].isdigit() and word.strip(".,;)") in _UNITS
        hundred = before == "of" and word.startswith("100")
        moment = before == "N" and word.strip(".,;)") == "m"
        glued += ("\u00a0" if fraction or unit or hundred or moment else " ") + word
    return glued
