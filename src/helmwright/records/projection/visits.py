"""What follows from a fit visit: where it stands, its readings, and what is in the helmet."""

from collections.abc import Callable, Collection, Mapping, Sequence
from datetime import datetime
from typing import Any
from uuid import uuid5

from helmwright.records.kinds.visits import VisitBegun, VisitSaid, VisitTakenOver
from helmwright.records.models import (
    Device,
    Entry,
    Helmet,
    Player,
    Sheet,
    Visit,
    VisitStep,
)
from helmwright.records.models import Reading as ReadingRow
from helmwright.records.projection.known import (
    device_of,
    known_helmet,
    known_player,
    known_store,
    known_visit,
    who_said,
)
from helmwright.records.projection.reservations import release_for
from helmwright.records.projection.visit_helmet import (
    follow_the_head,
    helmet_of,
    put_on,
    take_back,
    taken_up,
)
from helmwright.records.readers.helmet_refusal import helmet_refusal
from helmwright.records.set_aside import SetAsideError
from helmwright.records.visit_fold import CannotComeError, Folded, Known, read_public, went_on
from helmwright.records.visit_place import is_in_time
from helmwright.records.visit_read import known_of
from helmwright.records.visit_stand import stand_of, standing_places
from helmwright.records.visit_symptom import open_symptom, symptom_words
from helmwright.records.words import clock
from helmwright.visit import Accepted, Event, Measured, PutOn, Undone
from helmwright.visit.wire import event_to_wire

GONE_ON = (
    "{} went on with this visit at {}, before this was heard. Look at the visit as it is now, and"
    " say it again if it still holds."
)
OTHERS = "That visit is another player's. Say it in this player's own visit."
BEFORE_IT = (
    "Something said before this one was not taken, so that this does not count either. Look at the"
    " visit as it is now, and say it again if it still holds."
)


def visit_begun(entry: Entry, said: VisitBegun) -> None:
    """A player is fitted from now on."""
    player, store, sheet = known_player(said.player), known_store(said.store), _sheet(said.sheet)
    helmet = known_helmet(said.helmet) if said.helmet else None
    _refuse_second(said, helmet, sheet)
    _refuse_helmet(helmet, player, entry)
    _refuse_uncleared(said)
    Visit.objects.create(
        id=said.visit,
        player=player,
        store=store,
        sheet=sheet,
        helmet=helmet,
        station=device_of(entry),
        fitter=who_said(entry),
        state="open",
        waits_for="a proposal",
        began_at=entry.server_time,
    )


def visit_said(entry: Entry, said: VisitSaid) -> None:
    """The visit goes on by one event, which stands at the next place."""
    visit = known_visit(said.visit)
    if known_player(said.player).id != visit.player_id:
        raise SetAsideError(OTHERS)
    steps = list(visit.steps.all())
    known = known_of(visit.sheet)
    before = Folded.of([step.event for step in steps], known)
    try:
        event = read_public(said.event, known)
        if not is_in_time(event, said.place, before.events):
            raise SetAsideError(_too_late(said.place, steps))
        helmet = helmet_of(entry, visit, event, before)
        after = went_on(before, taken_up(helmet, event, before, known), known)
    except CannotComeError as error:
        raise SetAsideError(str(error)) from error
    wire = event_to_wire(after.events[-1], known.sheet)
    visit.steps.create(place=len(steps), entry=entry.seq, event=wire, helmet=helmet)
    _stand(visit, after, known, entry.server_time)
    _keep_readings(entry, visit, before, after)
    if isinstance(event, (PutOn, Undone, Accepted)):
        follow_the_head(entry, visit, after)
    if isinstance(event, PutOn) and helmet is not None:
        put_on(entry, visit, helmet, event.build, known)
    if isinstance(event, Undone):
        take_back(entry, visit, _undone(PutOn, before, after))
    if after.visit.ended is not None:
        release_for(visit, entry)


def visit_taken_over(entry: Entry, said: VisitTakenOver) -> None:
    """Another station and another fitter have it."""
    visit = known_visit(said.visit)
    if visit.ended_at is not None:
        raise SetAsideError("This visit is over. Begin another one for this player.")
    visit.station = device_of(entry)
    visit.fitter = who_said(entry)
    visit.save(update_fields=["station", "fitter"])


def _stand(visit: Visit, after: Folded, known: Known, now: datetime) -> None:
    stand = stand_of(after.visit, known.sheet, known.protocol)
    is_over = after.visit.ended is not None
    if not is_over and visit.ended_at is not None:
        _refuse_reopened(visit)
    visit.state, visit.waits_for = stand.state, stand.waits_for
    visit.build, visit.found_right, visit.try_ons = stand.build, stand.found_right, stand.try_ons
    visit.ended_at = (visit.ended_at or now) if is_over else None
    visit.save()


