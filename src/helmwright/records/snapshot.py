"""Many tables read as they were at one moment, while others go on writing."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import connection, transaction
from django.db.backends.base.base import BaseDatabaseWrapper


@contextmanager
def at_one_moment() -> Iterator[None]:
    """Everything read inside is of one moment, and nobody who writes is held up.

    Inside a transaction that is open already, the moment is that transaction's.
    """
    if connection.in_atomic_block:
        yield
        return
    with _reading_alone(connection), transaction.atomic():
        if connection.vendor == "postgresql":
            with connection.cursor() as cursor:
                cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
        yield


@contextmanager
def _reading_alone(database: BaseDatabaseWrapper) -> Iterator[None]:
    """On SQLite the room's transactions ask for the right to write; this one does not."""
    if database.vendor != "sqlite":
        yield
        return
    database.ensure_connection()
    usual = database.transaction_mode  # type: ignore[attr-defined] # of SQLite's wrapper alone
    database.transaction_mode = "DEFERRED"  # type: ignore[attr-defined]
    try:
        yield
    finally:
        database.transaction_mode = usual  # type: ignore[attr-defined]
