"""A visit that ended accepted, with everything that its card says."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import cast
from uuid import UUID

from django.db.models import Q

from helmwright.records.kinds.visits import Acknowledged
from helmwright.records.ledger import payload_of
from helmwright.records.models import (
    Acknowledgment,
    Consent,
    Entry,
    Helmet,
    Reading,
    Visit,
)
from helmwright.records.readers.acknowledged import acknowledgment_of
from helmwright.records.readers.helmets import verdict_on
from helmwright.records.readers.helmets_here import pads_now
from helmwright.records.readers.visit_events import Json, events_of
from helmwright.records.sheets import sheet_of
from helmwright.visit import Event, fold
from helmwright.visit.wire import event_from_wire


@dataclass(frozen=True, slots=True)
class Fitted:
    """What was fitted.

    Parameters
    ----------
    visit
        With its player, sheet and fitter.
    helmet
        The one that was fitted.
    pads
        With which it was signed, or accepted, zone to label: others may be in it by now.
    readings
        Of the player, in the order in which they were taken: those that stood when it was signed,
        and those that stand where nobody signed yet.
    guard, strap, certified_until
        Of the helmet, as when it was signed, or as they are.
    worn
        On the head at the fitting; None where nobody said, or it was erased.
    glasses
        As when it was signed, or as it is; None where nobody said, or it was erased.
    consents
        To the fitting, that stood then.
    written, events
        Of the visit, as it writes them and as they are; what was private is empty where it was
        erased.
    signed, signed_at
        The acknowledgment since it was accepted, and when; None where nobody signed yet.
    """

    visit: Visit
    helmet: Helmet
    pads: dict[str, str]
    readings: tuple[Reading, ...]
    guard: str
    strap: str
    certified_until: date | None
    worn: tuple[str, ...] | None
    glasses: bool | None
    consents: tuple[Consent, ...]
    written: tuple[Json, ...]
    events: tuple[Event, ...]
    signed: Acknowledged | None
    signed_at: datetime | None


def fitted(visit: UUID, *, today: date) -> Fitted | None:
    """The visit of that ID; None where there is none, or none that ended accepted with a helmet."""
    accepted = Visit.objects.filter(state="accepted", helmet__isnull=False)
    found = accepted.select_related("player", "sheet", "helmet__sheet", "fitter").filter(pk=visit)
    row = found.first()
    if row is None or row.helmet is None:
        return None
    sheet, written = sheet_of(row.sheet), events_of(row)
    events = tuple(event_from_wire(each, sheet) for each in written)
    signed = acknowledgment_of(row, row.helmet)
    return Fitted(
        visit=row,
        helmet=row.helmet,
        pads=_pads(signed.build if signed else None)
        or _pads(row.build)
        or pads_now([row.helmet])[row.helmet.id],
        readings=_readings(row, signed),
        guard=signed.guard if signed else row.helmet.guard,
        strap=signed.strap if signed else row.helmet.strap,
        certified_until=signed.certified_until
        if signed
        else verdict_on(row.helmet, today).lapses_on,
        worn=fold(events).started.worn,
        glasses=signed.glasses if signed else row.player.glasses,
        consents=_consents(row, signed),
        written=written,
        events=events,
        signed=_payload(signed),
        signed_at=signed.at if signed else None,
    )


def _readings(visit: Visit, signed: Acknowledgment | None) -> tuple[Reading, ...]:
    """What was withdrawn since was signed for all the same."""
    stood = Q(is_withdrawn=False) if signed is None else Q(id__in=signed.readings)
    return tuple(visit.player.readings.filter(stood).order_by("at", "id"))


def _consents(visit: Visit, signed: Acknowledgment | None) -> tuple[Consent, ...]:
    rows = visit.player.consents.filter(about="fitting").order_by("given_at")
    if signed is None:
        return tuple(rows.filter(withdrawn_at__isnull=True))
    then = Q(withdrawn_at__isnull=True) | Q(withdrawn_at__gt=signed.at)
    return tuple(rows.filter(then, given_at__lte=signed.at))


def _pads(build: Json | None) -> dict[str, str]:
    return {zone: pad["pad"] for zone, pad in (build or {}).get("pads", {}).items()}


def fitted_on(day: date) -> Sequence[UUID]:
    """IDs of the visits that ended accepted on a day of the room, in their order."""
    ended = Visit.objects.filter(state="accepted", helmet__isnull=False, ended_at__date=day)
    return list(ended.order_by("ended_at").values_list("pk", flat=True))


def _payload(signed: Acknowledgment | None) -> Acknowledged | None:
    if signed is None:
        return None
    return cast("Acknowledged", payload_of(Entry.objects.get(id=signed.id)))
