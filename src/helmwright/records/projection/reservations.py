"""What follows where a helmet or a part is spoken for before it is taken: the first has it."""

from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db.models import QuerySet

from helmwright.catalogue import Zone
from helmwright.catalogue.pools import POOL_OF
from helmwright.records.kinds.visits import HelmetReserved, PartReserved, ReservationsReleased
from helmwright.records.models import (
    Entry,
    Helmet,
    Issue,
    Part,
    Reservation,
    Sheet,
    Shelf,
    Store,
    Visit,
)
from helmwright.records.pad_changes import free_slot
from helmwright.records.part_lost import part_lost
from helmwright.records.part_place import is_swapped
from helmwright.records.projection.builds import refuse_unlisted
from helmwright.records.projection.known import (
    device_of,
    known_helmet,
    known_store,
    known_visit,
    sheet_in_use,
)
from helmwright.records.readers.helmet_refusal import helmet_refusal, station_name
from helmwright.records.set_aside import SetAsideError
from helmwright.records.sheets import sheet_of
from helmwright.records.words import since


def helmet_reserved(entry: Entry, said: HelmetReserved) -> None:
    """The visit has this helmet, where nobody else has it."""
    visit, helmet = _open_visit(said.visit), known_helmet(said.helmet)
    if _held(visit, helmet=helmet).exists():
        return
    if helmet.sheet.model != visit.sheet.model:
        raise SetAsideError(
            f"{helmet.code} is another model than the visit is of. Take another helmet, or begin a"
            " visit of its model."
        )
    why = helmet_refusal(helmet, visit.player_id, now=entry.server_time)
    if why:
        raise SetAsideError(why)
    give_to_visit(entry, visit, helmet)


def give_to_visit(entry: Entry, visit: Visit, helmet: Helmet) -> None:
    """It is the visit's, where nobody else has it; another one meant for the player is free."""
    _free_helmets(entry, visit)
    _reserve(entry, visit, helmet.store, helmet=helmet)
    visit.helmet = helmet
    visit.save(update_fields=["helmet"])


def take_from_visit(entry: Entry, visit: Visit) -> None:
    """The visit has no helmet, and none is meant for its player."""
    _free_helmets(entry, visit)
    visit.helmet = None
    visit.save(update_fields=["helmet"])


def _free_helmets(entry: Entry, visit: Visit) -> None:
    theirs = Reservation.objects.filter(visit__player=visit.player_id, until__isnull=True)
    theirs.filter(helmet__isnull=False).update(until=entry.server_time)


def part_reserved(entry: Entry, said: PartReserved) -> None:
    """The visit has this part for a zone, and gives up another that it had for it."""
    visit, store = _open_visit(said.visit), known_store(said.store)
    sheet = sheet_in_use(visit.sheet_id)
    refuse_unlisted(sheet_of(sheet), {said.zone: said.size})
    if not is_swapped(sheet_of(sheet), Zone(said.zone)):
        raise SetAsideError(f"The {said.zone} pad stays in its shell; there is nothing to reserve.")
    same = {"store": store, "zone": said.zone, "part__size": said.size}
    if _held(visit, **same).exists():
        return
    # What the visit had spoken for in this zone is free for it as for others.
    _held(visit, zone=said.zone, part__isnull=False).update(until=entry.server_time)
    part, slot = _free_part(store, sheet, said.zone, said.size)
    if part is None:
        raise SetAsideError(_lost(sheet, store, said, entry.server_time))
    _reserve(entry, visit, store, part=part, zone=said.zone, slot=slot)


def reservations_released(entry: Entry, said: ReservationsReleased) -> None:
    """All that the visit had spoken for and not used is free, an accepted helmet, too."""
    _held(known_visit(said.visit)).update(until=entry.server_time)


