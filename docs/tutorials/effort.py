"""How long a person is at the keyboard to follow a tutorial, counted key by key from its page.

    python -m docs.tutorials.effort docs/tutorials/a-youth-team.md

Every command, every answer at a prompt and every cell of a roster that the page gives is counted
as fields and keystrokes, and turned into time by the keystroke-level model (Card, Moran and Newell
1980): keys, pauses to think, pointing, and hands between mouse and keyboard. Reading what the
screen says is added, for whoever does it the first time.
"""

import csv
import shlex
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields
from itertools import groupby
from pathlib import Path

from docs.tutorials.blocks import BLOCK, answers_of
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, CARD_1980

KEY = Figure(0.28, "s", CARD_1980, note="Average non-secretary typist, 40 words a minute.")
SLOWEST_KEY = Figure(1.20, "s", CARD_1980, note="Worst typist, unfamiliar with the keyboard.")
POINT = Figure(1.10, "s", CARD_1980, note="Pointing with a mouse.")
HAND = Figure(0.40, "s", CARD_1980, note="A hand from keyboard to mouse, or back.")
PAUSE = Figure(1.35, "s", CARD_1980, note="Preparing mentally for one thing to do or to type.")
LOOK = Figure(2.0, "s", ASSUMED, note="Finding one number on a note, a chart or a bag.")
WORD = Figure(0.25, "s", ASSUMED, note="Reading one word on the screen: 240 words a minute.")

SHIFTED = '~!@#$%^&*()_+{}|:"<>?'
"""Signs that want the shift key on a United States keyboard."""


@dataclass(frozen=True, slots=True)
class Effort:
    """What a person does.

    Parameters
    ----------
    entries
        Fields filled in: answers, cells, commands.
    keys, pauses, points, hands
        Keystrokes, shift and Enter counted; the model's M, P and H.
    looks
        Numbers looked up on paper.
    words
        Words read on the screen.

    """

    entries: int = 0
    keys: int = 0
    pauses: int = 0
    points: int = 0
    hands: int = 0
    looks: int = 0
    words: int = 0

    def __add__(self, other: "Effort") -> "Effort":
        return Effort(*(getattr(self, f.name) + getattr(other, f.name) for f in fields(self)))

    def minutes(self, key: Figure = KEY) -> float:
        """Time at the keyboard [min], with this time for a key."""
        counted = (
            (self.keys, key),
            (self.pauses, PAUSE),
            (self.points, POINT),
            (self.hands, HAND),
            (self.looks, LOOK),
            (self.words, WORD),
        )
        return sum(count * each.value for count, each in counted) / 60.0


OPEN_A_FILE = Effort(keys=2, pauses=1, points=1, hands=1)
GO_TO_A_CELL = Effort(keys=1, points=1, hands=1)
SAVE_AND_CLOSE = Effort(keys=4, pauses=2)
PRINT = OPEN_A_FILE + Effort(keys=3, pauses=2)


def keystrokes(text: str) -> int:
    """Keys for a text; capitals and signs in a row share one press of shift."""
    runs = groupby(text, lambda letter: letter.isupper() or letter in SHIFTED)
    return len(text) + sum(1 for shifted, _ in runs if shifted)


def one_line(text: str, *, looked_up: bool) -> Effort:
    """A line typed and sent off with Enter or Tab; an empty one needs no look at any paper."""
    return Effort(1, keystrokes(text) + 1, pauses=1, looks=int(looked_up and bool(text)))


def one_roster(body: str) -> Effort:
    """The rows below the headings, cell by cell; a cell passed over is one Tab."""
    total = OPEN_A_FILE + GO_TO_A_CELL + SAVE_AND_CLOSE
    for row in list(csv.reader(body.splitlines()))[1:]:
        filled = max((place for place, cell in enumerate(row, 1) if cell), default=0)
        for cell in row[:filled]:
            total += one_line(cell, looked_up=True) if cell else Effort(keys=1)
    return total


def one_command(line: str, output: str, answers: Sequence[str]) -> Effort:
    """A command with what it shows, the answers typed into it, and a page that is printed."""
    total = one_line(line, looked_up=False) + Effort(words=len(output.split()))
    for answer in answers:
        total += one_line(answer, looked_up=True)
    prints = sum(word.endswith(".pdf") for word in shlex.split(line))
    for _ in range(prints):
        total += PRINT
    return total


def sections(page: str) -> Iterator[tuple[str, str]]:
    """Headings of a page with what stands below each."""
    for part in page.split("\n## ")[1:]:
        heading, _, body = part.partition("\n")
        yield heading, body


def effort_of(section: str) -> Effort:
    """Everything that a section has a person do."""
    total = Effort()
    for block in BLOCK.finditer(section):
        if block["kind"] in ("file", "workbook"):
            total += one_roster(block["body"])
        elif block["kind"] == "run":
            commands = [part for part in block["body"].split("$ ") if part]
            for command in commands:
                line, _, output = command.partition("\n")
                total += one_command(line, output, answers_of(block))
    return total


def effort_table(page: str) -> str:
    """The sections with their fields, keys and minutes, and all of them together."""
    each = [(heading, effort_of(body)) for heading, body in sections(page) if "$ helmw" in body]
    total = sum((effort for _, effort in each), Effort())
    head = (
        "| step | fields | keys | minutes | of a slow typist |",
        "| --- | --- | --- | --- | --- |",
    )
    rows = (_row(heading, effort) for heading, effort in (*each, ("**together**", total)))
    return "\n".join((*head, *rows)) + "\n"


def _row(heading: str, effort: Effort) -> str:
    times = f"{effort.minutes():.1f} | {effort.minutes(SLOWEST_KEY):.1f}"
    return f"| {heading} | {effort.entries} | {effort.keys} | {times} |"


if __name__ == "__main__":
    text = Path(sys.argv[1]).read_text(encoding="utf-8")
    print(effort_table(text.partition("<!-- effort -->")[0]), end="")
