"""What a table holds, in a form that can be compared with the same table elsewhere."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import chain
from typing import Any

from django.apps import apps
from django.db.models import AutoField, Field, ForeignKey, Model

from helmwright.records.models import Entry, Private

LEDGER = (Entry, Private)
BESIDE = frozenset({"Entry", "Private", "Knock", "HeardHere", "EnrollmentCode"})
"""Tables that are no projection: the ledger itself, and what keeps the doors."""

NOT_FROM_THE_LEDGER: Mapping[str, frozenset[str]] = {
    "Staff": frozenset({"password", "pin", "last_login"}),
    "Device": frozenset({"token_digest", "heard_at"}),
}
"""Columns of projections that the ledger does not tell, and must not."""

Table = type[Model]
Row = Mapping[str, Any]
Contents = Mapping[str, Sequence[Row]]


def projections() -> list[Table]:
    """Every table that follows from the ledger, by name."""
    tables = apps.get_app_config("records").get_models()
    found = (table for table in tables if table.__name__ not in BESIDE)
    return sorted(found, key=lambda table: table.__name__)


def contents() -> Contents:
    """All rows of all projections by the table's name."""
    return {table.__name__: rows(table) for table in projections()}


def columns(table: Table) -> "list[Field[Any, Any]]":
    """Columns that the ledger tells; a number that the database gives to a row is none."""
    left_out = NOT_FROM_THE_LEDGER.get(table.__name__, frozenset())
    return [
        column
        for column in table._meta.concrete_fields  # noqa: SLF001 - of any table
        if column.name not in left_out and not isinstance(column, AutoField)
    ]


def rows(table: Table) -> list[Row]:
    """All rows; where a row of another table has no name but its number, what is in that one."""
    readers = {column.name: _reader(column) for column in columns(table)}
    return [{name: read(row) for name, read in readers.items()} for row in _all(table)]


def first_difference(there: Contents, told: Contents) -> str:
    """The first row that is not as the ledger tells it; empty where all are."""
    found = chain.from_iterable(
        _differences(table, there[table.__name__], told[table.__name__]) for table in projections()
    )
    return next(found, "")


def _reader(column: "Field[Any, Any]") -> Callable[[Model], Any]:
    name = column.attname
    if isinstance(column, ForeignKey) and _is_numbered(column.related_model):
        meant = {row.pk: content for row, content in _numbered(column.related_model)}
        return lambda row: meant.get(getattr(row, name))
    return lambda row: getattr(row, name)


def _numbered(table: Table) -> Iterator[tuple[Model, Row]]:
    return zip(_all(table), rows(table), strict=True)


def _is_numbered(table: Table) -> bool:
    return isinstance(table._meta.pk, AutoField)  # noqa: SLF001 - of any table


def _all(table: Table) -> Sequence[Model]:
    return list(table._base_manager.order_by("pk"))  # noqa: SLF001 - of any table


def _differences(table: Table, there: Sequence[Row], told: Sequence[Row]) -> Iterator[str]:
    by_key = _keyed(table, told)
    for key, row in _keyed(table, there).items():
        other = by_key.pop(key, None)
        if other is None:
            yield f"table {table.__name__}, {_named(row)}: the ledger does not tell of this row"
        elif row != other:
            yield f"table {table.__name__}, {_named(row)}: {_first_column(row, other)}"
    for row in by_key.values():
        yield f"table {table.__name__}, {_named(row)}: this row is missing"


def _keyed(table: Table, found: Sequence[Row]) -> dict[str, Row]:
    """By what names a row; a numbered one by all that is in it, and how often that came before."""
    if not _is_numbered(table):
        name = table._meta.pk.name  # noqa: SLF001 - of any table
        return {str(row[name]): row for row in found}
    keyed: dict[str, Row] = {}
    for row in found:
        turn = 0
        while (key := f"{turn} {_text(row)}") in keyed:
            turn += 1
        keyed[key] = row
    return keyed


def _first_column(row: Row, other: Row) -> str:
    name = next(name for name in row if row[name] != other[name])
    return f"{name} is {row[name]!r}, and {other[name]!r} by the ledger"


def _named(row: Row) -> str:
    """What tells which row it is, without anybody's name."""
    shown = ("id", "code", "digest", "entry", "helmet", "visit", "place", "store", "part")
    return ", ".join(f"{name} {_text(row[name])}" for name in shown if name in row)


def _text(value: Any) -> str:
    if isinstance(value, Mapping):
        return ", ".join(f"{name} {_text(value[name])}" for name in sorted(value))
    if isinstance(value, list):
        # A database may keep the names of an object in another order.
        return f"[{'; '.join(map(_text, value))}]"
    return str(value)
