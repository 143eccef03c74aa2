"""A file is undone: what nothing leans on is taken back, and the rest stays, with its reason."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any
from uuid import UUID

from helmwright.records.kinds.people import PlayerAdded, PlayerChanged, ReadingTaken
from helmwright.records.kinds.things import (
    HelmetAdded,
    HelmetChanged,
    HelmetMoved,
    PartsCounted,
    PartsMoved,
    TakeInUndone,
)
from helmwright.records.models import (
    Entry,
    Helmet,
    Movement,
    Part,
    Player,
    Private,
    Reading,
    Shelf,
    TakeIn,
    TakeInRow,
)
from helmwright.records.projection.leaning import (
    why_helmet_stays,
    why_parts_stay,
    why_player_stays,
)
from helmwright.records.projection.taking_in import (
    COUNTED,
    KNOWN,
    LISTED,
    READING,
    standing_take_in,
)


@dataclass(frozen=True, slots=True)
class Undoing:
    """Everything that a file did to one player, one helmet or one part of a store.

    Parameters
    ----------
    rows
        In the order of the ledger.
    why_it_stays
        What leans on it; empty where it can be taken back.
    """

    rows: tuple[TakeInRow, ...]
    why_it_stays: str

    @property
    def subject(self) -> UUID:
        """The player, the helmet or the store."""
        found: UUID = self.rows[0].subject
        return found

    @property
    def part(self) -> Part | None:
        """The part, where it is one."""
        return self.rows[0].part


def undoings(take_in: TakeIn) -> list[Undoing]:
    """What would become of a file if it were undone now."""
    return [
        Undoing(rows, _WHY[rows[0].kind](take_in, rows)) for rows in _by_subject(take_in.made.all())
    ]


def take_in_undone(entry: Entry, said: TakeInUndone) -> None:
    """All that can be is taken back, and no trace of it is kept beside the ledger."""
    take_in = standing_take_in(said.take_in)
    for each in undoings(take_in):
        of_it = TakeInRow.objects.filter(pk__in=[row.pk for row in each.rows])
        if each.why_it_stays:
            of_it.update(left=each.why_it_stays)
            continue
        of_it.delete()
        for row in reversed(each.rows):
            _BACK[row.kind](row)
    TakeIn.objects.filter(pk=take_in.pk).update(undone_at=entry.server_time)


def _by_subject(rows: Iterable[TakeInRow]) -> Iterator[tuple[TakeInRow, ...]]:
    def key(row: TakeInRow) -> tuple[str, int]:
        return str(row.subject), row.part_id or 0

    for _, group in groupby(sorted(rows, key=lambda row: (*key(row), row.entry)), key=key):
        yield tuple(group)


def _reading_back(row: TakeInRow) -> None:
    Reading.objects.filter(id=_told(row.after)[READING]).delete()


def _player_back(row: TakeInRow) -> None:
    Player.objects.filter(id=row.subject).update(**_told(row.before))


def _player_gone(row: TakeInRow) -> None:
    """Nothing personal is kept of somebody who was on the roster by mistake."""
    Private.objects.filter(person=row.subject).delete()
    TakeInRow.objects.filter(subject=row.subject).delete()
    Player.objects.get(id=row.subject).delete()


def _helmet_back(row: TakeInRow) -> None:
    Helmet.objects.filter(id=row.subject).update(**_told(row.before))


def _helmet_gone(row: TakeInRow) -> None:
    TakeInRow.objects.filter(subject=row.subject).delete()
    Helmet.objects.get(id=row.subject).delete()


def _parts_back(row: TakeInRow) -> None:
    before = _told(row.before)
    moved = Movement.objects.filter(entry=row.entry)
    shelf = Shelf.objects.get(store=row.subject, part=row.part)
    shelf.on_hand -= sum(moved.values_list("quantity", flat=True))
    shelf.counted = before[COUNTED]
    moved.delete()
    others = Movement.objects.filter(store=row.subject, part=row.part)
    if before[LISTED] or others.exists():
        shelf.save(update_fields=["on_hand", "counted"])
        return
    shelf.delete()
    part = row.part
    is_used = any(
        table.objects.filter(part=part).exists() for table in (Shelf, Movement, TakeInRow)
    )
    if part is not None and not before[KNOWN] and not is_used:
        part.delete()


def _told(fields: Mapping[str, Any] | None) -> Mapping[str, Any]:
    return fields or {}


_BACK: Mapping[str, Callable[[TakeInRow], None]] = {
    PlayerAdded.KIND: _player_gone,
    PlayerChanged.KIND: _player_back,
    ReadingTaken.KIND: _reading_back,
    HelmetAdded.KIND: _helmet_gone,
    HelmetChanged.KIND: _helmet_back,
    HelmetMoved.KIND: _helmet_back,
    PartsMoved.KIND: _parts_back,
    PartsCounted.KIND: _parts_back,
}

_WHY: Mapping[str, Callable[[TakeIn, Sequence[TakeInRow]], str]] = {
    **dict.fromkeys((PlayerAdded.KIND, PlayerChanged.KIND, ReadingTaken.KIND), why_player_stays),
    **dict.fromkeys((HelmetAdded.KIND, HelmetChanged.KIND, HelmetMoved.KIND), why_helmet_stays),
    **dict.fromkeys((PartsMoved.KIND, PartsCounted.KIND), why_parts_stay),
}
