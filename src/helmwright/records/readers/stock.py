"""What stores hold."""

from collections.abc import Callable
from datetime import date
from typing import NamedTuple
from uuid import UUID

from django.db.models import Count, QuerySet, Sum
from django.db.models.functions import TruncDate
from django.utils import timezone

from helmwright.records.models import Movement, Reservation, Sheet, Shelf
from helmwright.records.part_place import pad_sizes, sizes_by_place
from helmwright.records.sheets import sheet_of
from helmwright.visit.shelf import Row


class PartRow(NamedTuple):
    """One part on a store's list."""

    part: int
    sheet: str
    model: str
    place: str
    size: str
    store: UUID
    store_name: str
    on_hand: int
    reserved: int

    @property
    def free(self) -> int:
        """On hand and spoken for by nobody; never below zero."""
        return max(self.on_hand - self.reserved, 0)

    @property
    def is_to_be_counted(self) -> bool:
        """More was taken out with the hands than was ever counted in."""
        return self.on_hand < 0


def shelf_rows(store: UUID, sheet: str, *, visit: UUID | None = None) -> list[Row]:
    """The pads that a store has for a fitting, as `visit.Shelf.of` takes them.

    Parameters
    ----------
    store, sheet
        Where, and any version of the model's sheet.
    visit
        Whose own reservations do not make a part scarce.

    Notes
    -----
    Pads that others have spoken for are not there, and a part below zero is none. Shells are no
    rows: each is a helmet of its own.
    """
    listed = pad_sizes(sheet_of(Sheet.objects.get(pk=sheet)))
    rows = store_parts(store, sheet=sheet, without=visit)
    return [
        (row.place, row.size, row.free) for row in rows if row.size in listed.get(row.place, ())
    ]


def store_parts(
    store: UUID, *, sheet: str | None = None, without: UUID | None = None
) -> list[PartRow]:
    """A store's list: by model, then place and size.

    Parameters
    ----------
    sheet
        Only parts of this sheet's model, whichever version; of all where left out.
    without
        A visit whose reservations are not counted.
    """
    shelves = Shelf.objects.filter(store=store)
    if sheet is not None:
        shelves = shelves.filter(part__sheet__model__in=_model(sheet))
    return _part_rows(shelves, without)


def parts_below_zero() -> list[PartRow]:
    """Differences that wait to be counted, in every store."""
    return _part_rows(Shelf.objects.filter(on_hand__lt=0), None)


def history_by_day(store: UUID, part: int) -> list[tuple[date, int]]:
    """How many a store held at the end of each day on which the part moved."""
    moved = (
        Movement.objects.filter(store=store, part=part)
        .annotate(day=TruncDate("at", tzinfo=timezone.get_default_timezone()))
        .values_list("day")
        .annotate(moved=Sum("quantity"))
        .order_by("day")
    )
    held, steps = 0, []
    for day, quantity in moved:
        held += quantity
        steps.append((day, held))
    return steps


def movements(store: UUID, part: int, *, most: int = 200) -> QuerySet[Movement]:
    """The last movements of a part in a store, newest first."""
    rows = Movement.objects.filter(store=store, part=part).select_related("helmet")
    return rows.order_by("-entry", "-pk")[:most]


def _model(sheet: str) -> QuerySet[Sheet, str]:
    return Sheet.objects.filter(digest=sheet).values_list("model", flat=True)


def _part_rows(shelves: QuerySet[Shelf], without: UUID | None) -> list[PartRow]:
    rows = shelves.select_related("part", "store").defer("part__sheet__text")
    models = dict(Sheet.objects.values_list("digest", "model"))
    reserved = _reserved(without)
    found = [
        PartRow(
            part=row.part_id,
            sheet=row.part.sheet_id,
            model=models[row.part.sheet_id],
            place=row.part.place,
            size=row.part.size,
            store=row.store_id,
            store_name=row.store.name,
            on_hand=row.on_hand,
            reserved=reserved.get((row.store_id, row.part_id), 0),
        )
        for row in rows
    ]
    return sorted(found, key=_order())


def _order() -> Callable[[PartRow], tuple[object, ...]]:
    """By store, model and place; sizes as their sheet lists them, thin to thick."""
    sheets = {
        row.digest: sizes_by_place(sheet_of(row)) for row in Sheet.objects.filter(is_current=True)
    }

    def place(row: PartRow) -> tuple[object, ...]:
        places = sheets[row.sheet]
        at = list(places).index(row.place), places[row.place].index(row.size)
        return row.store_name, row.model, *at

    return place


def _reserved(without: UUID | None) -> dict[tuple[UUID, int], int]:
    held = Reservation.objects.filter(until__isnull=True, part__isnull=False)
    if without is not None:
        held = held.exclude(visit=without)
    counted = held.values_list("store", "part").annotate(held=Count("pk"))
    return {(store, part): count for store, part, count in counted if part is not None}
