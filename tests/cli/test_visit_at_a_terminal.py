"""A visit at a terminal of its own: what is typed is not shown twice, Ctrl-C loses nothing."""

import os
import select
import signal
import sys
import time
from pathlib import Path

import pytest

from tests.cli.few_draws import FIVE_MEASURES
from tests.cli.visit_ways import names, written

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")

ROOT = Path(__file__).parents[2]
CTRL_C = b"\x03"

SETTLED = 0.3
"""How long [s] after a question a key is pressed: Python itself can lose a Ctrl-C that comes in
between printing a prompt and waiting for the line."""

PATIENCE = 60.0
"""After so long [s] without a sign the program hangs."""


def played_at_a_terminal(folder: Path, *acts: tuple[bytes, bytes]) -> tuple[str, int]:
    """What the screen shows, and the exit status; each act is a question and the keys for it."""
    import pty  # noqa: PLC0415 - there is none on Windows

    child, screen = pty.fork()
    if child == 0:
        os.environ |= {"PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}", "COLUMNS": "80"}
        os.chdir(ROOT)
        program = [sys.executable, "-m", "tests.cli.few_draws", "visit", "avocet", "--roster"]
        os.execv(sys.executable, [*program, str(folder / "roster.csv")])  # noqa: S606
    shown, left = b"", list(acts)
    while part := read(screen):
        shown += part
        if left and left[0][0] in shown:
            shown = shown.replace(left[0][0], b"[asked] ")
            time.sleep(SETTLED)
            os.write(screen, left.pop(0)[1])
    os.kill(child, signal.SIGHUP)  # does nothing to one that has ended
    os.close(screen)
    return shown.decode(), os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def read(screen: int) -> bytes:
    """What comes next on the screen; nothing once the program has gone or hangs."""
    if not select.select([screen], [], [], PATIENCE)[0]:
        return b""
    try:
        return os.read(screen, 4096)
    except OSError:
        return b""


def test_at_a_terminal_nothing_is_echoed_twice_and_ctrl_c_pauses(tmp_path):
    (tmp_path / "roster.csv").write_text(FIVE_MEASURES, "utf-8")
    shown, status = played_at_a_terminal(
        tmp_path,
        (b"Marks and labels (g, m): ", b"good\n"),
        (b"Whole shell (w, d): ", CTRL_C),
    )
    assert status == 1
    assert shown.count("good\r\n") == 1
    assert "paused; kept in" in shown
    happened = names(written(tmp_path))
    assert happened[-2:] == ["answered", "paused"]
