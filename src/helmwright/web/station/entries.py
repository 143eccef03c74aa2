"""What a station says happened, kept in order; the same again is answered the same."""

import logging
from datetime import datetime
from typing import Any

from django.db import OperationalError
from django.http import HttpRequest, HttpResponseBase, JsonResponse
from django.utils import timezone
from pydantic import ValidationError

from helmwright.records.actions.speakers import heard_here, is_heard, keep_doubted
from helmwright.records.actions.visits import begin, say
from helmwright.records.kinds import KINDS, Payload
from helmwright.records.kinds.payload import UnfitError
from helmwright.records.kinds.roles import MANAGER_ONLY
from helmwright.records.kinds.visits import VisitBegun, VisitSaid
from helmwright.records.ledger import Kept, Said, SameIdError, append
from helmwright.records.models import Device, Entry, Staff
from helmwright.records.readers.visit_told import note_told
from helmwright.records.visit_refused import RefusedError
from helmwright.web.allowed import signed_in
from helmwright.web.station.forms import EntriesForm, EntryForm, fault_of, is_by_time
from helmwright.web.station.heard import heard, station_of
from helmwright.web.station.stuck import Stuck, named_id

Json = dict[str, Any]
LOG = logging.getLogger(__name__)

BUSY = {
    "error": "The records are busy or cannot be written. Nothing is lost: send it again in a"
    " moment; where it does not help, look at the laptop's disk."
}
AT_THE_DESK = "Sign in at the desk as the manager, and do it there."
NO_BATCH = "This is no batch of entries."


@heard("station-entries", "POST")
def entries(request: HttpRequest) -> HttpResponseBase:
    """Keep a batch; every entry of it stands under kept, refused or stuck.

    One at which the program fails holds up what comes after it of the same subject, and no other.
    """
    try:
        form = EntriesForm.model_validate_json(request.body)
    except ValidationError as error:
        return JsonResponse({"error": NO_BATCH, **fault_of(error)}, status=400)
    device = station_of(request)
    if device is not None:
        heard_here(device=device, staff=signed_in(request), now=timezone.now())
    kept, refused, stuck = [], [], Stuck()
    for number, raw in enumerate(form.entries):
        if stuck.holds_up(raw):
            continue
        try:
            kept.append(_kept(raw, request))
        except RefusedError as error:
            refused.append(_refused(raw, number, error))
        except OperationalError:
            return JsonResponse(BUSY, status=503, headers={"Retry-After": "2"})
        except Exception:
            # A defect of ours; that entry waits at the station, with its traceback here.
            LOG.exception("An entry of a station could not be kept: %s", named_id(raw))
            stuck.add(raw)
    return JsonResponse({"kept": kept, "refused": refused, "stuck": stuck.told})


def _kept(raw: Any, request: HttpRequest) -> Json:
    try:
        form = EntryForm.model_validate(raw)
    except ValidationError as error:
        raise RefusedError(**fault_of(error)) from error
    if not is_by_time(form.id):
        raise RefusedError("The ID is no UUID of version 7.", "id", "Make one where it happened.")
    known = Entry.objects.filter(id=form.id).first()
    if known is None:
        _refuse_speaker(form, request)
    device = station_of(request)
    try:
        entry = _spoken(_said(form, device), device, signed_in(request), now=timezone.now()).entry
    except SameIdError as error:
        raise RefusedError(
            "This ID stands in the ledger with other content.", "id", "Make a new ID for it."
        ) from error
    except UnfitError as error:
        what, _, right = str(error).partition("; ")
        raise RefusedError(what, "payload", right) from error
    # On a tablet one person's entries go out under another's session.
    note = note_told(entry.kind, entry.note, signed_in(request).role)
    return {"id": str(entry.id), "outcome": entry.outcome, "note": note}


def _said(form: EntryForm, device: Device | None) -> Said:
    return Said(
        id=form.id,
        payload=_payload(form),
        device_time=form.at,
        actor=form.by,
        device=device.id if device else None,
        corrects=form.corrects,
    )


def _payload(form: EntryForm) -> Payload:
    kind = KINDS.get(form.kind)
    if kind is None:
        raise RefusedError(f'There is no kind "{form.kind}".', "kind", "Use one of the program's.")
    try:
        return kind.model_validate(form.payload)
    except ValidationError as error:
        raise RefusedError(**fault_of(error)) from error


def _spoken(said: Said, device: Device | None, own: Staff, *, now: datetime) -> Kept:
    """Taken, with a mark where the person named was not heard at the device within the day."""
    if device is None or said.actor in (None, own.id):
        return _taken(said, now=now)
    named = Staff.objects.get(pk=said.actor)
    if is_heard(device=device, staff=named, now=now):
        return _taken(said, now=now)
    return keep_doubted(
        lambda: _taken(said, now=now), entry=said.id, named=named, signed_in=own, now=now
    )


def _taken(said: Said, *, now: datetime) -> Kept:
    match said.payload:
        case VisitBegun():
            return begin(said=said, now=now)
        case VisitSaid():
            return say(said=said, now=now)
    return append(said, now=now)


def _refuse_speaker(form: EntryForm, request: HttpRequest) -> None:
    """Somebody of the staff whose role may say this, and who may use this device.

    On a known device one person's outbox is sent under the next one's session, so that `by` need
    not be whoever is signed in. What only a manager may say is therefore never heard from a
    station, and what names somebody who was not heard there lately is kept with a doubt.
    """
    kind, own = KINDS.get(form.kind), signed_in(request)
    if kind is not None and kind.ROLES == MANAGER_ONLY:
        raise RefusedError(
            f'"{form.kind}" is for the manager to say, and not at a station.', "kind", AT_THE_DESK
        )
    who = Staff.objects.filter(id=form.by, is_active=True).first()
    if who is None:
        raise RefusedError(
            "Nobody of the staff has this ID, or the person has left.", "by", "Sign in, and say it."
        )
    if who.id != own.id and station_of(request) is None:
        raise RefusedError(
            "Somebody else is signed in here.", "by", "Sign in as the person who did it."
        )
    if kind is not None and who.role not in kind.ROLES:
        roles = ", ".join(sorted(kind.ROLES))
        raise RefusedError(
            f'The role {who.role} may not say "{form.kind}".', "by", f"One of these may: {roles}."
        )


def _refused(raw: Any, number: int, error: RefusedError) -> Json:
    return {
        "id": named_id(raw),
        "number": number,
        "what": error.what,
        "where": error.where,
        "right": error.right,
    }
