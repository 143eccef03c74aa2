"""Something that a member of the staff says at the desk."""

from datetime import datetime
from uuid import UUID

from helmwright.records.ids import new_id
from helmwright.records.kinds import Payload
from helmwright.records.ledger import Kept, Said, append
from helmwright.records.models import Staff


def said_by(person: Staff, payload: Payload, *, now: datetime, device: UUID | None = None) -> Kept:
    """Keep it under an ID of the server's; the role was looked at before."""
    said = Said(new_id(now), payload, device_time=now, actor=person.id, device=device)
    return append(said, now=now)
