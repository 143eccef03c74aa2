"""What is done with a visit: begun, gone on with by a person or by the program, taken over."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

from helmwright.anatomy import Reading, check_readings
from helmwright.anatomy.prior import Stated
from helmwright.records.ids import new_id
from helmwright.records.kinds.visits import VisitBegun, VisitSaid
from helmwright.records.ledger import Kept, Said, append
from helmwright.records.models import Entry, Visit
from helmwright.records.readers.visit_events import events_of
from helmwright.records.readers.visit_start import start_of
from helmwright.records.turns import in_turn
from helmwright.records.visit_fold import CannotComeError, read_public
from helmwright.records.visit_read import known_of
from helmwright.records.visit_refused import RefusedError
from helmwright.visit import BY_PROGRAM, Measured, Started, fold
from helmwright.visit.wire import event_from_wire, event_to_wire

Json = dict[str, Any]


def begin(*, said: Said, now: datetime) -> Kept:
    """Begin a visit, and let the program say what it starts with.

    Raises
    ------
    RefusedError
        Where no head has the readings that the player has.
    """
    with in_turn():
        kept = append(said, now=now)
        if kept.is_new and kept.is_taken and isinstance(said.payload, VisitBegun):
            _start(said.payload, now)
    return kept


def say(*, said: Said, now: datetime) -> Kept:
    """Keep what a person says in a visit.

    Raises
    ------
    RefusedError
        For what a person cannot say, and readings that no head has.
    """
    if isinstance(said.payload, VisitSaid) and not Entry.objects.filter(id=said.id).exists():
        _refuse(said.payload)
    return append(said, now=now)


def say_next(
    *, visit: UUID, player: UUID, place: int, events: Sequence[Json], now: datetime
) -> bool:
    """Keep what the program has to say next; False where somebody went on meanwhile."""
    with in_turn():
        row = Visit.objects.get(pk=visit)
        if row.steps.count() != place:
            return False
        for number, event in enumerate(events):
            payload = VisitSaid(visit=visit, player=player, place=place + number, event=event)
            if not append(Said(new_id(now), payload, now), now=now).is_taken:
                return False
    return True


def _start(begun: VisitBegun, now: datetime) -> None:
    started = start_of(begun, now=now)
    _refuse_readings(started.readings, started.stated)
    sheet = known_of(Visit.objects.get(pk=begun.visit).sheet).sheet
    event = event_to_wire(started, sheet)
    payload = VisitSaid(visit=begun.visit, player=begun.player, place=0, event=event)
    append(Said(new_id(now), payload, now), now=now)


def _refuse(said: VisitSaid) -> None:
    row = Visit.objects.select_related("sheet").filter(pk=said.visit).first()
    if row is None:
        return
    known = known_of(row.sheet)
    try:
        event = read_public(said.event, known)
    except CannotComeError as error:
        raise RefusedError(str(error), "event", "Say it with the model's own parts.") from error
    if isinstance(event, (*BY_PROGRAM, Started)):
        raise RefusedError("This is for the program to say.", "event", "Say what was found.")
    if isinstance(event, Measured):
        wires = events_of(row)
        visit = fold([event_from_wire(wire, known.sheet) for wire in wires])
        _refuse_readings((*visit.readings, *event.readings), visit.started.stated)


def _refuse_readings(readings: Sequence[Reading], stated: Stated) -> None:
    for finding in check_readings(readings, **stated):
        if finding.blocks:
            right = finding.suggestion or "Measure again."
            raise RefusedError(finding.message, "readings", right)
