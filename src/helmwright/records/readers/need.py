"""What those still to be fitted are expected to take off the shelves, against what is there."""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from typing import Any

from django.db.models import Count, Q, Sum

from helmwright.catalogue import ModelSheet, Zone, parse_sheet
from helmwright.planning import Held, Key, Outlook, learned, outlook, pool_places, taken
from helmwright.records.models import (
    Helmet,
    HelmetBuild,
    Issue,
    Movement,
    Reservation,
    Sheet,
    Shelf,
    Visit,
)
from helmwright.records.readers.day import waiting

POOLS = {"sides": Zone.LEFT, "jaw": Zone.JAW_LEFT}
"""A zone whose pads stand for those of its pool."""

UNPROPOSED = 0.5
"""Chance that a proposed build stays, where none is stated; assumed."""


@dataclass(frozen=True, slots=True)
class PartNeed:
    """One part of a model: what is there, and what is expected of it."""

    sheet: str
    model: str
    outlook: Outlook
    reserved: int
    thickness_mm: float | None

    @property
    def place(self) -> str:
        """Where it goes."""
        return self.outlook.key[0]

    @property
    def size(self) -> str:
        """What is written on its bag."""
        return self.outlook.key[1]


@dataclass(frozen=True, slots=True)
class Need:
    """Every part of the models in use; the likeliest to run out first."""

    parts: tuple[PartNeed, ...]
    in_hand: int
    to_come: int
    seen: int


def expected_need() -> Need:
    """What is expected, over all stores."""
    in_hand = list(
        Visit.objects.filter(state__in=("open", "paused"), ended_at__isnull=True).order_by(
            "began_at"
        )
    )
    done = list(Visit.objects.filter(state="accepted", build__isnull=False))
    to_come = waiting().count()
    sheets = list(Sheet.objects.filter(is_current=True).order_by("model"))
    likely = _likely(sheets)
    parts = [
        part
        for sheet in sheets
        for part in _of_sheet(sheet, in_hand, done, to_come, likely[sheet.digest])
    ]
    parts.sort(key=lambda part: (-part.outlook.short, part.outlook.on_hand - part.outlook.high))
    return Need(tuple(parts), len(in_hand), to_come, len(done))


def history(part: PartNeed, since: datetime) -> tuple[tuple[datetime, int], ...]:
    """How many there were, from each moment on: first at `since`, then at every movement."""
    rows = Movement.objects.filter(
        part__sheet=part.sheet, part__size=part.size, store__is_closed=False
    ).filter(part__place__in=_places(part.place))
    before = rows.filter(at__lt=since).aggregate(sum=Sum("quantity"))["sum"] or 0
    steps, count = [(since, before)], before
    for at, quantity in rows.filter(at__gte=since).order_by("id").values_list("at", "quantity"):
        count += quantity
        steps.append((at, count))
    return tuple(steps)


@lru_cache(maxsize=32)
def sheet_of(digest: str) -> ModelSheet:
    """The sheet of a digest, read once: what a digest names never changes."""
    return parse_sheet(Sheet.objects.get(digest=digest).text, name="the sheet")


def thickness_mm(sheet: ModelSheet, place: str, size: str) -> float | None:
    """How thick a pad of that size is [mm]; None for what is no pad."""
    if place not in {*map(str, Zone), *POOLS}:
        return None
    kind = sheet.pad(POOLS.get(place) or Zone(place))
    return kind.thicknesses_mm[kind.labels.index(size)] if size in kind.labels else None


