"""Who holds which helmet, and who held it before."""

from datetime import datetime
from typing import NamedTuple
from uuid import UUID

from django.db.models import QuerySet

from helmwright.records.models import Issue


class Holding(NamedTuple):
    """A helmet in a player's hands, from when to when; `until` is None while it is out."""

    issue: UUID
    helmet: UUID
    code: str
    model: str
    shell: int
    player: UUID
    number: str
    name: str
    purpose: str
    since: datetime
    until: datetime | None
    condition: str
    visit: UUID | None


def holders_of(helmet: UUID, *, now_only: bool = False) -> list[Holding]:
    """Players who held a helmet, the last one first."""
    return _holdings(Issue.objects.filter(helmet=helmet), now_only=now_only)


def holders_now() -> dict[UUID, Holding]:
    """Every helmet that is out, and who has it."""
    return {each.helmet: each for each in _holdings(Issue.objects.all(), now_only=True)}


def _holdings(issues: QuerySet[Issue], *, now_only: bool) -> list[Holding]:
    rows = issues.filter(until__isnull=True) if now_only else issues
    named = rows.select_related("player", "helmet__sheet").defer("helmet__sheet__text")
    return [_holding(row) for row in named.order_by("-since", "-id")]


def _holding(row: Issue) -> Holding:
    return Holding(
        issue=row.id,
        helmet=row.helmet_id,
        code=row.helmet.code,
        model=row.helmet.sheet.model,
        shell=row.helmet.shell,
        player=row.player_id,
        number=row.player.number,
        name=str(row.player),
        purpose=row.purpose,
        since=row.since,
        until=row.until,
        condition=row.condition,
        visit=row.visit_id,
    )
