"""Entries of which only a device says who said them."""

import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import groupby
from uuid import UUID

from django.db.models import QuerySet

from helmwright.records.models import Device, Doubt, Entry, Player
from helmwright.records.words import room_day

KEPT_FOR = timedelta(days=30)
"""What was decided longer ago is in the ledger alone."""

AT_ONCE = 500
"""Entries decided at once: one form holds no more of them."""


@dataclass(frozen=True, slots=True)
class Doubted:
    """What one person is said to have said at one device in one day, or a part of it.

    Parameters
    ----------
    entries
        Their IDs, in order; as many as are decided at once.
    named, signed_in, station
        Who is said to have said it, who was signed in when it came, and where.
    first, last
        When it is said to have happened, by the clock of the device.
    kinds
        How often each kind of entry.
    players
        Whom it is about.
    """

    entries: tuple[UUID, ...]
    named: str
    signed_in: str
    station: str
    first: datetime
    last: datetime
    kinds: tuple[tuple[str, int], ...]
    players: tuple[str, ...]


def doubted() -> list[Doubted]:
    """What nobody has decided yet."""
    return _told(Doubt.objects.filter(holds__isnull=True))


def disputed(*, now: datetime) -> list[Doubted]:
    """What the person named did not say, as a manager found."""
    return _told(Doubt.objects.filter(holds=False, at__gte=now - KEPT_FOR))


def _told(found: QuerySet[Doubt]) -> list[Doubted]:
    rows = {row.entry: row for row in found.select_related("named", "signed_in")}
    entries = list(Entry.objects.filter(id__in=rows).order_by("seq"))
    devices = dict(Device.objects.values_list("id", "name"))
    about = {entry.id: json.loads(entry.payload).get("player") for entry in entries}
    players = {str(each.id): each for each in Player.objects.filter(id__in=_said(about))}

    def group(entry: Entry) -> tuple[str, str, str, str]:
        row = rows[entry.id]
        where = devices.get(entry.device, "") if entry.device else ""
        day = room_day(entry.server_time).isoformat()
        return day, where, row.named.name, row.signed_in.name

    ordered = sorted(entries, key=lambda entry: (*group(entry), entry.seq))
    return [
        _one(key, part, [players[who] for who in _said(about, part) if who in players])
        for key, each in groupby(ordered, key=group)
        for part in _parts(list(each))
    ]


def _said(about: Mapping[UUID, str | None], entries: Sequence[Entry] | None = None) -> set[str]:
    """Whom these entries are about, or all of them."""
    asked = about.values() if entries is None else (about[entry.id] for entry in entries)
    return {who for who in asked if who is not None}


def _parts(entries: Sequence[Entry]) -> Iterator[Sequence[Entry]]:
    for first in range(0, len(entries), AT_ONCE):
        yield entries[first : first + AT_ONCE]


def _one(
    key: tuple[str, str, str, str], entries: Sequence[Entry], players: Sequence[Player]
) -> Doubted:
    _, station, named, signed_in = key
    ordered = sorted(players, key=lambda player: (player.number, player.name))
    return Doubted(
        entries=tuple(entry.id for entry in entries),
        named=named,
        signed_in=signed_in,
        station=station,
        first=min(entry.device_time for entry in entries),
        last=max(entry.device_time for entry in entries),
        kinds=tuple(Counter(entry.kind for entry in entries).items()),
        players=tuple(f"{player.number} {player}".strip() for player in ordered),
    )
