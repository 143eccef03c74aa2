"""What follows for model sheets and stores."""

from helmwright.catalogue import ModelSheet, SheetError
from helmwright.records.kinds.things import SheetAdded, StoreOpened
from helmwright.records.models import Entry, Helmet, HelmetBuild, Part, Sheet, Store
from helmwright.records.part_place import sizes_by_place, swapped_zones
from helmwright.records.set_aside import SetAsideError
from helmwright.records.sheets import read_sheet
from helmwright.visit.sheet_digest import sheet_digest

_LONGEST_MODEL = 80
_LONGEST_SIZE = 60


def sheet_added(entry: Entry, said: SheetAdded) -> None:
    """It is the model's current sheet; helmets and parts of the model go by it from now on."""
    sheet = _read(said)
    _refuse_long(sheet)
    older = Sheet.objects.filter(model=sheet.model, is_current=True).first()
    if older is not None and older.digest == said.digest:
        raise SetAsideError(f"This sheet of {sheet.model} is here already, and current.")
    if older is not None:
        _refuse_lacking(sheet, older)
        older.is_current = False
        older.save(update_fields=["is_current"])
    row, _ = Sheet.objects.update_or_create(
        digest=said.digest,
        defaults={"is_current": True},
        create_defaults={
            "digest": said.digest,
            "model": sheet.model,
            "is_invented": sheet.invented,
            "text": said.text,
            "added_at": entry.server_time,
            "is_current": True,
        },
    )
    if older is not None:
        Helmet.objects.filter(sheet=older).update(sheet=row)
        Part.objects.filter(sheet=older).update(sheet=row)


def store_opened(_entry: Entry, said: StoreOpened) -> None:
    """A store is there, and empty."""
    if Store.objects.filter(name=said.name).exists():
        raise SetAsideError(f"There is a store called {said.name} already; take another name.")
    if Store.objects.filter(id=said.store).exists():
        raise SetAsideError("A store of that ID is here already, under another name.")
    Store.objects.create(id=said.store, name=said.name)


def _read(said: SheetAdded) -> ModelSheet:
    try:
        sheet = read_sheet(said.text)
    except SheetError as fault:
        raise SetAsideError(f"The model sheet cannot be read: {fault}") from fault
    if sheet_digest(sheet) != said.digest:
        raise SetAsideError("The digest is not that of the model sheet; add the sheet anew.")
    return sheet


def _refuse_long(sheet: ModelSheet) -> None:
    """What is written on a shelf's row has to go into it."""
    sizes = (size for place in sizes_by_place(sheet).values() for size in place)
    for name, most in ((sheet.model, _LONGEST_MODEL), *((size, _LONGEST_SIZE) for size in sizes)):
        if len(name) > most:
            raise SetAsideError(f"{name!r} is longer than {most} letters; shorten it on the sheet.")


def _refuse_lacking(sheet: ModelSheet, older: Sheet) -> None:
    """A new version must still know every shell, pad and part that the room holds."""
    sizes = sizes_by_place(sheet)
    shells = {shell.number for shell in sheet.shells}
    for code, shell in Helmet.objects.filter(sheet=older).values_list("code", "shell"):
        if shell not in shells:
            _lacks(sheet, f"shell {shell}", f"{code} has that shell")
    builds = HelmetBuild.objects.filter(helmet__sheet=older, until__isnull=True)
    for code, pads in builds.values_list("helmet__code", "pads"):
        for zone in swapped_zones(sheet):
            if pads[zone] not in sizes[zone]:
                _lacks(sheet, f"{zone} pad {pads[zone]}", f"one is in {code}")
    for place, size in Part.objects.filter(sheet=older).values_list("place", "size"):
        if size not in sizes.get(place, ()):
            _lacks(sheet, f"{place} {size}", "a store lists it")


def _lacks(sheet: ModelSheet, what: str, why: str) -> None:
    raise SetAsideError(
        f"The new sheet of {sheet.model} has no {what}, but {why}; put it on the sheet, too."
    )
