"""Everything that the room knows, as plain tables and lines for other programs and other years."""

import json
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from django.db.models import Field, ForeignKey, Model

from helmwright.records.contents import NOT_FROM_THE_LEDGER, projections
from helmwright.records.models import Entry, Private
from helmwright.records.plain_rows import values_of
from helmwright.units import MM_PER_INCH

AT_A_TIME = 2000
_MM = "_mm"


class PlainTable(NamedTuple):
    """One projection: its name, its headings, and its rows."""

    name: str
    headings: tuple[str, ...]
    rows: Iterator[tuple[str, ...]]


def plain_tables() -> Iterator[PlainTable]:
    """Every projection; what another row is called stands beside its ID, inches beside mm.

    Passwords, PINs and the marks of devices are left out.
    """
    for table in projections():
        cells = list(_cells(table))
        name = str(table._meta.verbose_name).replace(" ", "_")  # noqa: SLF001 - of any table
        yield PlainTable(name, tuple(heading for heading, _ in cells), _rows(table, cells))


def ledger_lines() -> Iterator[str]:
    """Every entry as one line of JSON with all its columns, and its private part where it is."""
    private = {each.entry_id: each for each in Private.objects.all()}
    for entry in Entry.objects.iterator(chunk_size=AT_A_TIME):
        beside = private.get(entry.seq)
        told = {"salt": beside.salt, "body": beside.body} if beside else None
        yield json.dumps({**values_of(entry), "private": told}, ensure_ascii=False)


Cell = tuple[str, Callable[[Model], Any]]


def _rows(table: type[Model], cells: list[Cell]) -> Iterator[tuple[str, ...]]:
    rows = table._base_manager.order_by("pk")  # noqa: SLF001 - of any table
    for row in rows.iterator(chunk_size=AT_A_TIME):
        yield tuple(_text(value_of(row)) for _, value_of in cells)


def _cells(table: type[Model]) -> Iterator[Cell]:
    left_out = NOT_FROM_THE_LEDGER.get(table.__name__, frozenset())
    for column in table._meta.concrete_fields:  # noqa: SLF001 - of any table
        if column.name not in left_out:
            yield from _cells_of(column)


def _cells_of(column: "Field[Any, Any]") -> Iterator[Cell]:
    name = column.attname
    if isinstance(column, ForeignKey):
        named = {row.pk: str(row) for row in column.related_model._base_manager.all()}  # noqa: SLF001
        yield column.name, lambda row: named.get(getattr(row, name))
    if name.endswith(_MM):
        yield f"{name.removesuffix(_MM)}_in", lambda row: _inches(getattr(row, name))
    yield name, lambda row: getattr(row, name)


def _inches(length_mm: float | None) -> float | None:
    return None if length_mm is None else round(length_mm / MM_PER_INCH, 3)


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return json.dumps(value, ensure_ascii=False) if isinstance(value, dict | list) else str(value)
