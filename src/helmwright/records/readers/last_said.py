"""Who changed a field last, and when, out of the ledger."""

import json
from collections.abc import Sequence
from typing import Any
from uuid import UUID

from helmwright.records.kinds import KINDS
from helmwright.records.kinds.people import (
    DeviceChanged,
    DeviceEnrolled,
    PlayerAdded,
    PlayerChanged,
    PlayerWears,
    RetentionHeld,
    StaffChanged,
    StaffJoined,
)
from helmwright.records.kinds.things import FaceChanged, HelmetAdded, HelmetChanged, PartsChanged
from helmwright.records.meanwhile import Fields, Meanwhile, clashing
from helmwright.records.models import Entry, Outcome, Private, Staff

OF_PLAYERS = (PlayerAdded.KIND, PlayerChanged.KIND, PlayerWears.KIND, RetentionHeld.KIND)
OF_HELMETS = (HelmetAdded.KIND, HelmetChanged.KIND, FaceChanged.KIND)


def player_meanwhile(
    player: UUID, opened: Fields, now: Fields, changed: Fields
) -> tuple[Meanwhile, ...]:
    """The fields of a player that were changed otherwise since the form was opened."""
    names = clashing(opened, now, changed)
    entries = _taken(OF_PLAYERS, f'"player":"{player}"') if names else ()
    return _told(names, now, entries)


def helmet_meanwhile(
    helmet: UUID, opened: Fields, now: Fields, changed: Fields
) -> tuple[Meanwhile, ...]:
    """The same of what is known of a helmet."""
    names = clashing(opened, now, changed)
    entries = _taken(OF_HELMETS, f'"helmet":"{helmet}"') if names else ()
    return _told(names, now, entries)


def pads_meanwhile(
    helmet: UUID, opened: Fields, now: Fields, changed: Fields
) -> tuple[Meanwhile, ...]:
    """The same of the pads in a helmet, by zone."""
    names = clashing(opened, now, changed)
    entries = _taken((PartsChanged.KIND,), f'"helmet":"{helmet}"') if names else ()
    return _told(names, now, entries)


def device_meanwhile(
    device: UUID, opened: Fields, now: Fields, changed: Fields
) -> tuple[Meanwhile, ...]:
    """The same of a device."""
    names = clashing(opened, now, changed)
    kinds = (DeviceEnrolled.KIND, DeviceChanged.KIND)
    return _told(names, now, _taken(kinds, f'"device":"{device}"') if names else ())


def staff_meanwhile(
    staff: UUID, opened: Fields, now: Fields, changed: Fields
) -> tuple[Meanwhile, ...]:
    """The same of a member of the staff."""
    names = clashing(opened, now, changed)
    kinds = (StaffJoined.KIND, StaffChanged.KIND)
    return _told(names, now, _taken(kinds, f'"staff":"{staff}"') if names else ())


def _taken(kinds: Sequence[str], about: str) -> Sequence[Entry]:
    """Entries about somebody or something that took effect, the last one first."""
    found = Entry.objects.filter(
        kind__in=kinds, outcome=Outcome.TAKEN, payload__contains=about
    ).order_by("-seq")
    return list(found)


def _told(names: Sequence[str], now: Fields, entries: Sequence[Entry]) -> tuple[Meanwhile, ...]:
    private = dict(
        Private.objects.filter(entry__in=[entry.seq for entry in entries]).values_list(
            "entry", "body"
        )
    )
    said = [(entry, _said(entry, private.get(entry.seq, "{}"))) for entry in entries]
    staff = dict(Staff.objects.values_list("id", "name")) if names else {}
    return tuple(_last(name, now[name], said, staff) for name in names)


def _said(entry: Entry, private: str) -> dict[str, Any]:
    """All fields that an entry says."""
    data: dict[str, Any] = json.loads(entry.payload) | json.loads(private)
    if entry.kind == PlayerWears.KIND:
        # Said whole: what is empty in it was said, too.
        return KINDS[entry.kind].model_validate(data).model_dump(mode="json")
    if entry.kind in (FaceChanged.KIND, StaffChanged.KIND):
        return {name: value for name, value in data.items() if value is not None}
    return data | (data.get("pads") or {})


def _last(
    name: str, now: Any, said: Sequence[tuple[Entry, dict[str, Any]]], staff: dict[UUID, str]
) -> Meanwhile:
    """The last word on a field; nobody's, where it is not what stands there."""
    found = next(((entry, fields) for entry, fields in said if name in fields), None)
    if found is None or found[1][name] != now:
        return Meanwhile(name, now)
    entry = found[0]
    return Meanwhile(
        name, now, staff.get(entry.actor, "") if entry.actor else "", entry.server_time
    )
