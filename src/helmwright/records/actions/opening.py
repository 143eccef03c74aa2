"""What a room begins with: its team, the season, and the models that it fits."""

from collections.abc import Mapping
from datetime import datetime
from uuid import UUID

from pydantic import ValidationError

from helmwright.catalogue import SheetError
from helmwright.records.ids import new_id
from helmwright.records.kinds import Payload
from helmwright.records.kinds.people import SeasonOpened, TeamOpened
from helmwright.records.kinds.things import SheetAdded, StoreOpened
from helmwright.records.ledger import Kept
from helmwright.records.models import Sheet, Staff
from helmwright.records.saying import say
from helmwright.records.sheets import read_sheet
from helmwright.records.turns import in_turn
from helmwright.records.words import room_day
from helmwright.visit.sheet_digest import sheet_digest

_MOST: Mapping[type[Payload], int] = {TeamOpened: 80, SeasonOpened: 40, StoreOpened: 60}
"""Letters of a name."""


class NotOpenedError(ValueError):
    """It cannot be opened; the message says why and what to do, and nothing was kept."""


class SheetRefusedError(ValueError):
    """A text that is no model sheet, or not the one that was meant; nothing was kept of it."""


def open_team(*, name: str, by: Staff | None, now: datetime) -> UUID:
    """Open a team, with a season that is called by the year.

    Raises
    ------
    NotOpenedError
        For a name that will not do, or that another team has.
    """
    team = new_id(now)
    with in_turn():
        _opened(TeamOpened, {"team": team, "name": name.strip()}, by, now)
        open_season(team=team, name=str(room_day(now).year), by=by, now=now)
    return team


def open_season(*, team: UUID, name: str, by: Staff | None, now: datetime) -> None:
    """Open the team's next season; the one before is closed.

    Raises
    ------
    NotOpenedError
        For a name that will not do, or that an earlier season had.
    """
    said = {"season": new_id(now), "team": team, "name": name.strip()}
    _opened(SeasonOpened, said, by, now)


def open_named_store(*, name: str, by: Staff | None, now: datetime) -> None:
    """Open a store, where no other has the name.

    Raises
    ------
    NotOpenedError
        For a name that will not do, or that another store has.
    """
    _opened(StoreOpened, {"store": new_id(now), "name": name.strip()}, by, now)


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
    return say(SheetAdded(digest=found, text=text), by=by, now=now)


def add_model(*, text: str, by: Staff | None, now: datetime) -> Sheet:
    """Add a model sheet, or the version that takes the place of the model's current one.

    Raises
    ------
    SheetRefusedError
        For a text with faults, with all of them and their lines; for a sheet that is current
        already; and for one that lacks what helmets of the room have. Nothing is kept then.
    """
    with in_turn():
        kept = add_sheet(text=text, by=by, now=now)
        if not kept.is_taken:
            raise SheetRefusedError(kept.entry.note)
        return Sheet.objects.get(digest=sheet_digest(read_sheet(text)))


def _opened(kind: type[Payload], said: dict[str, object], by: Staff | None, now: datetime) -> None:
    """Nothing is kept of what cannot be opened."""
    try:
        payload = kind.model_validate(said)
    except ValidationError as error:
        raise NotOpenedError(f"A name has 1 to {_MOST[kind]} letters that print.") from error
    with in_turn():
        kept = say(payload, by=by, now=now)
        if not kept.is_taken:
            raise NotOpenedError(kept.entry.note)
