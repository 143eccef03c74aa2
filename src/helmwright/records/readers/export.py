"""Everything that the room knows, as plain tables and lines for other programs and other years."""

import csv
import json
from collections.abc import Callable, Iterator
from datetime import datetime
from typing import Any, NamedTuple

from django.db.models import Field, ForeignKey, Model

from helmwright.records.contents import NOT_FROM_THE_LEDGER, projections
from helmwright.records.head import Head
from helmwright.records.models import Entry, Private
from helmwright.records.plain_rows import values_of
from helmwright.roster.formulas import safe
from helmwright.units import MM_PER_INCH

AT_A_TIME = 2000
TABLE = ".csv"
_MM = "_mm"


class NamedText(NamedTuple):
    """A file to be: its name, and its lines with their ends, read as they are asked for."""

    name: str
    lines: Iterator[str]


def plain_tables() -> Iterator[NamedText]:
    """Every projection as CSV; what another row is called stands beside its ID, inches beside mm.

    Passwords, PINs and the marks of devices are left out. No cell is a formula.
    """
    for table in projections():
        name = str(table._meta.verbose_name).replace(" ", "_")  # noqa: SLF001 - of any table
        yield NamedText(f"{name}{TABLE}", _csv(table, list(_cells(table))))


def ledger_text() -> NamedText:
    """Every entry as one line of JSON with all its columns, and its private part where it is."""
    return NamedText("ledger.jsonl", _ledger_lines())


def head_text(at: Head, *, release: str, now: datetime) -> NamedText:
    """The head of the chain in full, to be kept elsewhere."""
    told = (
        f"entry {at.seq}",
        at.digest,
        f"short: {at.short}",
        f"exported {now:%Y-%m-%d %H:%M:%S} UTC by Helmwright {release}",
    )
    return NamedText("head.txt", (f"{line}\n" for line in told))


def _ledger_lines() -> Iterator[str]:
    private = {each.entry_id: each for each in Private.objects.all()}
    for entry in Entry.objects.iterator(chunk_size=AT_A_TIME):
        beside = private.get(entry.seq)
        told = {"salt": beside.salt, "body": beside.body} if beside else None
        line = json.dumps({**values_of(entry), "private": told}, ensure_ascii=False)
        yield f"{line}\n"


Cell = tuple[str, Callable[[Model], Any]]


def _csv(table: type[Model], cells: list[Cell]) -> Iterator[str]:
    writer = csv.writer(_Line(), lineterminator="\n")
    yield writer.writerow(heading for heading, _ in cells)
    rows = table._base_manager.order_by("pk")  # noqa: SLF001 - of any table
    for row in rows.iterator(chunk_size=AT_A_TIME):
        yield writer.writerow(safe(_text(value_of(row))) for _, value_of in cells)


class _Line:
    """What is written to it comes back from `writerow`."""

    def write(self, line: str) -> str:
        return line


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
