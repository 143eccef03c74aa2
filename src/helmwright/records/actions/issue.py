"""Acts by which a helmet comes to a player and back."""

from datetime import datetime
from typing import Literal
from uuid import UUID

from helmwright.records.kinds.visits import (
    Acknowledged,
    HelmetIssued,
    HelmetReturned,
    ReservationsReleased,
)
from helmwright.records.ledger import Kept
from helmwright.records.models import Staff
from helmwright.records.saying import say

Purpose = Literal["game", "practice", "game and practice", "twin"]


def issue_helmet(
    *,
    helmet: UUID,
    player: UUID,
    by: Staff | None,
    now: datetime,
    visit: UUID | None = None,
    purpose: Purpose = "game and practice",
) -> Kept:
    """Give a helmet to a player; set aside where something stands against it, with the reason."""
    said = HelmetIssued(helmet=helmet, player=player, visit=visit, purpose=purpose)
    return say(said, by=by, now=now)


def return_helmet(
    *, helmet: UUID, store: UUID, by: Staff | None, now: datetime, condition: str = ""
) -> Kept:
    """Take a helmet back into a store."""
    said = HelmetReturned(helmet=helmet, store=store, condition=condition)
    return say(said, by=by, now=now)


def acknowledge(*, said: Acknowledged, by: Staff | None, now: datetime) -> Kept:
    """Keep that the warning was read and explained, and the signatures."""
    return say(said, by=by, now=now)


def release_reservations(*, visit: UUID, by: Staff | None, now: datetime) -> Kept:
    """Free what a visit had spoken for and not used."""
    return say(ReservationsReleased(visit=visit), by=by, now=now)
