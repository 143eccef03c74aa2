"""Acts upon the parts in stores."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from helmwright.records.kinds.things import PartsCounted, PartsMoved
from helmwright.records.ledger import Kept
from helmwright.records.models import Movement, Staff
from helmwright.records.pad_changes import difference
from helmwright.records.saying import say
from helmwright.records.turns import in_turn


@dataclass(frozen=True, slots=True)
class PartOf:
    """A part by its names: any version of the model's sheet, where it goes, what is on its bag."""

    sheet: str
    place: str
    size: str


@dataclass(frozen=True, slots=True)
class Counted:
    """So many of a part were found.

    Parameters
    ----------
    part
        What was counted.
    count
        How many there were.
    expected
        How many the list said there were, when it was counted; None where nobody looked.
    """

    part: PartOf
    count: int
    expected: int | None = None


class CountRefusedError(ValueError):
    """Nothing of a stock-take was kept; the words say why and what to do."""


def receive_parts(
    *,
    part: PartOf,
    quantity: int,
    store: UUID,
    by: Staff | None,
    now: datetime,
    lot: str = "",
) -> Kept:
    """Parts came from outside."""
    said = _moved(part, quantity, "received", to_store=store, lot=lot)
    return say(said, by=by, now=now)


def move_parts(
    *,
    part: PartOf,
    quantity: int,
    from_store: UUID,
    to_store: UUID,
    by: Staff | None,
    now: datetime,
) -> Kept:
    """Parts went from one store to another."""
    said = _moved(part, quantity, "moved", from_store=from_store, to_store=to_store)
    return say(said, by=by, now=now)


def scrap_parts(
    *, part: PartOf, quantity: int, store: UUID, by: Staff | None, now: datetime
) -> Kept:
    """Parts are gone for good."""
    return say(_moved(part, quantity, "scrapped", from_store=store), by=by, now=now)


def take_stock(
    *, store: UUID, counts: Sequence[Counted], by: Staff | None, now: datetime
) -> list[Kept]:
    """Keep a whole stock-take, or nothing of it.

    Raises
    ------
    CountRefusedError
        Where a part moved since it was counted, or one cannot be counted here.
    """
    with in_turn():
        kept = [say(_counted(store, each), by=by, now=now) for each in counts]
        notes = [each.entry.note for each in kept if not each.is_taken]
        if notes:
            raise CountRefusedError(" ".join(notes))
        _refuse_moved(counts, kept)
        return kept


def _refuse_moved(counts: Sequence[Counted], kept: Sequence[Kept]) -> None:
    """A count says nothing where parts came or went after somebody counted.

    Asked after the entries were appended: from then on nobody else can move a part.
    """
    entries = [each.entry.seq for each in kept]
    found = dict(Movement.objects.filter(entry__in=entries).values_list("entry", "quantity"))
    moved = [
        f"{each.part.place} {each.part.size}"
        for each, entry in zip(counts, entries, strict=True)
        if each.expected is not None
        and found.get(entry, 0) != difference(each.count, each.expected)
    ]
    if moved:
        raise CountRefusedError(
            f"{', '.join(moved)} moved while you counted; count again and save then."
            " Nothing was saved."
        )


def _counted(store: UUID, each: Counted) -> PartsCounted:
    part = each.part
    return PartsCounted(
        store=store, sheet=part.sheet, place=part.place, size=part.size, count=each.count
    )


def _moved(
    part: PartOf,
    quantity: int,
    why: str,
    *,
    from_store: UUID | None = None,
    to_store: UUID | None = None,
    lot: str = "",
) -> PartsMoved:
    return PartsMoved.model_validate(
        {
            "sheet": part.sheet,
            "place": part.place,
            "size": part.size,
            "quantity": quantity,
            "from_store": from_store,
            "to_store": to_store,
            "why": why,
            "lot": lot,
        }
    )
