"""Puts tables between the markers of a page."""

from pathlib import Path

START, END = "<!-- study -->", "<!-- end of study -->"


class MissingMarkersError(ValueError):
    """A page has no place for the tables."""


def check(page: Path | None) -> None:
    """Refuse a page without markers before hours are spent on its tables.

    Raises
    ------
    MissingMarkersError
        Where the page does not have both markers.
    """
    if page is not None:
        _around(page)


def put(text: str, page: Path) -> None:
    """Put a text between the markers of a page, whole or not at all.

    Raises
    ------
    MissingMarkersError
        Where the page does not have both markers.
    """
    before, after = _around(page)
    beside = page.with_name(f".{page.name}.part")
    beside.write_text(
        f"{before}{START}\n\n{text.strip()}\n\n{END}{after}", encoding="utf-8", newline="\n"
    )
    beside.replace(page)


def _around(page: Path) -> tuple[str, str]:
    """What stands before and after the markers."""
    before, found, rest = page.read_text(encoding="utf-8").partition(START)
    _, closed, after = rest.partition(END)
    if not (found and closed):
        raise MissingMarkersError(f"{page.name} needs the lines {START!r} and {END!r}")
    return before, after
