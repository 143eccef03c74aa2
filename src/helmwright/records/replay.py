"""The ledger told again, from the first entry on, to empty tables.

The tables stand in a database in memory of its own: the room's is neither written nor held up, a
fault in a projection cannot reach it, and nothing personal is left on a disk. The same for a room
on PostgreSQL: constraints are those of the models.
"""

import json
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from django.apps import apps
from django.db import connections, transaction
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.utils import ConnectionHandler

from helmwright.records import append_only
from helmwright.records.contents import Contents, contents
from helmwright.records.kinds import KINDS, Payload
from helmwright.records.ledger import effect_of
from helmwright.records.models import Entry, Outcome, Private

_IN_MEMORY = {"ENGINE": "django.db.backends.sqlite3", "NAME": ":memory:"}


class NotUnderstoodError(ValueError):
    """An entry is in the ledger that the program would not have taken."""


@dataclass(frozen=True, slots=True)
class Told:
    """What the ledger tells when it is told again.

    Parameters
    ----------
    contents
        Of every projection.
    other_outcomes
        Entries that were taken and are set aside this time, with the reason; or the other way
        round, without one. The words of a reason may change, its effect may not.
    """

    contents: Contents
    other_outcomes: tuple[tuple[int, str], ...]


def told_again(entries: Sequence[Entry], privates: Sequence[Private]) -> Told:
    """What follows from these entries in their order, and from nothing else."""
    by_entry = {private.entry_id: private for private in privates}
    others: list[tuple[int, str]] = []
    with empty_tables(), transaction.atomic():
        for entry in entries:
            private = by_entry.get(entry.seq)
            note = effect_of(entry, payload_from(entry, private))
            if bool(note) != (entry.outcome == Outcome.SET_ASIDE):
                others.append((entry.seq, note))
            _keep(entry, private)
        return Told(contents(), tuple(others))


def payload_from(entry: Entry, private: Private | None) -> Payload:
    """What an entry says, with its private part where that is there.

    Raises
    ------
    NotUnderstoodError
        Where it is of no known kind, or not of the form of its kind.
    """
    try:
        data: dict[str, Any] = json.loads(entry.payload)
        if private is not None:
            data |= json.loads(private.body)
        return KINDS[entry.kind].model_validate(data)
    except (KeyError, ValueError) as error:
        raise NotUnderstoodError(
            f"entry {entry.seq} ({entry.kind}) says nothing that this release understands"
        ) from error


def _keep(entry: Entry, private: Private | None) -> None:
    Entry.objects.bulk_create([entry])
    if private is not None:
        Private.objects.bulk_create([private])


@contextmanager
def empty_tables() -> Iterator[None]:
    """Have every question of this thread go to new, empty tables in memory."""
    usual = connections["default"]
    beside = ConnectionHandler({"default": dict(_IN_MEMORY)})["default"]
    try:
        with beside.schema_editor() as editor:
            for table in apps.get_app_config("records").get_models():
                editor.create_model(table)
        append_only.put(beside)
        connections["default"] = beside
        yield
    finally:
        connections["default"] = usual
        BaseDatabaseWrapper.close(beside)  # SQLite's own keeps a database in memory open
