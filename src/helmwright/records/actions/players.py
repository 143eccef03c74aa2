"""What the desk does with players: every act is kept in the ledger, whole or not at all."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal
from uuid import UUID

from helmwright.anatomy import Over
from helmwright.records import ids
from helmwright.records.ids import new_id
from helmwright.records.kept_fields import kept_of_player
from helmwright.records.kinds import Payload
from helmwright.records.kinds.people import (
    ConsentGiven,
    ConsentWithdrawn,
    GuardianAdded,
    PersonErased,
    PlayerAdded,
    PlayerCameBack,
    PlayerChanged,
    PlayerFields,
    PlayerLeft,
    ReadingTaken,
    ReadingWithdrawn,
    RetentionHeld,
)
from helmwright.records.ledger import Kept, alone
from helmwright.records.meanwhile import Fields, MeanwhileError
from helmwright.records.models import Player, Staff
from helmwright.records.readers.last_said import player_meanwhile
from helmwright.records.saying import say
from helmwright.records.turns import in_turn
from helmwright.records.warning import CONSENT_TEXT


class NotDoneError(ValueError):
    """The act has no effect; the message says what happened and what to do."""


@dataclass(frozen=True, slots=True)
class NewReading:
    """A number off a tape or caliper, before it is kept.

    Parameters
    ----------
    measure
        Its key.
    value_mm
        What was read [mm].
    over, beneath
        What it was taken over, and the hair under headwear.
    """

    measure: str
    value_mm: float
    over: Over = Over.UNSTATED
    beneath: Over | None = None


def add_player(
    *,
    team: UUID,
    fields: PlayerFields,
    by: Staff,
    now: datetime,
    player: UUID | None = None,
) -> UUID:
    """Put somebody on the roster; their ID, which may have been made before."""
    player = player or new_id(now)
    _done(PlayerAdded(player=player, team=team, **fields.model_dump()), by, now)
    return player


def change_player(
    *, player: UUID, opened: Fields, changed: Fields, by: Staff, now: datetime
) -> None:
    """Keep what is another of a player from now on; nothing else of the player changes.

    Parameters
    ----------
    opened, changed
        All fields as they were when somebody began to change them, and those that were changed,
        as JSON holds them.

    Raises
    ------
    MeanwhileError
        Where somebody else has changed one of them to something else since.
    """
    with alone():
        row = Player.objects.filter(pk=player).first()
        if row is not None:
            found = player_meanwhile(player, opened, kept_of_player(row), changed)
            if found:
                raise MeanwhileError(found)
        if changed:
            _done(PlayerChanged.model_validate({"player": player, **changed}), by, now)


def measure_player(
    *,
    player: UUID,
    readings: Sequence[NewReading],
    by: Staff,
    now: datetime,
    first: UUID | None = None,
) -> None:
    """Keep several readings, all or none; with the ID of the first, those of the same once."""
    with in_turn():
        for number, one in enumerate(readings):
            said = ReadingTaken(
                player=player,
                measure=one.measure,
                value_mm=one.value_mm,
                over=one.over,
                beneath=one.beneath,
            )
            _done(said, by, now, entry=ids.after(first, number) if first else None)


def withdraw_reading(*, player: UUID, reading: UUID, by: Staff, now: datetime) -> None:
    """A reading was wrong; it stays on record, and nothing leans on it any more."""
    _done(ReadingWithdrawn(player=player, reading=reading), by, now, corrects=reading)


def player_leaves(*, player: UUID, by: Staff, now: datetime) -> None:
    """The player is off the roster; the record stays."""
    _done(PlayerLeft(player=player), by, now)


def player_comes_back(*, player: UUID, by: Staff, now: datetime) -> None:
    """The player is on the roster again."""
    _done(PlayerCameBack(player=player), by, now)


def add_guardian(
    *, player: UUID, name: str, relation: str, contact: str, by: Staff, now: datetime
) -> None:
    """Somebody answers for a minor."""
    said = GuardianAdded(
        guardian=new_id(now), player=player, name=name, relation=relation, contact=contact
    )
    _done(said, by, now)


def keep_consent(
    *,
    player: UUID,
    guardian: UUID | None,
    about: Literal["fitting", "scan", "warning"],
    by: Staff,
    now: datetime,
    on_paper: bool = False,
) -> None:
    """A guardian, or the player, agreed: to the room's words, or to those of a paper."""
    said = ConsentGiven(
        consent=new_id(now),
        player=player,
        guardian=guardian,
        about=about,
        text_version="" if on_paper else CONSENT_TEXT,
        on_paper=on_paper,
    )
    _done(said, by, now)


def take_back_consent(*, player: UUID, consent: UUID, by: Staff, now: datetime) -> None:
    """It is taken back."""
    _done(ConsentWithdrawn(player=player, consent=consent), by, now)


def hold_record(
    *, player: UUID, opened: Fields, until: date | None, why: str, by: Staff, now: datetime
) -> None:
    """Nothing of the player is erased before the day; None lifts the hold.

    Raises
    ------
    MeanwhileError
        Where somebody set another day since this one was looked at.
    """
    said = {"until": until.isoformat() if until else None}
    with alone():
        row = Player.objects.filter(pk=player).first()
        if row is not None:
            held = {"until": row.hold_until.isoformat() if row.hold_until else None}
            found = player_meanwhile(player, opened, held, said)
            if found:
                raise MeanwhileError(found)
        _done(RetentionHeld.model_validate({"player": player, "why": why, **said}), by, now)


def erase_player(*, player: UUID, by: Staff, now: datetime) -> Kept:
    """Everything personal of a player is erased; the ledger stays whole."""
    return _done(PersonErased(player=player), by, now)


def _done(
    payload: Payload,
    by: Staff,
    now: datetime,
    *,
    corrects: UUID | None = None,
    entry: UUID | None = None,
) -> Kept:
    """Say it; an act that can have no effect is told, and ends the transaction it is part of."""
    kept = say(payload, by=by, now=now, corrects=corrects, entry=entry)
    if not kept.is_taken:
        raise NotDoneError(kept.entry.note)
    return kept
