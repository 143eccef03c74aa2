"""Who is heard at which device, and what is kept where a device names somebody else."""

from collections.abc import Callable, Sequence
from datetime import datetime, timedelta
from uuid import UUID

from helmwright.records.ids import new_id
from helmwright.records.kinds.speakers import SpeakerConfirmed, SpeakerDoubted
from helmwright.records.ledger import Kept, Said, alone, append
from helmwright.records.models import Device, HeardHere, Staff
from helmwright.records.saying import say

HEARD_FOR = timedelta(hours=14)
"""So long the room takes a device's word for somebody who was heard there: a long fitting day, so
that what was kept without a network goes out under the next person's session (assumed)."""

_MINUTE = timedelta(minutes=1)


def heard_here(*, device: Device, staff: Staff, now: datetime) -> None:
    """Note that somebody is signed in at a device, to the minute."""
    row = HeardHere.objects.filter(device=device, staff=staff).first()
    if row is None or now - row.at >= _MINUTE:
        HeardHere.objects.update_or_create(device=device, staff=staff, defaults={"at": now})


def is_heard(*, device: Device, staff: Staff, now: datetime) -> bool:
    """Whether somebody gave a PIN or a password at that device within the day."""
    since = now - HEARD_FOR
    return HeardHere.objects.filter(device=device, staff=staff, at__gt=since).exists()


def keep_doubted(
    keep: Callable[[], Kept], *, entry: UUID, named: Staff, signed_in: Staff, now: datetime
) -> Kept:
    """Keep what somebody is said to have said, and with it that this is a device's word alone."""
    with alone():
        kept = keep()
        if kept.is_new:
            doubt = SpeakerDoubted(entry=entry, named=named.id, signed_in=signed_in.id)
            append(Said(new_id(now), doubt, now), now=now)
    return kept


def decide(*, entries: Sequence[UUID], holds: bool, by: Staff, now: datetime) -> None:
    """Say of entries whether the person named said them; nothing that was done changes."""
    with alone():
        for entry in entries:
            say(SpeakerConfirmed(entry=entry, holds=holds), by=by, now=now)
