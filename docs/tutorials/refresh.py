"""Runs every command of the tutorials and of the README and puts its real output under it.

    python docs/tutorials/refresh.py

A comment before a block says what it is: `file: NAME` is written into an empty folder, `run` is
run there and shows the whole output, `run: 8` the first 8 lines of it.
"""

import os
import re
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
SOURCE = HERE.parents[1] / "src"
BLOCK = re.compile(
    r"<!-- (?P<kind>file|run)(?:: (?P<what>[^ ]+))? -->\n```(?P<tongue>\w+)\n(?P<body>.*?)```\n",
    re.DOTALL,
)


def refreshed(text: str, folder: Path) -> str:
    """The page with the output of every command as it is now."""
    return BLOCK.sub(lambda block: _block(block, folder), text)


def commands(text: str) -> list[list[str]]:
    """The words of every command of a page."""
    bodies = [block["body"] for block in BLOCK.finditer(text) if block["kind"] == "run"]
    lines = [line for body in bodies for line in body.splitlines() if line.startswith("$ ")]
    return [shlex.split(line[2:]) for line in lines]


def _block(block: re.Match[str], folder: Path) -> str:
    if block["kind"] == "file":
        (folder / block["what"]).write_text(block["body"], encoding="utf-8")
        return block[0]
    shown = int(block["what"]) if block["what"] else None
    lines = [line for line in block["body"].splitlines() if line.startswith("$ ")]
    parts = [f"{line}\n{_output(shlex.split(line[2:]), folder, shown)}" for line in lines]
    comment = block[0].partition("\n")[0]
    return f"{comment}\n```{block['tongue']}\n{''.join(parts)}```\n"


def _output(words: list[str], folder: Path, shown: int | None) -> str:
    """What the command prints, both streams, as a terminal of 80 columns shows it."""
    done = subprocess.run(
        [sys.executable, "-m", *words],
        cwd=folder,
        env={**os.environ, "COLUMNS": "80", "PYTHONPATH": str(SOURCE)},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    lines = (done.stdout + done.stderr).splitlines()
    cut = lines if shown is None or len(lines) <= shown else [*lines[:shown], "..."]
    return "".join(f"{line}\n" for line in cut)


def main() -> None:
    """Refresh every tutorial in this folder, and the README."""
    for page in (*sorted(HERE.glob("*.md")), HERE.parents[1] / "README.md"):
        with tempfile.TemporaryDirectory() as folder:
            text = refreshed(page.read_text(encoding="utf-8"), Path(folder))
        page.write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
