"""Writers of one server take turns, so that none waits for all the others."""

from collections.abc import Iterator
from contextlib import contextmanager
from threading import RLock

from django.db import connection, transaction

_TURN = RLock()


@contextmanager
def in_turn() -> Iterator[None]:
    """A transaction in which something is written.

    SQLite has one writer at a time, and those who wait ask again and again: of forty some starve
    until their patience is over. Within one process they stand in line instead. Whoever is in a
    transaction already has the writer's place and does not stand in line for it.
    """
    if connection.vendor != "sqlite" or connection.in_atomic_block:
        with transaction.atomic():
            yield
        return
    with _TURN, transaction.atomic():
        yield
