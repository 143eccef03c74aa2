"""The stores of the room, and what each holds in sum."""

from collections.abc import Mapping
from typing import Any, NamedTuple
from uuid import UUID

from django.db.models import Count, Q, Sum

from helmwright.records.models import Helmet, Issue, Shelf, Store


class StoreRow(NamedTuple):
    """One store of the list."""

    id: UUID
    name: str
    pieces: int
    kinds: int
    to_count: int
    helmets: int

    @property
    def told(self) -> str:
        """What waits to be counted."""
        many = "1 part" if self.to_count == 1 else f"{self.to_count} parts"
        return f"{many} below zero"


def stores() -> list[StoreRow]:
    """By name; three queries, however many there are."""
    shelves: dict[UUID, Mapping[str, Any]] = {
        row["store"]: dict(row)
        for row in Shelf.objects.values("store").annotate(
            pieces=Sum("on_hand", filter=Q(on_hand__gt=0)),
            kinds=Count("id"),
            to_count=Count("id", filter=Q(on_hand__lt=0)),
        )
    }
    out = Issue.objects.filter(until__isnull=True).values("helmet")
    here = Helmet.objects.filter(retired_on__isnull=True).exclude(id__in=out)
    helmets = dict(here.values_list("store").annotate(count=Count("id")))
    return [
        _row(store, shelves.get(store.id, {}), helmets.get(store.id, 0))
        for store in Store.objects.filter(is_closed=False).order_by("name")
    ]


def _row(store: Store, shelf: Mapping[str, Any], helmets: int) -> StoreRow:
    return StoreRow(
        store.id,
        store.name,
        shelf.get("pieces") or 0,
        shelf.get("kinds") or 0,
        shelf.get("to_count") or 0,
        helmets,
    )
