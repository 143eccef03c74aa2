"""Entries of which only a device says who said them."""

import json
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import groupby
from uuid import UUID

from helmwright.records.models import Device, Doubt, Entry, Player
from helmwright.records.words import room_day

KEPT_FOR = timedelta(days=30)
"""What was decided longer ago is in the ledger alone."""


@dataclass(frozen=True, slots=True)
class Doubted:
    """What one person is said to have said at one device in one day.

    Parameters
    ----------
    entries
        Their IDs, in order.
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


def _told(found: Iterable[Doubt]) -> list[Doubted]:
    rows = {row.entry: row for row in Doubt.objects.filter(
        pk__in=[each.pk for each in found]).select_related("named", "signed_in")}  # fmt: skip
    entries = list(Entry.objects.filter(id__in=rows).order_by("seq"))
    devices = dict(Device.objects.values_list("id", "name"))

    def group(entry: Entry) -> tuple[str, str, str, str]:
        row = rows[entry.id]
        where = devices.get(entry.device, "") if entry.device else ""
        day = room_day(entry.server_time).isoformat()
        return day, where, row.named.name, row.signed_in.name

    ordered = sorted(entries, key=lambda entry: (*group(entry), entry.seq))
    return [_one(key, list(each)) for key, each in groupby(ordered, key=group)]


def _one(key: tuple[str, str, str, str], entries: Sequence[Entry]) -> Doubted:
    _, station, named, signed_in = key
    about = {json.loads(entry.payload).get("player") for entry in entries} - {None}
    players = Player.objects.filter(id__in=about).order_by("number", "name")
    return Doubted(
        entries=tuple(entry.id for entry in entries),
        named=named,
        signed_in=signed_in,
        station=station,
        first=min(entry.device_time for entry in entries),
        last=max(entry.device_time for entry in entries),
        kinds=tuple(Counter(entry.kind for entry in entries).items()),
        players=tuple(f"{player.number} {player}".strip() for player in players),
    )
