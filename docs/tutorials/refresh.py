"""Runs every command of the tutorials and of the README and puts its real output under it.

    python docs/tutorials/refresh.py [PAGE ...]

A comment before a block says what it is; `docs/tutorials/blocks.py` lists the kinds.
"""

import csv
import os
import re
import shlex
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

import xlsxwriter

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
SOURCE = ROOT / "src"
sys.path[:0] = [str(ROOT), str(SOURCE)]

from docs.tutorials.blocks import BLOCK, answers_of  # noqa: E402 - needs the path above
from docs.tutorials.effort import effort_table  # noqa: E402
from docs.tutorials.rise import rise_table  # noqa: E402


def refreshed(text: str, folder: Path) -> str:
    """The page with the output of every command as it is now, and its tables after it."""
    ran = BLOCK.sub(lambda block: _block(block, folder), text)
    return BLOCK.sub(lambda block: _effort(block, ran), ran)


def commands(text: str) -> list[list[str]]:
    """The words of every command of a page."""
    bodies = [block["body"] for block in BLOCK.finditer(text) if block["kind"] == "run"]
    lines = [line for body in bodies for line in body.splitlines() if line.startswith("$ ")]
    return [shlex.split(line[2:]) for line in lines]


def write_workbook(path: Path, body: str) -> None:
    """The table as a person types it into a workbook: numbers as numbers, the rest as text."""
    with xlsxwriter.Workbook(path, {"strings_to_formulas": False}) as book:
        sheet = book.add_worksheet("Roster")
        for row, cells in enumerate(csv.reader(body.splitlines())):
            for column, cell in enumerate(cells):
                sheet.write(row, column, float(cell) if cell.isdecimal() else cell)


def _block(block: re.Match[str], folder: Path) -> str:
    comment = block[0].partition("\n")[0]
    match block["kind"]:
        case "file":
            (folder / block["what"]).write_text(block["body"], encoding="utf-8")
        case "workbook":
            write_workbook(folder / block["what"], block["body"])
        case "rise":
            documents = [folder / name for name in block["what"].split(",")]
            head, _, _ = block["table"].partition("\n")
            return f"{comment}\n{rise_table(head, documents)}"
        case "run":
            return f"{comment}\n```{block['tongue']}\n{_shown(block, folder)}```\n"
    return block[0]


def _effort(block: re.Match[str], page: str) -> str:
    """The table of what everything above it takes, or the block as it is."""
    if block["kind"] != "effort":
        return block[0]
    return f"{block[0].partition(chr(10))[0]}\n{effort_table(page[: block.start()])}"


def _shown(block: re.Match[str], folder: Path) -> str:
    """The commands of a block, each with what it prints."""
    shown = int(block["what"]) if block["what"] else None
    answers = answers_of(block)
    lines = [line for line in block["body"].splitlines() if line.startswith("$ ")]
    return "".join(f"{line}\n{_output(line[2:], folder, shown, answers)}" for line in lines)


def _output(line: str, folder: Path, shown: int | None, answers: Sequence[str]) -> str:
    """What the command prints, both streams, as a terminal of 80 columns shows it."""
    words = shlex.split(line)
    done = subprocess.run(
        [sys.executable, "-m", *words],
        cwd=folder,
        env={**os.environ, "COLUMNS": "80", "PYTHONPATH": str(SOURCE)},
        input="".join(f"{answer}\n" for answer in answers),
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    lines = (done.stdout + done.stderr).splitlines()
    cut = lines if shown is None or len(lines) <= shown else [*lines[:shown], "..."]
    return "".join(f"{line.rstrip()}\n" for line in cut)


def main(names: Sequence[str]) -> None:
    """Refresh these pages, or every tutorial in this folder and the README."""
    every = (*sorted(HERE.glob("*.md")), ROOT / "README.md")
    for page in [Path(name) for name in names] or every:
        with tempfile.TemporaryDirectory() as folder:
            text = refreshed(page.read_text(encoding="utf-8"), Path(folder))
        page.write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main(sys.argv[1:])
