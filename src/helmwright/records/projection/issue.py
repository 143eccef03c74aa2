"""What follows where a helmet is given out, acknowledged and taken back."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from helmwright.records.kinds.visits import Acknowledged, HelmetIssued, HelmetReturned
from helmwright.records.models import (
    Acknowledgment,
    Entry,
    Helmet,
    Issue,
    Player,
    Reservation,
    Season,
    Visit,
)
from helmwright.records.projection.issue_for_visit import issue_for_visit, refuse_for_visit
from helmwright.records.projection.known import (
    known_helmet,
    known_player,
    known_store,
    known_visit,
    who_said,
)
from helmwright.records.readers.helmet_refusal import helmet_refusal
from helmwright.records.readers.helmets import verdict_on
from helmwright.records.set_aside import SetAsideError
from helmwright.records.words import room_day, since


def acknowledged(entry: Entry, said: Acknowledged) -> None:
    """The warning was read and explained."""
    player = known_player(said.player)
    helmet = None if said.helmet is None else known_helmet(said.helmet)
    visit = Visit.objects.filter(id=said.visit, player=player).first() if said.visit else None
    standing = player.readings.filter(is_withdrawn=False).order_by("at", "id")
    Acknowledgment.objects.create(
        id=entry.id,
        player=player,
        helmet=helmet,
        visit=visit,
        guard=helmet.guard if helmet else "",
        strap=helmet.strap if helmet else "",
        certified_until=_certified_until(helmet, entry),
        readings=[str(reading) for reading in standing.values_list("id", flat=True)],
        build=visit.build if visit else None,
        glasses=player.glasses,
        text_version=said.text_version,
        language=said.language,
        by=who_said(entry),
        signed_by=said.signed_by,
        at=entry.server_time,
    )


def _certified_until(helmet: Helmet | None, entry: Entry) -> date | None:
    if helmet is None:
        return None
    return verdict_on(helmet, room_day(entry.server_time)).lapses_on


def helmet_issued(entry: Entry, said: HelmetIssued) -> None:
    """The player holds it, unless something stands against that."""
    helmet, player = known_helmet(said.helmet), known_player(said.player)
    visit = None if said.visit is None else known_visit(said.visit)
    _refuse_player(player)
    if visit is not None:
        refuse_for_visit(visit, player, helmet)
    _refuse_twice(helmet, player, entry)
    why = helmet_refusal(helmet, player.id, now=entry.server_time)
    if why:
        raise SetAsideError(why)
    if visit is not None:
        issue_for_visit(entry, visit, helmet, holds_build=said.holds_build)
    Issue.objects.create(
        id=entry.id,
        helmet=helmet,
        player=player,
        visit=visit,
        season=Season.objects.filter(team=player.team_id, is_open=True).first(),
        purpose=said.purpose,
        since=entry.server_time,
    )
    held = Reservation.objects.filter(helmet=helmet, until__isnull=True)
    held.update(until=entry.server_time)


def helmet_returned(entry: Entry, said: HelmetReturned) -> None:
    """Nobody holds it, and it lies in a store."""
    helmet, store = known_helmet(said.helmet), known_store(said.store)
    issue = Issue.objects.filter(helmet=helmet, until__isnull=True).first()
    if issue is None:
        raise SetAsideError(f"{helmet.code} was not out; move it, where it lies elsewhere now.")
    issue.until, issue.condition = max(entry.server_time, issue.since), said.condition
    issue.save(update_fields=["until", "condition"])
    helmet.store = store
    helmet.save(update_fields=["store"])


def _refuse_player(player: Player) -> None:
    if not player.is_here:
        raise SetAsideError("That player has left the roster; take the player back on it first.")


def _refuse_twice(helmet: Helmet, player: Player, entry: Entry) -> None:
    issue = Issue.objects.filter(helmet=helmet, player=player, until__isnull=True).first()
    if issue is not None:
        when = since(issue.since, now=entry.server_time)
        raise SetAsideError(f"{helmet.code} was issued to this player {when} already.")


PROJECTORS: Mapping[str, Callable[[Entry, Any], None]] = {
    Acknowledged.KIND: acknowledged,
    HelmetIssued.KIND: helmet_issued,
    HelmetReturned.KIND: helmet_returned,
}
