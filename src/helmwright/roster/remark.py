"""What is said about a row: a problem keeps it from being answered, a notice does not."""

from dataclasses import dataclass


class RosterError(ValueError):
    """The file as a whole cannot be read as a roster; the message says what would be right."""


@dataclass(frozen=True, slots=True)
class Remark:
    """One thing about one cell, worded for the person who can put it right.

    Parameters
    ----------
    row
        Row number as a spreadsheet shows it; 0 for the file as a whole.
    column
        The column's own heading.
    value
        What the cell holds.
    wrong
        What is wrong with it.
    right
        What would be right.
    who
        The player in that row, where the row says.
    number
        The jersey number in that row, likewise.

    """

    row: int
    column: str
    value: str
    wrong: str
    right: str
    who: str = ""
    number: str = ""

    @property
    def place(self) -> str:
        """Where to look."""
        named = f" ({self.who})" if self.who else ""
        parts = [f"row {self.row}{named}"] if self.row else []
        return ", ".join([*parts, self.column] if self.column else parts) or "the file"

    @property
    def words(self) -> str:
        """What is wrong and what would be right, for somebody who sees the cell."""
        return f"{_sentence(self.wrong)}{self._tail}"

    @property
    def _tail(self) -> str:
        return f" {_sentence(self.right)}" if self.right else ""

    def __str__(self) -> str:
        held = f' "{self.value}"' if self.value else ""
        return f"{_sentence(self.place + held + ': ' + self.wrong)}{self._tail}"


def _sentence(words: str) -> str:
    """The words with a stop, unless they bring their own."""
    capital = words[:1].upper() + words[1:]
    return capital if words.endswith((".", "?", "!")) else f"{capital}."