def _refuse_second(said: VisitBegun, helmet: Helmet | None, sheet: Sheet) -> None:
    """One visit of a player at a time, and one of a helmet."""
    if Visit.objects.filter(id=said.visit).exists():
        raise SetAsideError("This visit was begun already. Go on with it.")
    going_on = Visit.objects.filter(ended_at__isnull=True)
    of_player = going_on.filter(player=said.player).first()
    if of_player is not None:
        raise SetAsideError(
            f"A visit of this player has been going on at {_station(of_player.station)} since"
            f" {clock(of_player.began_at)}. Go on with that one, or take it over."
        )
    if helmet is None:
        return
    if helmet.sheet.model != sheet.model:
        raise SetAsideError(
            f"{helmet.code} is a {helmet.sheet.model}, and the visit is of a {sheet.model}. Take"
            " another helmet or another model."
        )
    of_helmet = going_on.filter(helmet=helmet).first()
    if of_helmet is not None:
        raise SetAsideError(
            f"{helmet.code} is being fitted at {_station(of_helmet.station)} since"
            f" {clock(of_helmet.began_at)}. Take another helmet."
        )


def _refuse_helmet(helmet: Helmet | None, player: Player, entry: Entry) -> None:
    """What may not be issued is not tried on either."""
    why = helmet_refusal(helmet, player.id, now=entry.server_time) if helmet else ""
    if why:
        raise SetAsideError(why)


def _refuse_uncleared(said: VisitBegun) -> None:
    symptom = open_symptom(said.player)
    if symptom is not None and not said.cleared:
        raise SetAsideError(symptom_words(symptom))


def _refuse_reopened(visit: Visit) -> None:
    """What was taken back opens the visit again, unless others have gone on since."""
    going_on = Visit.objects.filter(ended_at__isnull=True).exclude(id=visit.id)
    if going_on.filter(player=visit.player_id).exists():
        raise SetAsideError(
            "Another visit of this player was begun since. Go on with that one instead."
        )
    if visit.helmet_id and going_on.filter(helmet=visit.helmet_id).exists():
        raise SetAsideError(
            "This helmet is being fitted in another visit by now. Begin a new visit with another"
            " helmet."
        )


def _keep_readings(entry: Entry, visit: Visit, before: Folded, after: Folded) -> None:
    """Readings taken in the visit are the player's; those taken back are withdrawn."""
    event = after.events[-1]
    if isinstance(event, Measured):
        ReadingRow.objects.bulk_create(
            ReadingRow(
                id=uuid5(entry.id, str(number)),
                player_id=visit.player_id,
                measure=reading.measure,
                value_mm=reading.value_mm,
                over=str(reading.over),
                beneath="" if reading.beneath is None else str(reading.beneath),
                by=who_said(entry),
                at=entry.server_time,
            )
            for number, reading in enumerate(event.readings)
        )
    if isinstance(event, Undone):
        _withdraw(visit, _undone(Measured, before, after), before)


def _undone(kind: type[Event], before: Folded, after: Folded) -> frozenset[int]:
    """Places, from 0, of what stood and stands no more."""
    return standing_places(before.events, kind) - standing_places(after.events, kind)


def _withdraw(visit: Visit, places: Collection[int], folded: Folded) -> None:
    for step in visit.steps.filter(place__in=places):
        event = folded.events[step.place]
        taken = Entry.objects.get(seq=step.entry)
        count = len(event.readings) if isinstance(event, Measured) else 0
        ids = [uuid5(taken.id, str(number)) for number in range(count)]
        ReadingRow.objects.filter(id__in=ids).update(is_withdrawn=True)


def _too_late(place: int, steps: Sequence[VisitStep]) -> str:
    if place > len(steps):
        return BEFORE_IT
    entry = Entry.objects.get(seq=steps[place].entry)
    device = device_of(entry)
    who = _station(device) if entry.actor else "The program"
    return GONE_ON.format(who[:1].upper() + who[1:], clock(entry.server_time))


def _station(device: Device | None) -> str:
    return device.name if device else "another station"


def _sheet(digest: str) -> Sheet:
    found = Sheet.objects.filter(pk=digest).first()
    if found is None:
        raise SetAsideError("There is no such model sheet. Choose one of the room's models.")
    return found


PROJECTORS: Mapping[str, Callable[[Entry, Any], None]] = {
    VisitBegun.KIND: visit_begun,
    VisitSaid.KIND: visit_said,
    VisitTakenOver.KIND: visit_taken_over,
}
