"""A fitting day: what each station did and does, and who is still to come."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from uuid import UUID

from django.db.models import Exists, Max, OuterRef, Q, QuerySet, Subquery
from django.utils import timezone

from helmwright.catalogue import Position
from helmwright.records.models import Device, Entry, Issue, Player, Visit, VisitStep
from helmwright.records.readers.visit_told import state_told
from helmwright.roster import read_positions

AT_THE_DESK = "At the desk"
"""Where visits stand that no enrolled station holds."""

_GROUPS = {position: place for place, position in enumerate(Position)}

MARKS = {
    "open": ("visit", "in visit"),
    "paused": ("kept", "paused"),
    "no build": ("no", "no build"),
    "stopped": ("check", "stopped"),
    "symptom": ("check", "with the athletic trainer"),
}
"""Mark and word of a visit's state; an accepted one is fitted, and issued once it is."""


@dataclass(frozen=True, slots=True)
class Fitting:
    """One visit, as a block on the board."""

    visit: UUID
    player: UUID
    number: str
    name: str
    state: str
    mark: str
    word: str
    began: datetime
    last: datetime
    ended: datetime | None
    waits_for: str
    fitter: str
    try_ons: int

    @property
    def is_open(self) -> bool:
        """Whether somebody stands at the station for it now."""
        return self.state == "open"

    @property
    def short(self) -> str:
        """The number, or what of the name fits where there is none."""
        return self.number or self.name.split(" ")[0][:6] or "?"


@dataclass(frozen=True, slots=True)
class Station:
    """A station, and its visits of the day in order."""

    id: UUID | None
    name: str
    heard: datetime | None
    fittings: tuple[Fitting, ...]

    @property
    def now(self) -> Fitting | None:
        """The visit that runs there."""
        return next((fitting for fitting in self.fittings if fitting.is_open), None)

    @property
    def paused(self) -> tuple[Fitting, ...]:
        """Visits that were interrupted there."""
        return tuple(each for each in self.fittings if each.state == "paused")

    @property
    def fitter(self) -> str:
        """Who fits there, by the latest visit."""
        return self.fittings[-1].fitter if self.fittings else ""


@dataclass(frozen=True, slots=True)
class Coming:
    """A player who has no helmet yet."""

    player: UUID
    number: str
    name: str
    position: str
    is_measured: bool

    @property
    def short(self) -> str:
        """The number, or what of the name fits where there is none."""
        return self.number or self.name.split(" ")[0][:6] or "?"


@dataclass(frozen=True, slots=True)
class Day:
    """A fitting day as it stands."""

    date: date
    stations: tuple[Station, ...]
    to_come: tuple[Coming, ...]
    issued: int

    @property
    def fittings(self) -> tuple[Fitting, ...]:
        """Every visit of the day."""
        return tuple(fitting for station in self.stations for fitting in station.fittings)

    @property
    def in_visit(self) -> int:
        """How many players stand at a station."""
        return sum(fitting.is_open for fitting in self.fittings)

    @property
    def paused(self) -> tuple[Fitting, ...]:
        """Visits that were interrupted."""
        return tuple(each for station in self.stations for each in station.paused)


def day_of(now: datetime, *, role: str) -> Day:
    """The fitting day that it is now, as that role reads it."""
    today = timezone.localdate(now)
    begins = timezone.make_aware(datetime.combine(today, time.min))
    ends = begins + timedelta(days=1)
    visits = _visits(begins, ends)
    held: dict[UUID | None, list[Fitting]] = defaultdict(list)
    for visit in visits:
        held[visit.station_id].append(_fitting(visit, role))
    devices = Device.objects.filter(Q(revoked_at__isnull=True) | Q(id__in=[*filter(None, held)]))
    stations = [
        Station(each.id, each.name, each.heard_at, tuple(held[each.id]))
        for each in sorted(devices, key=lambda device: natural(device.name))
    ]
    if held[None]:
        stations.append(Station(None, AT_THE_DESK, None, tuple(held[None])))
    issued = Issue.objects.filter(since__gte=begins, since__lt=ends).count()
    return Day(today, tuple(stations), to_come(), issued)


