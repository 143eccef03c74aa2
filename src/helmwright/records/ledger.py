"""The one way into the ledger."""

import json
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from typing import Any, NamedTuple
from uuid import UUID

from django.db import IntegrityError, connection, transaction

from helmwright.records.chain import COVERED, GENESIS, digest_of
from helmwright.records.kinds import KINDS, Payload, salted_digest
from helmwright.records.kinds.people import PlayerAdded
from helmwright.records.models import Entry, Outcome, Player, Private, Staff
from helmwright.records.projection import PROJECTORS
from helmwright.records.set_aside import SetAsideError
from helmwright.records.turns import in_turn

_LOCK = 0x48454C4D
"""Of PostgreSQL's advisory lock that makes appends follow each other; "HELM"."""

CONTRADICTS = (
    "This goes against what the records hold by now. Look at what is there, and say it anew."
)
"""What is said of an entry that a constraint of the database refuses."""


@dataclass(frozen=True, slots=True)
class Said:
    """Something that somebody says happened, before it is in the ledger.

    Parameters
    ----------
    id
        UUIDv7, made where it was said; the same again is the same entry.
    payload
        What happened.
    actor, device
        Who said it, and on what; None for the program itself.
    device_time
        When, by the clock of the device.
    corrects
        ID of the entry that this one corrects.
    """

    id: UUID
    payload: Payload
    device_time: datetime
    actor: UUID | None = None
    device: UUID | None = None
    corrects: UUID | None = None


class Kept(NamedTuple):
    """What became of it."""

    entry: Entry
    is_new: bool

    @property
    def is_taken(self) -> bool:
        """Whether it took effect."""
        return self.entry.outcome == Outcome.TAKEN


class SameIdError(ValueError):
    """An ID came again with other content: it is not the same event, and it is not kept."""


def append(said: Said, *, now: datetime) -> Kept:
    """Keep something for good, once; what follows from it is applied in the same transaction.

    Parameters
    ----------
    said
        What happened. A payload that is no payload was refused before.
    now
        The server's time.

    Raises
    ------
    SameIdError
        Where the ID is known with other content.
    UnfitError
        Where it lacks what has to be there when it is said.
    """
    with alone():
        known = Entry.objects.filter(id=said.id).first()
        if known is not None:
            _refuse_other(known, said)
            return Kept(known, is_new=False)
        said.payload.refuse_unfit()
        return Kept(_added(said, now), is_new=True)


@contextmanager
def alone() -> Iterator[None]:
    """A transaction beside which nothing is appended: what is read in it holds until its end."""
    with in_turn():
        _one_at_a_time()
        yield


def payload_of(entry: Entry) -> Payload:
    """What an entry says, with its private part where that is not erased."""
    data: dict[str, Any] = json.loads(entry.payload)
    private = Private.objects.filter(entry=entry).first()
    if private is not None:
        data |= json.loads(private.body)
    return KINDS[entry.kind].model_validate(data)


def _added(said: Said, now: datetime) -> Entry:
    last = Entry.objects.order_by("-seq").first()
    salt, private = secrets.token_hex(32), said.payload.private_text()
    entry = Entry(
        seq=last.seq + 1 if last else 1,
        id=said.id,
        kind=said.payload.KIND,
        actor=said.actor,
        device=said.device,
        device_time=said.device_time,
        server_time=now,
        payload=said.payload.public_text(),
        private_digest=salted_digest(salt, private) if private else "",
        corrects=said.corrects,
        outcome=Outcome.TAKEN,
        previous=last.digest if last else GENESIS,
    )
    note = effect_of(entry, said.payload)
    if note:
        entry.outcome, entry.note = Outcome.SET_ASIDE, note
    entry.digest = digest_of({name: getattr(entry, name) for name in COVERED})
    entry.save(force_insert=True)
    person = said.payload.whose()
    if private and not _is_erased(person):
        Private.objects.create(entry=entry, person=person, salt=salt, body=private)
    return entry


def effect_of(entry: Entry, payload: Payload) -> str:
    """Apply what follows; why it has no effect, where it has none."""
    try:
        with transaction.atomic():
            PROJECTORS[entry.kind](entry, payload)
    except SetAsideError as reason:
        return str(reason)
    except IntegrityError:
        return CONTRADICTS
    return ""


def _is_erased(person: UUID | None) -> bool:
    """What comes late of somebody who is erased leaves its digest behind, and nothing else."""
    if person is None:
        return False
    if Staff.objects.filter(id=person, erased_at__isnull=False).exists():
        return True
    player = Player.objects.filter(id=person).first()
    if player is not None:
        return player.erased_at is not None
    # Nor of somebody whom a file had added that was undone.
    added = Entry.objects.filter(kind=PlayerAdded.KIND, outcome=Outcome.TAKEN)
    return added.filter(payload__contains=f'"player":"{person}"').exists()


def _one_at_a_time() -> None:
    """Appends follow each other; SQLite's immediate transactions do already."""
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock(%s)", [_LOCK])


def _refuse_other(known: Entry, said: Said) -> None:
    private = said.payload.private_text()
    same = known.kind == said.payload.KIND and known.payload == said.payload.public_text()
    kept = Private.objects.filter(entry=known).first()
    if same and kept is not None:
        same = known.private_digest == salted_digest(kept.salt, private)
    if not same:
        raise SameIdError(f"the ID {said.id} stands in the ledger with other content")