def _of_sheet(
    row: Sheet, in_hand: Sequence[Visit], done: Sequence[Visit], to_come: int, likely: float
) -> list[PartNeed]:
    sheet = sheet_of(row.digest)
    counted = _counted(row.digest)
    place = pool_places({key[0] for key in counted})
    fittings = [
        taken(_held(visit), None, sheet, place) if visit.sheet_id == row.digest else Counter()
        for visit in done
    ]
    shares = learned(sheet, fittings, place, likely=likely)
    on_hand, reserved = _pooled(counted, place), _pooled(_reserved(row.digest), place)
    asked = [_asked(visit, row.digest, sheet, place) for visit in in_hand]
    on_hand.update(_shells(row.digest))
    return [
        PartNeed(
            row.digest,
            row.model,
            outlook(key, on_hand[key], [*_wishes(key, asked), *[None] * to_come], share),
            reserved[key],
            thickness_mm(sheet, *key),
        )
        for key, share in shares.items()
        if key in on_hand
    ]


def _asked(
    visit: Visit, digest: str, sheet: ModelSheet, place: Mapping[str, str]
) -> tuple[Counter[Key], float] | None:
    """What a visit in hand will take, and with which chance; None where nothing is proposed."""
    if visit.sheet_id != digest:
        return Counter(), 0.0
    if visit.build is None:
        return None
    held = _in_helmet(visit)
    chance = UNPROPOSED if visit.found_right is None else visit.found_right
    return taken(_held(visit), held, sheet, place), chance


def _wishes(
    key: Key, asked: Sequence[tuple[Counter[Key], float] | None]
) -> list[tuple[int, float] | None]:
    return [None if each is None else (each[0][key], each[1]) for each in asked]


def _held(visit: Visit) -> Held:
    build: Mapping[str, Any] = visit.build or {}
    pads = {zone: pad["pad"] for zone, pad in build["pads"].items()}
    return Held(int(build["shell"]), pads)


def _in_helmet(visit: Visit) -> Held | None:
    if visit.helmet_id is None:
        return None
    build = HelmetBuild.objects.filter(helmet=visit.helmet_id, until__isnull=True)
    row = build.select_related("helmet").first()
    return Held(row.helmet.shell, row.pads) if row else None


def _counted(digest: str) -> Mapping[Key, int]:
    rows = Shelf.objects.filter(part__sheet=digest, store__is_closed=False)
    sums = rows.values_list("part__place", "part__size").annotate(count=Sum("on_hand"))
    return {(place, size): count for place, size, count in sums}


def _reserved(digest: str) -> Mapping[Key, int]:
    rows = Reservation.objects.filter(part__sheet=digest, until__isnull=True)
    sums = rows.values_list("part__place", "part__size").annotate(count=Count("id"))
    return {(place, size): count for place, size, count in sums}


def _shells(digest: str) -> Mapping[Key, int]:
    """Helmets that nobody holds or is being fitted with; 0 where all of a size are away."""
    held = Issue.objects.filter(until__isnull=True).values("helmet")
    fitted = Visit.objects.filter(ended_at__isnull=True, helmet__isnull=False).values("helmet")
    rows = Helmet.objects.filter(sheet=digest, retired_on__isnull=True)
    free = Q(hold="") & ~Q(id__in=held) & ~Q(id__in=fitted)
    sums = rows.values_list("shell").annotate(count=Count("id", filter=free))
    return {("shell", str(shell)): count for shell, count in sums}


def _pooled(counted: Mapping[Key, int], place: Mapping[str, str]) -> Counter[Key]:
    sums: Counter[Key] = Counter()
    for (where, size), count in counted.items():
        sums[place.get(where, where), size] += count
    return sums


def _places(place: str) -> tuple[str, ...]:
    zones = [zone for zone, pool in pool_places({place}).items() if pool == place]
    return tuple({place, *zones})


def _likely(sheets: Sequence[Sheet]) -> Mapping[str, float]:
    """How likely a fitting is with each model, by the helmets of it that are in use."""
    rows = Helmet.objects.filter(Q(retired_on__isnull=True)).values_list("sheet")
    counts = defaultdict(int, dict(rows.annotate(count=Count("id"))))
    total = sum(counts[sheet.digest] + 1 for sheet in sheets)
    return {sheet.digest: (counts[sheet.digest] + 1) / total for sheet in sheets}
