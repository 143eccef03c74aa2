"""Puts the SQLite that pysqlite3 brings in the place of Python's own, before Django asks for it.

SQLite 3.7.0 to 3.51.2 can corrupt a database in WAL mode when a checkpoint resets the log under a
reader; many a Python still links one of these.
"""

import sys

SOUND = (3, 51, 3)
"""The first release without that fault."""


def use_newest_sqlite() -> None:
    """Let `import sqlite3` give pysqlite3, where it is installed."""
    try:
        import pysqlite3  # noqa: PLC0415 - absent where no wheel is made
    except ImportError:
        return
    sys.modules["sqlite3"] = pysqlite3
    sys.modules["sqlite3.dbapi2"] = pysqlite3.dbapi2


def is_sound() -> bool:
    """Whether the SQLite in use is free of the fault."""
    import sqlite3  # noqa: PLC0415 - whichever stands there by now

    return sqlite3.sqlite_version_info >= SOUND
