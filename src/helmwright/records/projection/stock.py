"""What follows for parts on the shelf."""

from django.db.models import F

from helmwright.catalogue.pools import Counts
from helmwright.records.kinds.things import PartsCounted, PartsMoved
from helmwright.records.models import Entry, Helmet, Movement, Part, Sheet, Shelf, Store
from helmwright.records.pad_changes import difference
from helmwright.records.part_place import sizes_by_place
from helmwright.records.projection.known import known_store, sheet_in_use
from helmwright.records.projection.taking_in import keep_row, shelf_before
from helmwright.records.set_aside import SetAsideError
from helmwright.records.sheets import sheet_of


def parts_moved(entry: Entry, said: PartsMoved) -> None:
    """They leave one store and come to the other; one of the two may be outside the room."""
    leaves = None if said.from_store is None else known_store(said.from_store)
    comes = None if said.to_store is None else known_store(said.to_store)
    sheet = sheet_in_use(said.sheet)
    before = shelf_before(comes, sheet, said.place, said.size)
    part = known_part(sheet, said.place, said.size)
    for store, quantity in ((leaves, -said.quantity), (comes, said.quantity)):
        if store is not None:
            move(entry, store, part, quantity, why=said.why, lot=said.lot)
    if comes is not None:
        keep_row(entry, said.take_in, comes.id, before=before, part=part)


def parts_counted(entry: Entry, said: PartsCounted) -> None:
    """The difference to what was expected moves, and the part stands on the store's list."""
    store = known_store(said.store)
    sheet = sheet_in_use(said.sheet)
    before = shelf_before(store, sheet, said.place, said.size)
    part = known_part(sheet, said.place, said.size)
    shelf, _ = Shelf.objects.get_or_create(store=store, part=part)
    found = difference(said.count, shelf.on_hand)
    if found:
        move(entry, store, part, found, why="counted")
    Shelf.objects.filter(pk=shelf.pk).update(counted=entry.seq)
    keep_row(entry, said.take_in, store.id, before=before, part=part)


def move(
    entry: Entry,
    store: Store,
    part: Part,
    quantity: int,
    *,
    why: str,
    helmet: Helmet | None = None,
    lot: str = "",
) -> None:
    """Keep a movement, and the sum beside it. What was done with the hands may go below zero."""
    Movement.objects.create(
        entry=entry.seq,
        store=store,
        part=part,
        quantity=quantity,
        why=why,
        helmet=helmet,
        lot=lot,
        at=entry.server_time,
    )
    shelf, _ = Shelf.objects.get_or_create(store=store, part=part)
    Shelf.objects.filter(pk=shelf.pk).update(on_hand=F("on_hand") + quantity)


def part_at(sheet: Sheet, place: str, size: str) -> Part:
    """The part of that place and size, known from now on."""
    return Part.objects.get_or_create(sheet=sheet, place=place, size=size)[0]


def known_part(sheet: Sheet, place: str, size: str) -> Part:
    """The same, where the sheet lists it."""
    sizes = sizes_by_place(sheet_of(sheet))
    if place not in sizes:
        places = ", ".join(sizes)
        raise SetAsideError(f"{sheet.model} has no part called {place}; there are {places}.")
    if size not in sizes[place]:
        known = ", ".join(sizes[place])
        raise SetAsideError(f"{sheet.model} has no {place} {size}; there are {known}.")
    return part_at(sheet, place, size)


def counts_of(store: Store, sheet: Sheet) -> Counts:
    """What a store lists of a model."""
    rows = Shelf.objects.filter(store=store, part__sheet=sheet)
    return {
        (place, size): count
        for place, size, count in rows.values_list("part__place", "part__size", "on_hand")
    }
