"""Whether the ledger is whole, and the tables are what follows from it."""

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from uuid import UUID

from django.db import connection

from helmwright.records import append_only
from helmwright.records.chain import COVERED, GENESIS, digest_of
from helmwright.records.contents import Contents, contents, first_difference
from helmwright.records.head import Head
from helmwright.records.kinds import salted_digest
from helmwright.records.kinds.people import PlayerAdded
from helmwright.records.models import Entry, Player, Private, Staff
from helmwright.records.replay import NotUnderstoodError, payload_from, told_again
from helmwright.records.snapshot import at_one_moment


@dataclass(frozen=True, slots=True)
class Verdict:
    """What was found.

    Parameters
    ----------
    head
        Of the chain as it stands.
    private, erased
        Private parts that are there, and those that were erased.
    rows
        Rows of all tables that were built anew and compared.
    faults
        What is wrong, the first of each kind first; empty where nothing is.
    """

    head: Head
    private: int
    erased: int
    rows: int
    faults: tuple[str, ...]

    @property
    def is_whole(self) -> bool:
        """Whether nothing is wrong."""
        return not self.faults


@dataclass(frozen=True, slots=True)
class _Moment:
    entries: Sequence[Entry]
    privates: Sequence[Private]
    tables: Contents
    players: frozenset[UUID]
    nameless: frozenset[UUID]


def verify(*, told_head: str = "") -> Verdict:
    """Check the chain, the private parts, the guard, and the tables against a telling anew.

    Parameters
    ----------
    told_head
        The digest, or its first letters, that paper tells; empty for none.

    Notes
    -----
    Reads everything into memory as of one moment, and builds the tables in a database beside:
    nobody who writes waits.
    """
    with at_one_moment():
        moment = _Moment(
            list(Entry.objects.all()),
            list(Private.objects.order_by("entry")),
            contents(),
            frozenset(Player.objects.filter(erased_at=None).values_list("id", flat=True)),
            frozenset(Staff.objects.exclude(erased_at=None).values_list("id", flat=True)),
        )
        faults = [*_database_faults(), *_faults(moment, told_head)]
    last = moment.entries[-1] if moment.entries else None
    kept = len(moment.privates)
    return Verdict(
        head=Head(last.seq, last.digest) if last else Head(0, GENESIS),
        private=kept,
        erased=sum(bool(entry.private_digest) for entry in moment.entries) - kept,
        rows=sum(map(len, moment.tables.values())),
        faults=tuple(faults),
    )


def _faults(moment: _Moment, told_head: str) -> Iterator[str]:
    broken = [*chain_faults(moment.entries)]
    yield from broken
    if told_head and not any(entry.digest.startswith(told_head) for entry in moment.entries):
        yield (
            f"the head {told_head} is not in the chain: entries were cut off or written anew since"
            " it was printed, or it is another room's"
        )
    if broken:
        yield "what follows from the ledger was not compared: mend the chain first, from a backup"
        return
    try:
        private_faults = [*_private_faults(moment)]
        yield from private_faults[:1]
        if not private_faults:
            yield from _table_faults(moment)
    except NotUnderstoodError as error:
        yield str(error)


def chain_faults(entries: Sequence[Entry]) -> Iterator[str]:
    """The first place where the chain does not hold: whatever follows hangs on it."""
    before = GENESIS
    for place, entry in enumerate(entries, start=1):
        if entry.seq != place:
            yield f"entry {place} is missing; the next one there is entry {entry.seq}"
            return
        if entry.previous != before:
            yield f"entry {place} does not follow the one before it: its `previous` is another"
            return
        if digest_of({name: getattr(entry, name) for name in COVERED}) != entry.digest:
            yield f"entry {place} ({entry.kind}) is not what was written: its digest is another"
            return
        before = entry.digest


def _private_faults(moment: _Moment) -> Iterator[str]:
    privates = {private.entry_id: private for private in moment.privates}
    erased = _erased_or_taken_back(moment)
    for entry in moment.entries:
        private = privates.get(entry.seq)
        if private is not None:
            if salted_digest(private.salt, private.body) != entry.private_digest:
                yield f"the private part of entry {entry.seq} is not what was written"
        elif entry.private_digest and not _is_erased(entry, erased):
            yield (
                f"the private part of entry {entry.seq} is missing, and nobody was erased whom it"
                " is about"
            )


def _erased_or_taken_back(moment: _Moment) -> frozenset[UUID]:
    """Whose private parts may be gone.

    Players who were added and are there no more: erased, or added by a file that was undone; and
    staff whose names were erased.
    """
    added = (entry for entry in moment.entries if entry.kind == PlayerAdded.KIND)
    told = frozenset(UUID(json.loads(entry.payload)["player"]) for entry in added)
    return (told - moment.players) | moment.nameless


def _is_erased(entry: Entry, erased: frozenset[UUID]) -> bool:
    return payload_from(entry, None).whose() in erased


def _table_faults(moment: _Moment) -> Iterator[str]:
    told = told_again(moment.entries, moment.privates)
    for seq, note in told.other_outcomes[:1]:
        yield (
            f"entry {seq} was taken, and told again it is set aside: {note}"
            if note
            else (f"entry {seq} was set aside, and told again it is taken")
        )
    difference = first_difference(moment.tables, told.contents)
    if difference:
        yield difference


def _database_faults() -> Iterator[str]:
    """What the database says of itself."""
    for name in append_only.missing(connection):
        yield f"the guard {name} over the entries is missing: they can be changed"
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA quick_check")
            found = [str(said) for (said,) in cursor.fetchall()]
        if found != ["ok"]:
            yield f"the database file is damaged: {found[0]}"
