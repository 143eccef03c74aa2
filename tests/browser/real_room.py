"""A small room that the real program serves, which can be killed and asked what it keeps."""

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from uuid import uuid4

ROOT = Path(__file__).resolve().parents[2]
PATIENCE_S = 60
"""Only what hangs comes to this end; a loaded machine is slow."""


def made(folder: Path, many: int = 6) -> "RealRoom":
    """A small room in that folder; in PostgreSQL where the tests run on it."""
    room = RealRoom(folder, database=_new_database())
    room.known = json.loads(room.run(ROOT / "tests/browser/small_room.py", str(many)))
    return room


@dataclass
class RealRoom:
    """A room, and the server over it while one runs; `way` is a port that leads to it."""

    folder: Path
    database: str = ""
    known: dict[str, Any] = field(default_factory=dict)
    port: int = 0
    way: int = 0
    _server: "subprocess.Popen[bytes] | None" = None

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.way or self.port}"

    def copied(self, folder: Path) -> "RealRoom":
        """Another room that is like it; nothing may be served over this one meanwhile."""
        if self.database:
            return made(folder)
        shutil.copytree(self.folder, folder)
        return RealRoom(folder, known=self.known)

    def start(self) -> None:
        """Serve it; at the port that it had, where it was served before."""
        self.port = self.port or free_port()
        log = (self.folder / "server.log").open("ab")
        self._server = subprocess.Popen(
            [sys.executable, "-m", "helmwright", "room", "--port", str(self.port)],
            cwd=ROOT,
            env=self._environment(),
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=log,
            start_new_session=True,
        )
        log.close()
        self._wait()

    def kill(self) -> None:
        """With kill -9, the processes that compute for it too; nothing is let finish."""
        if self._server is not None:
            os.killpg(self._server.pid, signal.SIGKILL)
            self._server.wait()
            self._server = None
            self._wait_until_silent()

    def command(self, *words: str) -> "subprocess.CompletedProcess[str]":
        """What a command over this room ends with."""
        return self._ran([sys.executable, "-m", "helmwright", *words])

    def run(self, program: Path, *words: str) -> str:
        """What a program over this room prints."""
        done = self._ran([sys.executable, str(program), *words])
        assert done.returncode == 0, done.stderr
        return done.stdout

    def ask(self, expression: str) -> Any:
        """What an expression over the models is, as JSON carries it."""
        code = (
            "import django, json; django.setup()\n"
            "from helmwright.records.models import *\n"
            f"print(json.dumps({expression}, default=str))"
        )
        done = self._ran([sys.executable, "-c", code])
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)

    def enrollment_code(self, name: str) -> str:
        """A code that makes one device a station of this room's store."""
        code: str = self.ask(
            "(lambda actions, now: actions.make_code(name=" + repr(name) + ", store=Store.objects"
            ".get(), by=Staff.objects.get(username='ibis'), now=now))(__import__("
            "'helmwright.records.actions.doors', fromlist=['x']), __import__('django.utils."
            "timezone', fromlist=['x']).now())"
        )
        return code

    def _ran(self, command: list[str]) -> "subprocess.CompletedProcess[str]":
        return subprocess.run(
            command,
            cwd=ROOT,
            env=self._environment(),
            capture_output=True,
            text=True,
            check=False,
            timeout=3 * PATIENCE_S,
        )

    def _environment(self) -> dict[str, str]:
        kept = {k: v for k, v in os.environ.items() if not k.startswith(("HELMWRIGHT_", "DJANGO_"))}
        database = {"HELMWRIGHT_DATABASE": self.database} if self.database else {}
        return {
            **kept,
            **database,
            "HELMWRIGHT_ROOM": str(self.folder),
            "HELMWRIGHT_TIME_ZONE": "America/Chicago",
            "DJANGO_SETTINGS_MODULE": "helmwright.config.settings",
            "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}",
            "OPENBLAS_NUM_THREADS": "1",
        }

    def _wait_until_silent(self) -> None:
        """Its workers go a moment later than itself; until then the port is not free."""
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            try:
                socket.create_connection(("127.0.0.1", self.port), timeout=5).close()
            except OSError:
                return
            time.sleep(0.02)
        raise AssertionError("what was killed is heard still")

    def _wait(self) -> None:
        assert self._server is not None
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            assert self._server.poll() is None, (self.folder / "server.log").read_text()
            try:
                socket.create_connection(("127.0.0.1", self.port), timeout=5).close()
            except OSError:
                time.sleep(0.05)
            else:
                return
        raise AssertionError("the room was not heard")


def free_port() -> int:
    """A port that nobody has now."""
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        port: int = asked.getsockname()[1]
        return port


def _new_database() -> str:
    """An empty database on the server that the tests started, where they run on PostgreSQL."""
    if os.environ.get("HELMWRIGHT_TEST_ON") != "postgresql":
        return ""
    import psycopg  # noqa: PLC0415 - only there

    address, name = os.environ["HELMWRIGHT_DATABASE"], f"room_{uuid4().hex}"
    with psycopg.connect(address, autocommit=True) as connection:
        connection.execute(f'CREATE DATABASE "{name}"')
    before, _, after = address.partition("/postgres?")
    assert after, address
    return f"{before}/{name}?{after}"
