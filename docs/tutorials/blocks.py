"""The blocks of a tutorial's page that are written, run or counted."""

import re

BLOCK = re.compile(
    r"<!-- (?P<kind>file|workbook|run|effort|rise)(?:: (?P<what>[^ ]+))?"
    r"(?: answers: (?P<answers>.*?))? -->\n"
    r"(?:```(?P<tongue>\w+)\n(?P<body>.*?)```\n|(?P<table>(?:\|[^\n]*\n)+))",
    re.DOTALL,
)
"""A comment that says what the block below it is, and the block.

`file: NAME` is a text that is written into an empty folder; `workbook: NAME` is a roster typed into
a workbook; `run` is a command that is run there and shows its output, `run: 8` the first 8 lines of
it; `answers: ` gives what is typed at its questions, with a bar between; `effort` is the table of
how long everything above it takes; `rise: A,B` the table of the chances in these documents.
"""


def answers_of(block: re.Match[str]) -> list[str]:
    """What is typed at the questions of a command, in their order."""
    return block["answers"].split("|") if block["answers"] else []
