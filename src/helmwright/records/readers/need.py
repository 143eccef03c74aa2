"""What those still to be fitted are expected to take off the shelves, against what is there."""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, NamedTuple

from django.db.models import Count, Q, Sum

from helmwright.catalogue import ModelSheet, Zone
from helmwright.catalogue.pools import POOLS
from helmwright.planning import Held, Key, Outlook, learned, outlook, pool_places, taken
from helmwright.records.models import (
    Helmet,
    HelmetBuild,
    Movement,
    Reservation,
    Sheet,
    Shelf,
    Visit,
)
from helmwright.records.readers.day import waiting
from helmwright.records.readers.helmets import helmets
from helmwright.records.sheets import sheet_of

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


class _Fittings(NamedTuple):
    """Visits in hand, those that were accepted, and how many players are to come."""

    in_hand: Sequence[Visit]
    done: Sequence[Visit]
    to_come: int


def expected_need(day: date) -> Need:
    """What is expected, over all stores, of parts and of helmets that may be issued on a day."""
    fittings = _Fittings(
        list(Visit.objects.filter(ended_at__isnull=True).order_by("began_at")),
        list(Visit.objects.filter(state="accepted", build__isnull=False)),
        waiting().count(),
    )
    sheets = list(Sheet.objects.filter(is_current=True).order_by("model"))
    likely, shells = _likely(sheets), _shells(day)
    parts = [
        part
        for sheet in sheets
        for part in _of_sheet(sheet, fittings, shells[sheet.model], likely[sheet.digest])
    ]
    parts.sort(key=lambda part: (-part.outlook.short, part.outlook.on_hand - part.outlook.high))
    return Need(tuple(parts), len(fittings.in_hand), fittings.to_come, len(fittings.done))


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


def thickness_mm(sheet: ModelSheet, place: str, size: str) -> float | None:
    """How thick a pad of that size is [mm]; None for what is no pad."""
    if place not in {*map(str, Zone), *POOLS}:
        return None
    kind = sheet.pad(POOLS[place][0] if place in POOLS else Zone(place))
    return kind.thicknesses_mm[kind.labels.index(size)] if size in kind.labels else None


def _of_sheet(
    row: Sheet,
    fittings: _Fittings,
    shells: Counter[Key],
    likely: float,
) -> list[PartNeed]:
    sheet = sheet_of(row)
    counted = _counted(row.digest)
    place = pool_places({key[0] for key in counted})
    seen = [
        taken(_held(visit), None, sheet, place) if visit.sheet_id == row.digest else Counter()
        for visit in fittings.done
    ]
    shares = learned(sheet, seen, place, likely=likely)
    on_hand, reserved = _pooled(counted, place), _pooled(_reserved(row.digest), place)
    asked = [_asked(visit, row.digest, sheet, place) for visit in fittings.in_hand]
    on_hand.update(shells)
    return [
        PartNeed(
            row.digest,
            row.model,
            outlook(key, on_hand[key], [*_wishes(key, asked), *[None] * fittings.to_come], share),
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


def _shells(day: date) -> Mapping[str, Counter[Key]]:
    """By model: helmets that may be issued and that nobody has; 0 where all of a size are away."""
    fitted = set(
        Visit.objects.filter(ended_at__isnull=True, helmet__isnull=False).values_list(
            "helmet", flat=True
        )
    )
    counts: dict[str, Counter[Key]] = defaultdict(Counter)
    for row in helmets(day=day):
        is_free = row.verdict.may_be_issued and row.holder is None and row.id not in fitted
        counts[row.model]["shell", str(row.shell)] += is_free
    return counts


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
