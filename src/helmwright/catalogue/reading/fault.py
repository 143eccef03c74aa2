"""What is wrong with a sheet, on which line, and what would be right."""

import re
import tomllib
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class SheetFault:
    """One thing to put right.

    Parameters
    ----------
    line
        Line of the file, from 1.
    key
        Where on the sheet, in words: "shell 2, chart".
    wrong, right
        What is wrong, and what would be right.
    column
        Place on the line, from 1, where that is known.
    """

    line: int
    key: str
    wrong: str
    right: str
    column: int | None = None

    def __str__(self) -> str:
        where = f"line {self.line}" + (f", column {self.column}" if self.column else "")
        return f"{where}: {self.told}"

    @property
    def told(self) -> str:
        """The fault for somebody who has no file with lines before them."""
        stop = "" if self.wrong.endswith("?") else "."
        return f"{self.key + ': ' if self.key else ''}{self.wrong}{stop} {self.right}."


class SheetError(ValueError):
    """A sheet that cannot be used, with all its faults in the order of their lines."""

    def __init__(self, name: str, faults: tuple[SheetFault, ...]) -> None:
        self.name = name
        self.faults = faults
        count = "1 thing" if len(faults) == 1 else f"{len(faults)} things"
        super().__init__("\n".join([f"{name}: {count} to put right", *map(str, faults)]))


_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")

_PLAIN_WORDS = (
    (
        "Expected '='",
        "a word without an equals sign",
        'Write each line as key = value, for example model = "Ouzel"',
    ),
    ("Cannot overwrite", "the same key is written twice", "Keep one of the two lines"),
    (
        "Cannot declare",
        "the same section is opened twice",
        "Keep one; shells, pads and other lists take double brackets, such as [[shell]]",
    ),
    (
        "Unclosed array",
        "a list has no end, or a comma is missing in it",
        "Put commas between the items and ] after the last one",
    ),
    (
        "Unterminated string",
        "a text has no closing quotation mark",
        'Put " at both ends of the text',
    ),
    (
        "Illegal character '\\n'",
        "a text has no closing quotation mark on its line",
        'Put " at both ends of the text',
    ),
    (
        "Invalid value",
        "what follows the equals sign is neither a number, a text, a list, nor true or false",
        'Put texts and lengths in quotation marks, for example "7/8 in"',
    ),
    (
        "Expected newline or end of document",
        "there is more on the line than one value",
        'One key and value to a line; put texts and lengths in quotation marks, such as "7/8 in"',
    ),
)


def syntax_fault(error: tomllib.TOMLDecodeError, text: str) -> SheetFault:
    """The parser's complaint in plain words."""
    message = str(error)
    found = _PLACE.search(message)
    last = max(text.rstrip().count("\n") + 1, 1)
    line, column = (int(found[1]), int(found[2])) if found and found[1] else (last, None)
    for start, wrong, right in _PLAIN_WORDS:
        if message.startswith(start):
            return SheetFault(line, "", wrong, right, column)
    reason = _PLACE.sub("", message)
    return SheetFault(
        line,
        "",
        f"this cannot be read as TOML ({reason})",
        "Compare the line with the example in docs/reference/model-sheet.md",
        column,
    )
