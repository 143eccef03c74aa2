"""The few shapes of Markdown that the generated pages are made of."""

from collections.abc import Iterable

GENERATED = "_This page is generated from the code; `python3 start.py docs` writes it anew._"


def document(title: str, *parts: str) -> str:
    """A page: its title, the note that it is generated, its parts, and one final newline."""
    return "\n\n".join([f"# {title}", GENERATED, *(part.strip() for part in parts)]) + "\n"


def table(heads: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """A table; bars and line ends within a cell are made harmless."""
    heads = list(heads)
    lines = [heads, ["---"] * len(heads), *rows]
    return "\n".join("| " + " | ".join(map(_cell, line)) + " |" for line in lines)


def first_sentence(docstring: str | None) -> str:
    """The first line of a docstring, or nothing."""
    return (docstring or "").strip().partition("\n")[0]


def _cell(text: str) -> str:
    return " ".join(text.split()).replace("|", "\\|")
