"""What a file's entries did is kept beside them, so that the file can be undone as a whole."""

from collections.abc import Mapping
from datetime import date
from typing import Any
from uuid import UUID

from helmwright.records.kinds.things import TakenIn
from helmwright.records.models import Entry, Part, Sheet, Shelf, Store, TakeIn, TakeInRow
from helmwright.records.projection.known import who_said
from helmwright.records.set_aside import SetAsideError

READING = "reading"
STORE = "store_id"
LISTED = "listed"
COUNTED = "counted"
KNOWN = "known"


def taken_in(entry: Entry, said: TakenIn) -> None:
    """A file was taken in; what it did follows."""
    if TakeIn.objects.filter(id=said.take_in).exists():
        raise SetAsideError("This file was taken in already; nothing was done twice.")
    TakeIn.objects.create(
        id=said.take_in,
        what=said.what,
        file_name=said.file_name,
        file_digest=said.file_digest,
        rows=said.rows,
        at=entry.server_time,
        by=who_said(entry),
    )


def standing_take_in(take_in: UUID) -> TakeIn:
    """The file, not undone.

    Raises
    ------
    SetAsideError
        Where there is none, or where it was undone.
    """
    found = TakeIn.objects.filter(id=take_in).first()
    if found is None:
        raise SetAsideError("No such file was taken in. Take the file in first.")
    if found.undone_at is not None:
        raise SetAsideError("This file was undone before; take it in again where it is wanted.")
    return found


def keep_row(
    entry: Entry,
    take_in: UUID | None,
    subject: UUID,
    *,
    before: Mapping[str, Any] | None = None,
    after: Mapping[str, Any] | None = None,
    part: Part | None = None,
) -> None:
    """Keep what was there and what is, where a file said so."""
    if take_in is not None:
        TakeInRow.objects.create(
            take_in=standing_take_in(take_in),
            entry=entry.seq,
            kind=entry.kind,
            subject=subject,
            part=part,
            before=before,
            after=after,
        )


def shelf_before(store: Store | None, sheet: Sheet, place: str, size: str) -> dict[str, Any]:
    """Whether the part is known, whether the store lists it, and when it was counted last."""
    parts = Part.objects.filter(sheet=sheet, place=place, size=size)
    shelf = Shelf.objects.filter(store=store, part__in=parts).first() if store else None
    counted = shelf.counted if shelf else None
    return {KNOWN: parts.exists(), LISTED: shelf is not None, COUNTED: counted}


def told(fields: Mapping[str, Any]) -> dict[str, Any]:
    """Fields of a helmet as JSON holds them."""
    return {
        name: value.isoformat() if isinstance(value, date) else value
        for name, value in fields.items()
    }
