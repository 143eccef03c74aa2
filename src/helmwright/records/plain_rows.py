"""Rows as lines of JSON that any program can read, and back, with every digit."""

import json
from datetime import date, datetime
from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db.models import Field, ForeignKey, JSONField, Model

Table = type[Model]


class ForeignRowError(ValueError):
    """A line is no row of the table in this release."""


def line_of(row: Model) -> str:
    """The row as one line of JSON: a name and a value for each column."""
    return json.dumps(values_of(row), ensure_ascii=False, allow_nan=False)


def values_of(row: Model) -> dict[str, Any]:
    """Every column by its name; times and IDs as text."""
    return {column.attname: _plain(getattr(row, column.attname)) for column in _columns(type(row))}


def row_of(line: str, table: Table) -> Model:
    """The row that a line holds, not kept yet.

    Raises
    ------
    ForeignRowError
        Where it names a column that this release does not know, or holds what the column cannot.
    """
    known = {column.attname: column for column in _columns(table)}
    values: dict[str, Any] = json.loads(line)
    unknown = sorted(values.keys() - known.keys())
    if unknown:
        raise ForeignRowError(f"{table.__name__} has no column {unknown[0]} in this release")
    try:
        return table(**{name: _read(known[name], value) for name, value in values.items()})
    except (ValidationError, ValueError, TypeError) as error:
        raise ForeignRowError(f"a row of {table.__name__} cannot be read: {error}") from error


def _columns(table: Table) -> "tuple[Field[Any, Any], ...]":
    return tuple(table._meta.concrete_fields)  # noqa: SLF001 - of any table


def _plain(value: Any) -> Any:
    if isinstance(value, date | datetime):
        return value.isoformat()
    return str(value) if isinstance(value, UUID) else value


def _read(column: "Field[Any, Any]", value: Any) -> Any:
    if isinstance(column, ForeignKey):
        column = column.target_field
    return value if isinstance(column, JSONField) else column.to_python(value)
