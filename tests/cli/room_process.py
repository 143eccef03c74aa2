"""A room that is served by the command, as another process."""

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from helmwright.cli.room_command import LINES

PASSWORD = "kingfisher on a post"  # noqa: S105 - of nobody
OPEN = "The room is open: "


@dataclass
class RoomProcess:
    """A running room, and its address."""

    process: "subprocess.Popen[str]"
    address: str

    def ended(self, number: int = signal.SIGINT, *, as_from_a_terminal: bool = True) -> "Ended":
        """Told to end: Ctrl-C reaches every process of the room at once, a supervisor only one.

        What is said is read until no process of the room is left that could say more.
        """
        (os.killpg if as_from_a_terminal else os.kill)(self.process.pid, number)
        said, _ = self.process.communicate(timeout=60)
        return Ended(self.process.returncode, said)


class Ended(NamedTuple):
    """How a room ended, and what it still said."""

    code: int
    said: str


def environment(folder: Path) -> dict[str, str]:
    """What a command over a room in that folder is run with; its own database, whatever others'."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("HELMWRIGHT_", "DJANGO_"))}
    return {**kept, "HELMWRIGHT_ROOM": str(folder), "OPENBLAS_NUM_THREADS": "1"}


def run(
    folder: Path, *words: str, given: str = "", settings: Mapping[str, str] | None = None
) -> "subprocess.CompletedProcess[str]":
    """A command, run to its end."""
    return subprocess.run(
        [sys.executable, "-m", "helmwright", *words],
        env={**environment(folder), **(settings or {})},
        input=given,
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


def with_manager(folder: Path) -> None:
    """A room with one manager, whose sign-in name is ibis."""
    words = ("--role", "manager", "--name", "Ibis Fordham", "--sign-in", "Ibis")
    added = run(folder, "staff", "add", *words, given=f"{PASSWORD}\n")
    assert added.returncode == 0, added.stderr


@contextmanager
def opened(folder: Path, *words: str, port: int | None = None) -> Iterator[RoomProcess]:
    """A room that is served for a while."""
    command = [sys.executable, "-m", "helmwright", "room", "--port", str(port or free_port())]
    process = subprocess.Popen(
        [*command, *words],
        env=environment(folder),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        start_new_session=True,
    )
    assert process.stdout is not None
    try:
        said = []
        for line in process.stdout:
            said.append(line)
            if line.startswith(OPEN):
                break
        else:
            raise AssertionError("".join(said))
        assert process.stdout.readline() == LINES
        address = line.removeprefix(OPEN).strip()
        _wait(address, process)
        yield RoomProcess(process, address)
    finally:
        with suppress(ProcessLookupError):
            os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        process.stdout.close()


def free_port() -> int:
    """A port that nobody has now."""
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        port: int = asked.getsockname()[1]
        return port


def _wait(address: str, process: "subprocess.Popen[str]") -> None:
    host, _, port = address.removeprefix("http://").strip("/").rpartition(":")
    for _ in range(600):
        assert process.poll() is None, "the room closed by itself"
        try:
            socket.create_connection((host, int(port)), timeout=5).close()
        except OSError:
            time.sleep(0.05)
        else:
            return
    raise AssertionError("the room was not heard within half a minute")
