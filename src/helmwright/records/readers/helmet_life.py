"""The life of one helmet: what is in it, who had it, and every entry that touched it."""

import json
from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from django.db.models import Q

from helmwright.records.kinds import KINDS, Payload
from helmwright.records.life_words import life_words
from helmwright.records.models import Entry, Helmet, HelmetBuild, Outcome, Player, Staff, Store
from helmwright.records.readers.holders import Holding, holders_of
from helmwright.records.readers.visit_told import note_told

_KINDS = [name for name, kind in KINDS.items() if "helmet" in kind.model_fields]


class PadNow(NamedTuple):
    """A pad in the helmet, and since when."""

    zone: str
    label: str
    since: datetime


class LifeEntry(NamedTuple):
    """One entry: what, when, and by whom; `note` says why where it had no effect."""

    seq: int
    at: datetime
    kind: str
    words: str
    by: str
    note: str


@dataclass(frozen=True, slots=True)
class HelmetLife:
    """Newest first, but for the pads, which are in the order of the zones."""

    pads: tuple[PadNow, ...]
    builds: tuple[HelmetBuild, ...]
    holders: tuple[Holding, ...]
    entries: tuple[LifeEntry, ...]


def helmet_life(helmet: Helmet, *, role: str, most: int = 200) -> HelmetLife:
    """What happened to a helmet, as that role reads it.

    Parameters
    ----------
    most
        Entries that are told; the last ones.
    """
    builds = list(helmet.builds.order_by("-pk"))
    return HelmetLife(
        pads=pads_since(builds),
        builds=tuple(builds),
        holders=tuple(holders_of(helmet.id)),
        entries=_entries(helmet, builds, role, most),
    )


def pads_since(builds: list[HelmetBuild]) -> tuple[PadNow, ...]:
    """Each pad of the first of these builds, and since when it was there without a break."""
    now, *before = builds
    return tuple(_since(zone, label, now, before) for zone, label in now.pads.items())


def _since(zone: str, label: str, now: HelmetBuild, before: list[HelmetBuild]) -> PadNow:
    since = now.since
    for build in before:
        if build.pads[zone] != label:
            break
        since = build.since
    return PadNow(zone, label, since)


def _entries(
    helmet: Helmet, builds: list[HelmetBuild], role: str, most: int
) -> tuple[LifeEntry, ...]:
    # The payload is canonical JSON, in which an ID can stand in one way only.
    named = Q(kind__in=_KINDS, payload__contains=f'"helmet":"{helmet.id}"')
    built = Q(seq__in=[build.entry for build in builds])
    rows = list(Entry.objects.filter(named | built).order_by("-seq")[:most])
    # Without the private part: none of it is told here, and each would be a query.
    said = [KINDS[row.kind].model_validate(json.loads(row.payload)) for row in rows]
    names, staff = _names(said), dict(Staff.objects.values_list("id", "name"))
    return tuple(
        LifeEntry(
            seq=row.seq,
            at=row.server_time,
            kind=row.kind,
            words=life_words(payload, names),
            by=staff.get(row.actor, "") if row.actor else "",
            note="" if row.outcome == Outcome.TAKEN else note_told(row.kind, row.note, role),
        )
        for row, payload in zip(rows, said, strict=True)
    )


def _names(said: list[Payload]) -> dict[UUID, str]:
    """Of every store, and of the players that these entries name."""
    asked = {player for payload in said if (player := payload.whose()) is not None}
    players = {player.id: str(player) for player in Player.objects.filter(id__in=asked)}
    return players | dict(Store.objects.values_list("id", "name"))