def release_for(visit: Visit, entry: Entry) -> None:
    """End what a visit had spoken for, as when it ends.

    The helmet that was accepted stays meant for its player until it is issued or let go: it may
    wait on a shelf for a signature.
    """
    kept = _kept_helmet(visit)
    _held(visit).exclude(helmet__in=kept).update(until=entry.server_time)
    for helmet in kept:
        # Another visit may have it by now, where this one named it without a reservation.
        if not Reservation.objects.filter(helmet=helmet, until__isnull=True).exists():
            _reserve(entry, visit, visit.store, helmet=helmet)


def _kept_helmet(visit: Visit) -> list[Helmet]:
    if visit.state != "accepted" or visit.helmet is None:
        return []
    out = Issue.objects.filter(helmet=visit.helmet, until__isnull=True)
    return [] if out.exists() else [visit.helmet]


def _open_visit(key: UUID) -> Visit:
    visit = known_visit(key)
    if visit.ended_at is not None:
        raise SetAsideError("That visit has ended; undo its end or begin another one first.")
    return visit


def _held(visit: Visit, **what: Any) -> QuerySet[Reservation]:
    return Reservation.objects.filter(visit=visit, until__isnull=True, **what)


def _reserve(entry: Entry, visit: Visit, store: Store, **what: Any) -> None:
    Reservation.objects.create(
        id=entry.id,
        visit=visit,
        store=store,
        device=device_of(entry),
        at=entry.server_time,
        **what,
    )


def _free_part(store: Store, sheet: Sheet, zone: str, size: str) -> tuple[Part | None, int]:
    """The part that serves a zone, its own row first, and the lowest free slot of it here."""
    for part, on_hand in _serving(store, sheet, zone, size):
        taken = Reservation.objects.filter(store=store, part=part, until__isnull=True)
        slot = free_slot(on_hand, set(taken.values_list("slot", flat=True)))
        if slot is not None:
            return part, slot
    return None, 0


def _serving(store: Store, sheet: Sheet, zone: str, size: str) -> list[tuple[Part, int]]:
    places = [zone, POOL_OF.get(zone, zone)]
    rows = Shelf.objects.filter(
        store=store, part__sheet=sheet, part__place__in=places, part__size=size
    ).select_related("part")
    return sorted(
        ((row.part, row.on_hand) for row in rows), key=lambda each: places.index(each[0].place)
    )


def _lost(sheet: Sheet, store: Store, said: PartReserved, now: datetime) -> str:
    # Sorted here, and by no database's own idea of letters: told again, it must read the same.
    elsewhere = sorted(
        (other.name, left)
        for other in Store.objects.exclude(pk=store.pk).filter(is_closed=False)
        if (left := _left(other, sheet, said.zone, said.size)) > 0
    )
    taken = _who_took(store, sheet, said, now)
    return part_lost(f"{said.zone} {said.size}", store.name, taken, elsewhere)


def _left(store: Store, sheet: Sheet, zone: str, size: str) -> int:
    """How many nobody has spoken for."""
    return sum(
        max(on_hand - _taken(store, part), 0)
        for part, on_hand in _serving(store, sheet, zone, size)
    )


def _taken(store: Store, part: Part) -> int:
    return Reservation.objects.filter(store=store, part=part, until__isnull=True).count()


def _who_took(store: Store, sheet: Sheet, said: PartReserved, now: datetime) -> str:
    """The station that has the last one, or had it and used it."""
    places = [said.zone, POOL_OF.get(said.zone, said.zone)]
    asked = Reservation.objects.filter(
        store=store, part__sheet=sheet, part__place__in=places, part__size=said.size
    ).exclude(visit=said.visit)
    last = asked.select_related("device").order_by("-at", "-id").first()
    if last is None:
        return ""
    who, when = station_name(last.device), since(last.at, now=now)
    return f"{who} took the last {said.zone} {said.size} {when}."


PROJECTORS: Mapping[str, Callable[[Entry, Any], None]] = {
    HelmetReserved.KIND: helmet_reserved,
    PartReserved.KIND: part_reserved,
    ReservationsReleased.KIND: reservations_released,
}
