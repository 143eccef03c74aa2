"""What follows for the pads in a helmet, and for the shelf they come from."""

from collections.abc import Mapping, Sequence

from helmwright.catalogue import ZONES, ModelSheet
from helmwright.catalogue.pools import place_of_return, place_to_take
from helmwright.records.kinds.things import FaceChanged, PartsChanged
from helmwright.records.models import Entry, Helmet, HelmetBuild, Reservation, Store
from helmwright.records.pad_changes import PadChange, changed_pads
from helmwright.records.part_place import (
    GUARD,
    STRAP,
    sizes_by_place,
    swapped_zones,
)
from helmwright.records.projection.known import known_helmet, known_store
from helmwright.records.projection.stock import counts_of, move, part_at
from helmwright.records.set_aside import SetAsideError
from helmwright.records.sheets import sheet_of


def parts_changed(entry: Entry, said: PartsChanged) -> None:
    """Done with the hands: it holds, whatever the shelf was thought to have."""
    helmet, store = known_helmet(said.helmet), known_store(said.store)
    refuse_unlisted(sheet_of(helmet.sheet), said.pads)
    set_build(entry, helmet, said.pads, store)


def face_changed(entry: Entry, said: FaceChanged) -> None:
    """The old part goes to the shelf and the new one comes from it, where the sheet lists them."""
    helmet, store = known_helmet(said.helmet), known_store(said.store)
    for place, out, into in (
        (GUARD, helmet.guard, said.guard),
        (STRAP, helmet.strap, said.strap),
    ):
        if into is not None and into != out:
            _swap_face(entry, helmet, store, PadChange(place, out, into))
    helmet.guard = helmet.guard if said.guard is None else said.guard
    helmet.strap = helmet.strap if said.strap is None else said.strap
    helmet.save(update_fields=["guard", "strap"])


def pads_of(helmet: Helmet) -> dict[str, str]:
    """What is in a helmet now."""
    pads: dict[str, str] = helmet.builds.get(until__isnull=True).pads
    return pads


def set_build(entry: Entry, helmet: Helmet, pads: Mapping[str, str], store: Store) -> None:
    """Bring a helmet's build to what is in it, and move the shelf of a store with it.

    Parameters
    ----------
    entry
        What says so.
    helmet
        Has a build already.
    pads
        Zone to label; a zone that is left out stays as it is.
    store
        Where old pads go and new ones come from; its counts may go below zero.
    """
    build = helmet.builds.get(until__isnull=True)
    after = {**build.pads, **pads}
    if after == build.pads:
        return
    changes = changed_pads(build.pads, after, swapped_zones(sheet_of(helmet.sheet)))
    _move_pads(entry, helmet, store, changes)
    _use_reserved(entry, helmet, changes)
    # A clock that was set back must not end a build before it began.
    moment = max(entry.server_time, build.since)
    HelmetBuild.objects.filter(pk=build.pk).update(until=moment)
    helmet.builds.create(pads=after, since=moment, entry=entry.seq)


def refuse_unlisted(sheet: ModelSheet, pads: Mapping[str, str]) -> None:
    """Set aside what names a zone or a pad that the sheet does not have."""
    for zone, label in pads.items():
        if zone not in ZONES:
            raise SetAsideError(f"There is no zone {zone}; there are {', '.join(ZONES)}.")
        labels = next(kind.labels for kind in sheet.pads if kind.zone == zone)
        if label not in labels:
            known = ", ".join(labels)
            raise SetAsideError(f"{sheet.model} has no {zone} pad {label}; there are {known}.")


def _move_pads(entry: Entry, helmet: Helmet, store: Store, changes: Sequence[PadChange]) -> None:
    """Everything that comes out goes to the shelf first: a pad may go to the other side."""
    for change in changes:
        counts = counts_of(store, helmet.sheet)
        place = place_of_return(counts, change.zone, change.out)
        part = part_at(helmet.sheet, place, change.out)
        move(entry, store, part, 1, why="out of a helmet", helmet=helmet)
    for change in changes:
        counts = counts_of(store, helmet.sheet)
        place = place_to_take(counts, change.zone, change.into)
        part = part_at(helmet.sheet, place, change.into)
        move(entry, store, part, -1, why="into a helmet", helmet=helmet)


def _use_reserved(entry: Entry, helmet: Helmet, changes: Sequence[PadChange]) -> None:
    """What the helmet's visit had spoken for is in the helmet now."""
    for change in changes:
        Reservation.objects.filter(
            visit__helmet=helmet,
            until__isnull=True,
            zone=change.zone,
            part__size=change.into,
        ).update(until=entry.server_time)


def _swap_face(entry: Entry, helmet: Helmet, store: Store, change: PadChange) -> None:
    listed = sizes_by_place(sheet_of(helmet.sheet)).get(change.zone, ())
    sides = ((change.out, 1, "out of a helmet"), (change.into, -1, "into a helmet"))
    for name, quantity, why in sides:
        if name in listed:
            part = part_at(helmet.sheet, change.zone, name)
            move(entry, store, part, quantity, why=why, helmet=helmet)
