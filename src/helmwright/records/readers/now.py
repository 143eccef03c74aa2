"""What needs doing in the room, gathered."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import NamedTuple
from uuid import UUID

from helmwright.records.chain_checked import Checked, chain_checked
from helmwright.records.models import Entry, Outcome, Role, Staff, Visit
from helmwright.records.readers.doubts import Doubted, doubted
from helmwright.records.readers.helmets import HelmetRow, helmets
from helmwright.records.readers.need import Need, expected_need
from helmwright.records.readers.roster import PlayerRow, player_rows
from helmwright.records.readers.stock import PartRow, parts_below_zero
from helmwright.records.readers.visit_told import note_told
from helmwright.records.visit_symptom import open_symptoms

SEEN_WITHIN = timedelta(days=30)
"""Entries that were set aside longer ago are in the ledger alone."""

MOST_ASIDE = 20


class Paused(NamedTuple):
    """A visit that was interrupted."""

    player: UUID
    number: str
    waits_for: str
    station: str
    began: datetime


class Aside(NamedTuple):
    """An entry that is kept and had no effect."""

    seq: int
    kind: str
    note: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Situation:
    """The room as it is."""

    today: date
    players: Sequence[PlayerRow]
    paused: Sequence[Paused]
    symptoms: Sequence[PlayerRow]
    in_visit: int
    helmets: Sequence[HelmetRow]
    below_zero: Sequence[PartRow]
    need: Need
    aside: Sequence[Aside]
    doubted: Sequence[Doubted]
    chain: Checked

    @property
    def by_standing(self) -> Mapping[str, list[PlayerRow]]:
        """The players by where they stand."""
        found: dict[str, list[PlayerRow]] = defaultdict(list)
        for row in self.players:
            found[row.standing.word].append(row)
        return found


def situation(*, now: datetime, today: date, seen: int, role: str) -> Situation:
    """Gather it for a role; `seen` is the last entry set aside that the person has looked at."""
    players = player_rows(today=today)
    visits = list(
        Visit.objects.filter(ended_at__isnull=True)
        .select_related("player", "station")
        .order_by("began_at")
    )
    ended = open_symptoms()
    return Situation(
        today=today,
        players=players,
        paused=[_paused(visit) for visit in visits if visit.state == "paused"],
        symptoms=[row for row in players if row.player.id in ended],
        in_visit=sum(visit.state == "open" for visit in visits),
        helmets=helmets(day=today),
        below_zero=parts_below_zero(),
        need=expected_need(today),
        aside=set_aside(now=now, seen=seen, role=role),
        doubted=doubted() if role == Role.MANAGER else (),
        chain=chain_checked(),
    )


def set_aside(*, now: datetime, seen: int, role: str) -> list[Aside]:
    """Entries without effect that were not looked at yet, as a role reads them; newest first."""
    rows = Entry.objects.filter(
        outcome=Outcome.SET_ASIDE, seq__gt=seen, server_time__gte=now - SEEN_WITHIN
    ).order_by("-seq")[:MOST_ASIDE]
    staff = dict(Staff.objects.values_list("id", "name"))
    return [
        Aside(row.seq, row.kind, note_told(row.kind, row.note, role),
              staff.get(row.actor, "") if row.actor else "", row.server_time)
        for row in rows
    ]  # fmt: skip


def _paused(visit: Visit) -> Paused:
    station = visit.station.name if visit.station else ""
    number = visit.player.number or str(visit.player)
    return Paused(visit.player.id, number, visit.waits_for, station, visit.began_at)
