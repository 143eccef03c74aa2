"""All that a reader of the database could find, whichever table it stands in."""

import json

from django.contrib.sessions.models import Session
from django.db import connection

from tests.records.tampering import run


def everything_kept() -> str:
    """Every column of every table as text, in small letters, sessions as what is in them."""
    rows = [row for table in _tables() for row in run(f'SELECT * FROM "{table}"')]  # noqa: S608
    inside = [json.dumps(each.get_decoded()) for each in Session.objects.all()]
    return " ".join([*(_text(value) for row in rows for value in row), *inside]).casefold()


def _tables() -> list[str]:
    with connection.cursor() as cursor:
        return connection.introspection.table_names(cursor)


def _text(value: object) -> str:
    """A cell; PostgreSQL gives JSON as what it holds."""
    if isinstance(value, (bytes, memoryview)):
        return bytes(value).decode("utf-8", "replace")
    return str(value)
