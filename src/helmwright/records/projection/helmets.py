"""What follows for helmets."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from helmwright.catalogue import ZONES, ModelSheet
from helmwright.records.kinds.things import (
    HelmetAdded,
    HelmetChanged,
    HelmetFields,
    HelmetHeld,
    HelmetMoved,
    HelmetReleased,
    HelmetRetired,
)
from helmwright.records.models import Entry, Helmet, Sheet
from helmwright.records.projection.builds import refuse_unlisted
from helmwright.records.projection.known import known_helmet, known_store, sheet_in_use
from helmwright.records.projection.taking_in import STORE, keep_row, told
from helmwright.records.set_aside import SetAsideError
from helmwright.records.sheets import sheet_of
from helmwright.records.words import room_day

_FIELDS = tuple(HelmetFields.model_fields)


def helmet_added(entry: Entry, said: HelmetAdded) -> None:
    """A helmet is there, with what its shell arrived with where nothing else was said."""
    row, store = sheet_in_use(said.sheet), known_store(said.store)
    sheet = sheet_of(row)
    if Helmet.objects.filter(code=said.code).exists():
        raise SetAsideError(f"There is a helmet {said.code} already; give this one another ID.")
    if Helmet.objects.filter(id=said.helmet).exists():
        raise SetAsideError("That helmet was added already, under another ID on its label.")
    if said.shell not in {shell.number for shell in sheet.shells}:
        known = ", ".join(str(shell.number) for shell in sheet.shells)
        raise SetAsideError(f"{sheet.model} has no shell {said.shell}; it has {known}.")
    refuse_unlisted(sheet, said.pads)
    _refuse_impossible(said, row, said.helmet)
    helmet = Helmet.objects.create(
        id=said.helmet,
        code=said.code,
        sheet=row,
        shell=said.shell,
        store=store,
        **_fields(said, sheet),
    )
    pads = _delivered(sheet) | said.pads
    helmet.builds.create(pads=pads, since=entry.server_time, entry=entry.seq)
    keep_row(entry, said.take_in, helmet.id, after=told(_known(helmet)))


def helmet_changed(entry: Entry, said: HelmetChanged) -> None:
    """Of each field what was said last is known; what is in it stays."""
    helmet = known_helmet(said.helmet)
    before = _known(helmet)
    fields = said.said(_FIELDS)
    _refuse_impossible(HelmetFields(**(before | fields)), helmet.sheet, helmet.id)
    fields |= _by_the_sheet(fields, sheet_of(helmet.sheet))
    Helmet.objects.filter(pk=helmet.pk).update(**fields)
    before = {name: before[name] for name in fields}
    keep_row(entry, said.take_in, helmet.id, before=told(before), after=told(fields))


def helmet_held(_entry: Entry, said: HelmetHeld) -> None:
    """It is on hold; a second reason stands beside the first."""
    helmet = known_helmet(said.helmet)
    helmet.hold = "; ".join(filter(None, (helmet.hold, said.why)))
    helmet.save(update_fields=["hold"])


def helmet_released(_entry: Entry, said: HelmetReleased) -> None:
    """Every reason for the hold is gone."""
    helmet = known_helmet(said.helmet)
    if not helmet.hold:
        raise SetAsideError(f"{helmet.code} was not on hold; there is nothing to lift.")
    helmet.hold = ""
    helmet.save(update_fields=["hold"])


def helmet_retired(entry: Entry, said: HelmetRetired) -> None:
    """It is never issued again; what is in it goes with it."""
    helmet = known_helmet(said.helmet)
    if helmet.retired_on is not None:
        raise SetAsideError(f"{helmet.code} was retired before.")
    helmet.retired_on = room_day(entry.server_time)
    helmet.save(update_fields=["retired_on"])


def helmet_moved(entry: Entry, said: HelmetMoved) -> None:
    """It belongs to another store."""
    helmet = known_helmet(said.helmet)
    before = {STORE: str(helmet.store_id)}
    helmet.store = known_store(said.store)
    helmet.save(update_fields=["store"])
    after = {STORE: str(helmet.store_id)}
    keep_row(entry, said.take_in, helmet.id, before=before, after=after)


def _fields(said: HelmetFields, sheet: ModelSheet) -> dict[str, Any]:
    """What was said; interval and life by the sheet where they were left out."""
    fields = {name: getattr(said, name) for name in _FIELDS}
    return fields | _by_the_sheet(fields, sheet)


def _by_the_sheet(fields: Mapping[str, Any], sheet: ModelSheet) -> dict[str, Any]:
    """What takes the place of an interval and a life that are said to be empty."""
    # Whole years in a row, the shorter way; the sheet's own number is asked at issue, too.
    life = int(sheet.life_years) or None if sheet.life_years is not None else None
    usual = {"interval_months": sheet.recertification_months, "life_years": life}
    return {name: each for name, each in usual.items() if name in fields and fields[name] is None}


def _known(helmet: Helmet) -> dict[str, Any]:
    return {name: getattr(helmet, name) for name in _FIELDS}


def _delivered(sheet: ModelSheet) -> dict[str, str]:
    pads = zip(ZONES, sheet.pads, sheet.delivered, strict=True)
    return {str(zone): kind.labels[index] for zone, kind, index in pads}


def _refuse_impossible(said: HelmetFields, sheet: Sheet, helmet: UUID) -> None:
    made, bought = said.made_on, said.bought_on
    if made is not None and bought is not None and bought < made:
        raise SetAsideError("It cannot have been bought before it was made; look at the two dates.")
    others = Helmet.objects.filter(sheet=sheet, serial=said.serial).exclude(pk=helmet)
    other = others.first() if said.serial else None
    if other is not None:
        raise SetAsideError(
            f"{other.code} has the serial number {said.serial} already; look at both."
        )
