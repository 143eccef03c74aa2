"""Taking a file in, whole or not at all, and undoing it."""

from datetime import datetime
from pathlib import PurePath
from uuid import UUID

from helmwright.records.ids import new_id
from helmwright.records.kinds import Payload
from helmwright.records.kinds.things import TakeInUndone, TakenIn
from helmwright.records.ledger import Kept, Said, append
from helmwright.records.models import Staff
from helmwright.records.readers.taking_in import read_file
from helmwright.records.saying import MayNotSayError, say
from helmwright.records.taking_in.plan import Plan
from helmwright.records.taking_in.upload import ROLES, Upload
from helmwright.records.turns import in_turn
from helmwright.records.words import room_day

ENDINGS = (".csv", ".xlsx", ".ods")
"""Of the files that are read."""


class PlanChangedError(ValueError):
    """The room is not as it was when the plan was shown; nothing was done."""


class NothingToDoError(ValueError):
    """No row of the file does anything."""


class NotUndoneError(ValueError):
    """The file cannot be undone; the message says why."""


def take_in(*, upload: Upload, plan_digest: str, by: Staff, now: datetime) -> Plan:
    """Do what the plan said, all of it or nothing.

    Parameters
    ----------
    upload
        The file, with the answers that the plan was shown for.
    plan_digest
        Of the plan that somebody saw.

    Raises
    ------
    PlanChangedError
        Where the plan for the room as it is now is another.
    NothingToDoError
        Where no row does anything.
    MayNotSayError
        Where the role may not take in such a file.

    Notes
    -----
    The first entry takes the ledger's lock: between the plan that is made anew under it and the
    last entry nobody else can change the room. The file is read before.
    """
    if by.role not in ROLES[upload.what] or not by.is_active:
        raise MayNotSayError(f'the role "{by.role}" may not take in a file of {upload.what}')
    plan_now = read_file(upload, today=room_day(now))
    rows = len(plan_now().lines)
    with in_turn():
        _kept(_heading(upload, rows), by, now)
        plan = plan_now()
        if plan.digest != plan_digest:
            raise PlanChangedError("The room has changed since you looked. Nothing was taken in.")
        if not plan.payloads:
            raise NothingToDoError("No row of this file changes anything. Nothing was taken in.")
        for payload in plan.payloads:
            _kept(payload, by, now)
    return plan


def undo_take_in(*, take_in: UUID, by: Staff, now: datetime) -> Kept:
    """Take back whatever nothing later leans on.

    Raises
    ------
    NotUndoneError
        Where it was undone before, or there is no such file.
    MayNotSayError
        Where the role may not.
    """
    kept = say(TakeInUndone(take_in=take_in), by=by, now=now)
    if not kept.is_taken:
        raise NotUndoneError(kept.entry.note)
    return kept


def _heading(upload: Upload, rows: int) -> TakenIn:
    return TakenIn.model_validate(
        {
            "take_in": upload.take_in,
            "what": upload.what,
            "file_name": _name_kept(upload),
            "rows": rows,
            "file_digest": upload.digest,
        }
    )


def _name_kept(upload: Upload) -> str:
    """A roster's own name may be a player's, and stands in the chain for good: its kind alone."""
    if upload.what != "roster":
        return upload.file_name[:120]
    ending = PurePath(upload.file_name).suffix.lower()
    return f"roster{ending}" if ending in ENDINGS else "roster"


def _kept(payload: Payload, by: Staff, now: datetime) -> None:
    kept = append(Said(new_id(now), payload, now, actor=by.id), now=now)
    if not kept.is_taken:
        raise PlanChangedError(f"{kept.entry.note} Nothing was taken in.")
