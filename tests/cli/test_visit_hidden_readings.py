"""The first reading is off the screen while the second is taken, and on the disk."""

import os
import re
import signal
import sys
import time
from pathlib import Path

import pytest

from tests.cli.few_draws import FIVE_MEASURES
from tests.cli.test_visit_at_a_terminal import ROOT, SETTLED, read
from tests.cli.visit_ways import names, of_kind, written

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")

COLUMNS, LINES = 80, 24
TWICE, AGAIN = b"in inches, twice: ", b"one reading only): "
FIRST = b"23 1/16"
_PIECE = re.compile(r"\x1b\[(\d*)([AJ])|(.)", re.DOTALL)


def on_screen(shown: bytes) -> list[str]:
    """The lines that a terminal shows, and those that have scrolled off it, in order."""
    rows, row, column = [[""] * COLUMNS], 0, 0
    for count, code, char in _PIECE.findall(shown.decode()):
        if code == "A":
            row = max(row - int(count or 1), 0)
        elif code == "J":
            rows[row][column:] = [""] * (COLUMNS - column)
            del rows[row + 1 :]
        elif char == "\r":
            column = 0
        else:
            if char == "\n" or column == COLUMNS:
                row, column = row + 1, 0
                rows += [[""] * COLUMNS] if row == len(rows) else []
            if char != "\n":
                rows[row][column] = char
                column += 1
    return ["".join(each).rstrip() for each in rows]


class Terminal:
    """A visit at a pseudo-terminal."""

    def __init__(self, folder: Path, term: str = "xterm") -> None:
        import fcntl  # noqa: PLC0415 - there is none on Windows
        import pty  # noqa: PLC0415
        import struct  # noqa: PLC0415
        import termios  # noqa: PLC0415

        self.child, self.screen = pty.fork()
        if self.child == 0:
            time.sleep(SETTLED)  # until the window has its size
            path = f"{ROOT / 'src'}{os.pathsep}{ROOT}"
            os.environ |= {"PYTHONPATH": path, "COLUMNS": f"{COLUMNS}", "TERM": term}
            os.chdir(ROOT)
            program = [sys.executable, "-m", "tests.cli.few_draws", "visit", "avocet", "--roster"]
            os.execv(sys.executable, [*program, str(folder / "roster.csv")])  # noqa: S606
        window = struct.pack("HHHH", LINES, COLUMNS, 0, 0)
        fcntl.ioctl(self.screen, termios.TIOCSWINSZ, window)
        self.shown = b""

    def type(self, question: bytes, keys: bytes) -> None:
        """Waits for a question and types behind it."""
        self.wait(question)
        os.write(self.screen, keys)

    def wait(self, question: bytes) -> None:
        """Waits until a question stands at the end of what is shown."""
        while not self.shown.endswith(question):
            part = read(self.screen)
            assert part, self.shown.decode()
            self.shown += part
        time.sleep(SETTLED)

    def rest(self) -> int:
        """Reads until the program is gone; how it ended."""
        while part := read(self.screen):
            self.shown += part
        os.close(self.screen)
        return os.waitpid(self.child, 0)[1]


@pytest.fixture
def roster(tmp_path: Path) -> Path:
    (tmp_path / "roster.csv").write_text(FIVE_MEASURES, "utf-8")
    return tmp_path


@pytest.mark.parametrize("ask", [b"reading tape\n", b"reading tape " + FIRST + b"\n"])
def test_the_first_reading_is_erased_before_the_second_is_asked_and_told_at_the_end(roster, ask):
    at = Terminal(roster)
    at.type(b"(g, m): ", ask)
    if FIRST not in ask:
        at.type(TWICE, FIRST + b"\n")
    at.wait(AGAIN)
    lines = on_screen(at.shown)
    assert FIRST in at.shown
    assert not [line for line in lines if FIRST.decode() in line]
    assert "(hidden until you are done)" in lines[-2]
    os.write(at.screen, b"loose\n")
    at.wait(AGAIN)
    assert not [line for line in on_screen(at.shown)[-LINES:] if FIRST.decode() in line]
    at.type(AGAIN, b"23 1/8\n")
    at.type(b"(g, m): ", b"pause\n")
    assert os.waitstatus_to_exitcode(at.rest()) == 1
    assert any("23 1/16 in and 23 1/8 in" in line for line in on_screen(at.shown))
    read_then = [each["readings"] for each in of_kind(written(roster), "measured")]
    assert [len(each) for each in read_then] == [1, 1]


def test_what_cannot_be_erased_is_pushed_off_the_window(roster):
    at = Terminal(roster, term="dumb")
    at.type(b"(g, m): ", b"reading tape\n")
    at.type(TWICE, FIRST + b"\n")
    at.wait(AGAIN)
    assert b"\x1b" not in at.shown
    lines = on_screen(at.shown)
    assert [line for line in lines if FIRST.decode() in line]
    assert not [line for line in lines[-LINES:] if FIRST.decode() in line]
    at.type(AGAIN, b"pause\n")
    at.rest()


def test_a_first_reading_is_kept_though_the_program_is_killed_before_the_second(roster):
    at = Terminal(roster)
    at.type(b"(g, m): ", b"reading tape\n")
    at.type(TWICE, FIRST + b"\n")
    at.wait(AGAIN)
    os.kill(at.child, signal.SIGKILL)
    assert os.WTERMSIG(at.rest()) == signal.SIGKILL
    (measured,) = of_kind(written(roster), "measured")
    assert [each["value_mm"] for each in measured["readings"]] == [pytest.approx(585.7875)]
    again = Terminal(roster)
    again.type(b"(g, m): ", b"pause\n")
    again.rest()
    assert names(written(roster)).count("measured") == 1
