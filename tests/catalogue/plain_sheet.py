"""A small sheet without a fault, to be broken line by line."""

from pathlib import Path

import pytest

from helmwright.catalogue import SheetError, parse_sheet

PLAIN = (Path(__file__).parent / "plain.toml").read_text(encoding="utf-8")


def edited(changes: dict[int, str]) -> str:
    """The plain sheet with some lines, counted from 1, replaced."""
    lines = PLAIN.splitlines()
    return "\n".join(changes.get(number, line) for number, line in enumerate(lines, 1))


def complaints(text: str) -> list[str]:
    """What the reader says of a text that has faults."""
    with pytest.raises(SheetError) as caught:
        parse_sheet(text, name="plain.toml")
    return [str(fault) for fault in caught.value.faults]
