"""Why a helmet cannot be had for a player now."""

from datetime import datetime
from uuid import UUID

from helmwright.records.facts import facts_of
from helmwright.records.good_to_issue import good_to_issue
from helmwright.records.issuing import HelmetAsked, refusal
from helmwright.records.models import Device, Helmet, Issue, Reservation, Visit
from helmwright.records.sheets import sheet_of
from helmwright.records.words import room_day, since


def helmet_refusal(helmet: Helmet, player: UUID | None, *, now: datetime) -> str:
    """Why a helmet cannot be reserved for a player or issued; empty where it can.

    What the player holds already, and what is reserved for a visit of the player, does not stand
    in the way; of nobody (None) nothing is let pass.
    """
    issue = Issue.objects.filter(helmet=helmet, until__isnull=True).exclude(player=player).first()
    verdict = good_to_issue(facts_of(helmet, sheet_of(helmet.sheet)), room_day(now))
    holder = "" if issue is None else f"another player {since(issue.since, now=now)}"
    return refusal(HelmetAsked(helmet.code, verdict, holder, _spoken_for(helmet, player, now)))


def station_name(station: Device | None) -> str:
    """Where somebody was who was first."""
    return station.name if station else "Somebody at the desk"


def _spoken_for(helmet: Helmet, player: UUID | None, now: datetime) -> str:
    """Who was first, by a reservation or with the helmet in a visit; empty where nobody was."""
    held = Reservation.objects.filter(helmet=helmet, until__isnull=True)
    first = held.exclude(visit__player=player).select_related("device").first()
    if first is not None:
        return f"{station_name(first.device)} took {helmet.code} {since(first.at, now=now)}."
    going_on = Visit.objects.filter(helmet=helmet, ended_at__isnull=True)
    other = going_on.exclude(player=player).select_related("station").first()
    if other is None:
        return ""
    when = since(other.began_at, now=now)
    return f"{station_name(other.station)} took {helmet.code} into a visit {when}."
