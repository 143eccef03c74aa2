"""Acts upon model sheets, stores and helmets.

Each says what became of it: a `Kept` that was set aside has a note with what to do.
"""

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from helmwright.catalogue import SheetError
from helmwright.records.ids import new_id
from helmwright.records.kinds import things
from helmwright.records.ledger import Kept
from helmwright.records.models import Staff
from helmwright.records.saying import say
from helmwright.records.sheets import read_sheet
from helmwright.visit.sheet_digest import sheet_digest


class SheetRefusedError(ValueError):
    """A text that is no model sheet, or not the one that was meant; nothing was kept of it."""


def add_sheet(*, text: str, by: Staff | None, now: datetime, digest: str = "") -> Kept:
    """Add a model sheet, or a newer version of one.

    Parameters
    ----------
    digest
        The sheet that is meant, where that is known.

    Raises
    ------
    SheetRefusedError
        For a text with faults, all of them with their lines, and for another sheet than is meant.
    """
    try:
        found = sheet_digest(read_sheet(text))
    except SheetError as fault:
        raise SheetRefusedError(str(fault)) from fault
    if digest not in ("", found):
        raise SheetRefusedError(
            f"this is sheet {found[:8]}, not {digest[:8]}; send the text that the digest is of"
        )
    return say(things.SheetAdded(digest=found, text=text), by=by, now=now)


def open_store(*, name: str, by: Staff | None, now: datetime) -> Kept:
    """Open a place that holds parts."""
    return say(things.StoreOpened(store=new_id(now), name=name), by=by, now=now)


def add_helmet(
    *,
    code: str,
    sheet: str,
    shell: int,
    store: UUID,
    known: things.HelmetFields,
    pads: Mapping[str, str],
    by: Staff | None,
    now: datetime,
) -> Kept:
    """Add a helmet; zones that `pads` leaves out are as delivered."""
    said = things.HelmetAdded(
        helmet=new_id(now),
        code=code,
        sheet=sheet,
        shell=shell,
        store=store,
        pads=dict(pads),
        **known.model_dump(),
    )
    return say(said, by=by, now=now)


def change_helmet(
    *, helmet: UUID, changed: Mapping[str, Any], by: Staff | None, now: datetime
) -> Kept:
    """Say what is known otherwise of a helmet beside its build; what is left out stays."""
    said = things.HelmetChanged.model_validate({"helmet": helmet, **changed})
    return say(said, by=by, now=now)


def hold_helmet(*, helmet: UUID, why: str, by: Staff | None, now: datetime) -> Kept:
    """Keep a helmet from being issued."""
    return say(things.HelmetHeld(helmet=helmet, why=why), by=by, now=now)


def lift_hold(*, helmet: UUID, by: Staff | None, now: datetime) -> Kept:
    """Lift every hold of a helmet."""
    return say(things.HelmetReleased(helmet=helmet), by=by, now=now)


def retire_helmet(*, helmet: UUID, why: str, by: Staff | None, now: datetime) -> Kept:
    """Take a helmet out of use for good."""
    return say(things.HelmetRetired(helmet=helmet, why=why), by=by, now=now)


def move_helmet(*, helmet: UUID, store: UUID, by: Staff | None, now: datetime) -> Kept:
    """Say that a helmet lies in another store."""
    return say(things.HelmetMoved(helmet=helmet, store=store), by=by, now=now)


def change_pads(
    *,
    helmet: UUID,
    store: UUID,
    pads: Mapping[str, str],
    by: Staff | None,
    now: datetime,
    why: str = "",
) -> Kept:
    """Say which pads were put in; the old ones lie in the store."""
    said = things.PartsChanged(helmet=helmet, store=store, pads=dict(pads), why=why)
    return say(said, by=by, now=now)


def change_face(
    *,
    helmet: UUID,
    store: UUID,
    by: Staff | None,
    now: datetime,
    guard: str | None = None,
    strap: str | None = None,
) -> Kept:
    """Say which face guard or chin strap was put on; one that is left out stays."""
    said = things.FaceChanged(helmet=helmet, store=store, guard=guard, strap=strap)
    return say(said, by=by, now=now)
