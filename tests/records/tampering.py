"""Somebody who edits the database by hand."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from django.db import connection

from helmwright.records import append_only


@contextmanager
def without_guard() -> Iterator[None]:
    append_only.lift(connection)
    yield
    append_only.put(connection)


def run(statement: str, *values: Any) -> list[tuple[Any, ...]]:
    """What a statement answers, with %s for values."""
    with connection.cursor() as cursor:
        cursor.execute(statement, values or None)
        return cursor.fetchall() if cursor.description else []