def to_come() -> tuple[Coming, ...]:
    """Players still to be fitted: by position group, then by number."""
    players = waiting().annotate(
        is_measured=Exists(Player.objects.filter(id=OuterRef("id"), readings__is_withdrawn=False))
    )
    found = [
        Coming(each.id, each.number, each.name, each.position, bool(each.is_measured))
        for each in players
    ]
    return tuple(sorted(found, key=_order))


def waiting() -> QuerySet[Player]:
    """Players who are here, hold no helmet, are not being fitted and were not fitted yet."""
    visits = Visit.objects.filter(player=OuterRef("id"))
    latest = visits.order_by("-began_at")
    again = Issue.objects.filter(player=OuterRef("id"), since__gte=OuterRef("latest_began"))
    return (
        Player.objects.filter(is_here=True, erased_at__isnull=True)
        .filter(~Exists(Issue.objects.filter(player=OuterRef("id"), until__isnull=True)))
        .filter(~Exists(visits.filter(ended_at__isnull=True)))
        .annotate(latest=Subquery(latest.values("state")[:1]))
        .annotate(latest_began=Subquery(latest.values("began_at")[:1]))
        # Fitted, issued and back: to be fitted again. Fitted and not signed is not to come.
        .filter(
            Q(latest__isnull=True) | Q(latest="stopped") | (Q(latest="accepted") & Exists(again))
        )
    )


def natural(words: str) -> tuple[tuple[int, int, str], ...]:
    """A key that sorts 9 before 10."""
    parts: list[tuple[int, int, str]] = []
    digits = ""
    for letter in f"{words.casefold()}\0":
        if letter.isdecimal():
            digits += letter
            continue
        if digits:
            parts.append((0, int(digits), ""))
            digits = ""
        parts.append((1, 0, letter))
    return tuple(parts)


def _order(coming: Coming) -> tuple[int, str, tuple[tuple[int, int, str], ...], str]:
    known = read_positions(coming.position)
    group = _GROUPS[known[0]] if known else len(_GROUPS)
    position = "" if known else coming.position
    return group, position, natural(coming.number or "~"), coming.name


def _visits(begins: datetime, ends: datetime) -> Iterable[Visit]:
    latest = VisitStep.objects.filter(visit=OuterRef("id")).order_by()
    last = latest.values("visit").annotate(entry=Max("entry")).values("entry")
    heard = Entry.objects.filter(seq=OuterRef("last_entry")).values("server_time")
    issued = Issue.objects.filter(visit=OuterRef("id"))
    return (
        Visit.objects.filter(began_at__lt=ends)
        .filter(Q(ended_at__isnull=True) | Q(began_at__gte=begins))
        .annotate(last_entry=Subquery(last))
        .annotate(last_at=Subquery(heard), is_issued=Exists(issued))
        .select_related("player", "fitter")
        .order_by("began_at")
    )


def _fitting(visit: Visit, role: str) -> Fitting:
    state = state_told(visit.state, role)
    fitted = ("yes", "issued") if getattr(visit, "is_issued", False) else ("fitted", "not signed")
    mark, word = fitted if visit.state == "accepted" else MARKS[state]
    last = getattr(visit, "last_at", None) or visit.ended_at or visit.began_at
    return Fitting(
        visit=visit.id,
        player=visit.player.id,
        number=visit.player.number,
        name=str(visit.player),
        state=state,
        mark=mark,
        word=word,
        began=visit.began_at,
        last=last,
        ended=visit.ended_at,
        waits_for=visit.waits_for,
        fitter=visit.fitter.name if visit.fitter else "",
        try_ons=visit.try_ons,
    )
