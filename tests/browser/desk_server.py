"""A real server over a real room in a folder, and a way into it for a test."""

import os
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path

from helmwright.config.place import Place

ROOT = Path(__file__).resolve().parents[2]


@dataclass
class Served:
    """A server that runs, its room and who is signed in how."""

    folder: Path
    port: int
    sessions: dict[str, str]

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def run(self, code: str) -> str:
        """What a program says that is run over the same room, as another process."""
        return _run(code, self.folder)


@contextmanager
def served(folder: Path) -> Iterator[Served]:
    """A room with a fitting day in it, served on a port that is free."""
    Place(folder).prepare()
    sessions = _run(_MADE, folder).split()
    port = _free_port()
    # The file's own database, whichever the other tests are run on.
    command = [sys.executable, "-m", "granian", "--interface", "asgi", "--host", "127.0.0.1"]
    command += ["--port", str(port), "helmwright.config.asgi:application"]
    log = (folder / "server.log").open("w")
    server = subprocess.Popen(command, cwd=ROOT, env=_environment(folder), stdout=log, stderr=log)
    try:
        _wait(port, server)
        yield Served(folder, port, dict(zip(sessions[::2], sessions[1::2], strict=True)))
    finally:
        server.terminate()
        try:
            server.wait(10)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait()
        log.close()


def _environment(folder: Path) -> dict[str, str]:
    kept = {key: os.environ[key] for key in ("PATH", "HOME", "TMPDIR") if key in os.environ}
    return kept | {
        "HELMWRIGHT_ROOM": str(folder),
        "DJANGO_SETTINGS_MODULE": "helmwright.config.settings",
        "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}",
        "OPENBLAS_NUM_THREADS": "1",
    }


def _run(code: str, folder: Path) -> str:
    command = [sys.executable, "-c", f"import django; django.setup()\n{code}"]
    done = subprocess.run(
        command, cwd=ROOT, env=_environment(folder), capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def _free_port() -> int:
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        port: int = asked.getsockname()[1]
        return port


def _wait(port: int, server: subprocess.Popen[bytes]) -> None:
    for _ in range(300):
        assert server.poll() is None, "the server ended by itself"
        with closing(HTTPConnection("127.0.0.1", port, timeout=5)) as asked:
            try:
                asked.request("GET", "/day/stream")
                asked.getresponse().read()
            except OSError:
                time.sleep(0.1)
            else:
                return
    raise AssertionError("the server did not answer within 30 seconds")


_MADE = """
from datetime import UTC, datetime
from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY
from django.contrib.sessions.backends.db import SessionStore
from django.core.management import call_command
from django.db import transaction
call_command("migrate", verbosity=0)
from tests.web.desk_room import fitting_day
with transaction.atomic():
    room = fitting_day(datetime.now(UTC))
for role, staff in room.staff.items():
    session = SessionStore()
    session[SESSION_KEY] = str(staff.pk)
    session[BACKEND_SESSION_KEY] = "django.contrib.auth.backends.ModelBackend"
    session[HASH_SESSION_KEY] = staff.get_session_auth_hash()
    session.save()
    print(role.value, session.session_key)
"""
