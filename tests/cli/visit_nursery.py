"""Plays visits in processes that are killed, all born of one program that has loaded everything.

Run as a program, `python -m tests.cli.visit_nursery FOLDER`. It reads plays as lines of JSON,
`{"typed": [...], "keep": NAME, "kill_after_ms": null}`; each is run in a process of its own, and
answered by its wait status. Without a time the process is killed once what was typed has been
taken and the next question stands on the screen; with one, so long after the typing, wherever it
then is; a negative time lets it come to its end.
"""

import json
import os
import signal
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner

from helmwright.cli import main as command
from helmwright.cli.visit_talk import TerminalTalk
from tests.cli.visit_ways import TO_ACCEPTANCE, stand_in

MARK = "\x05"
"""Printed before every question, so that whoever plays knows that one has come."""


def words(folder: Path, keep: str) -> list[str]:
    """The command that plays."""
    return ["visit", "avocet", "--roster", f"{folder / 'roster.csv'}", "--keep", f"{folder / keep}"]


def mark_questions(patch: pytest.MonkeyPatch) -> None:
    """Puts a mark before every question."""
    asked = TerminalTalk.ask

    def ask(talk: TerminalTalk, question: str) -> str:
        sys.stdout.write(MARK)
        sys.stdout.flush()
        return asked(talk, question)

    patch.setattr(TerminalTalk, "ask", ask)


def played(folder: Path, typed: list[str], keep: str, kill_after_ms: int | None) -> int:
    """The wait status of one play in a process of its own."""
    read_here, write_there = os.pipe()
    read_there, write_here = os.pipe()
    child = os.fork()
    if child == 0:
        os.dup2(read_there, 0)
        os.dup2(write_there, 1)
        for each in (read_here, write_there, read_there, write_here):
            os.close(each)
        sys.stdin, sys.stdout = open(0), open(1, "w")  # noqa: SIM115
        command(words(folder, keep), prog_name="helmwright")
    os.close(read_there)
    os.close(write_there)
    os.write(write_here, "".join(f"{line}\n" for line in typed).encode())
    if kill_after_ms is None:
        wait_for(read_here, len(typed) + 1)
    elif kill_after_ms < 0:
        os.close(write_here)
        wait_for(read_here, 10**6)
    else:
        time.sleep(kill_after_ms / 1000.0)
    if kill_after_ms is None or kill_after_ms >= 0:
        os.kill(child, signal.SIGKILL)
        os.close(write_here)
    os.close(read_here)
    return os.waitpid(child, 0)[1]


def wait_for(descriptor: int, questions: int) -> None:
    """Reads what the process prints until so many questions have come, or it has ended."""
    while questions > 0 and (part := os.read(descriptor, 65536)):
        questions -= part.count(MARK.encode())


def main() -> None:
    """Reads plays and answers them."""
    folder = Path(sys.argv[1])
    patch = pytest.MonkeyPatch()
    stand_in(patch)
    typed = "".join(f"{line}\n" for line in TO_ACCEPTANCE)
    loaded = CliRunner().invoke(command, words(folder, "loaded"), input=typed)
    assert loaded.exit_code == 0, loaded.output
    mark_questions(patch)
    # A kill takes nothing from the system's own memory, and waiting for the disk would take long.
    patch.setattr(os, "fsync", lambda _: None)
    for line in sys.stdin:
        print(json.dumps(played(folder, **json.loads(line))), flush=True)


if __name__ == "__main__":
    main()
