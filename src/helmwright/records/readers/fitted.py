"""A visit that ended accepted, with everything that its card says."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import cast
from uuid import UUID

from helmwright.records.kinds.visits import Acknowledged
from helmwright.records.ledger import payload_of
from helmwright.records.models import Acknowledgment, Entry, Helmet, Reading, Visit
from helmwright.records.readers.helmets_here import pads_now
from helmwright.records.readers.visit_events import Json, events_of
from helmwright.records.sheets import sheet_of
from helmwright.visit import Event
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
        With which it was accepted, zone to label: others may be in it by now.
    readings
        Of the player, those that stand, in the order in which they were taken.
    written, events
        Of the visit, as it writes them and as they are; what was private is empty where it was
        erased.
    signed
        The acknowledgment that followed; None where nobody signed yet.
    """

    visit: Visit
    helmet: Helmet
    pads: dict[str, str]
    readings: tuple[Reading, ...]
    written: tuple[Json, ...]
    events: tuple[Event, ...]
    signed: Acknowledged | None


def fitted(visit: UUID) -> Fitted | None:
    """The visit of that ID; None where there is none, or none that ended accepted with a helmet."""
    accepted = Visit.objects.filter(state="accepted", helmet__isnull=False)
    found = accepted.select_related("player", "sheet", "helmet__sheet", "fitter").filter(pk=visit)
    row = found.first()
    if row is None or row.helmet is None:
        return None
    sheet, written = sheet_of(row.sheet), events_of(row)
    return Fitted(
        visit=row,
        helmet=row.helmet,
        pads=_accepted(row) or pads_now([row.helmet])[row.helmet.id],
        readings=tuple(row.player.readings.filter(is_withdrawn=False).order_by("at", "id")),
        written=written,
        events=tuple(event_from_wire(each, sheet) for each in written),
        signed=_signed(row),
    )


def _accepted(visit: Visit) -> dict[str, str]:
    build = visit.build or {}
    return {zone: pad["pad"] for zone, pad in build.get("pads", {}).items()}


def fitted_on(day: date) -> Sequence[UUID]:
    """IDs of the visits that ended accepted on a day of the room, in their order."""
    ended = Visit.objects.filter(state="accepted", helmet__isnull=False, ended_at__date=day)
    return list(ended.order_by("ended_at").values_list("pk", flat=True))


def _signed(visit: Visit) -> Acknowledged | None:
    """The last acknowledgment of this helmet by this player since the visit began."""
    rows = Acknowledgment.objects.filter(
        player=visit.player, helmet=visit.helmet, at__gte=visit.began_at
    )
    last = rows.order_by("-at").first()
    if last is None:
        return None
    return cast("Acknowledged", payload_of(Entry.objects.get(id=last.id)))
