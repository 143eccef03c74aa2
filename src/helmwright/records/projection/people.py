"""What follows for players, those who answer for them, and their readings."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from helmwright.records.kinds.people import (
    PERSONAL,
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
from helmwright.records.models import Consent, Entry, Guardian, Player, Reading
from helmwright.records.projection import staff
from helmwright.records.projection.erasure import person_erased
from helmwright.records.projection.known import known_player, known_team, who_said
from helmwright.records.projection.taking_in import READING, keep_row
from helmwright.records.set_aside import SetAsideError


def player_added(entry: Entry, said: PlayerAdded) -> None:
    """A player is on the roster."""
    if Player.objects.filter(id=said.player).exists():
        raise SetAsideError("This player was added before. Change the player instead.")
    Player.objects.create(id=said.player, team=known_team(said.team), **_columns(said))
    keep_row(entry, said.take_in, said.player, after=_columns(said))


def player_changed(entry: Entry, said: PlayerChanged) -> None:
    """Of each field what was said last is kept."""
    player, after = known_player(said.player), said.said(PERSONAL)
    if "worn" in after:
        after["worn"] = [over.value for over in said.worn]
    before = {name: getattr(player, name) for name in after}
    Player.objects.filter(id=said.player).update(**after)
    keep_row(entry, said.take_in, said.player, before=before, after=after)


def player_left(_entry: Entry, said: PlayerLeft) -> None:
    """The player is off the roster."""
    if not known_player(said.player).is_here:
        raise SetAsideError("This player had left already.")
    Player.objects.filter(id=said.player).update(is_here=False)


def player_came_back(_entry: Entry, said: PlayerCameBack) -> None:
    """The player is on the roster again."""
    if known_player(said.player).is_here:
        raise SetAsideError("This player is on the roster already.")
    Player.objects.filter(id=said.player).update(is_here=True)


def retention_held(_entry: Entry, said: RetentionHeld) -> None:
    """Nothing of the player is erased before the day."""
    known_player(said.player)
    until = date.fromisoformat(said.until) if said.until else None
    Player.objects.filter(id=said.player).update(hold_until=until)


def guardian_added(_entry: Entry, said: GuardianAdded) -> None:
    """Somebody answers for the player."""
    player = known_player(said.player)
    if Guardian.objects.filter(id=said.guardian).exists():
        raise SetAsideError("This guardian was added before.")
    Guardian.objects.create(
        id=said.guardian,
        player=player,
        name=said.name,
        relation=said.relation,
        contact=said.contact,
    )


def consent_given(entry: Entry, said: ConsentGiven) -> None:
    """The player, or the guardian, agreed."""
    player = known_player(said.player)
    if Consent.objects.filter(id=said.consent).exists():
        raise SetAsideError("This consent was kept before.")
    if said.guardian and not player.guardians.filter(id=said.guardian).exists():
        raise SetAsideError("This guardian does not answer for this player. Add them first.")
    Consent.objects.create(
        id=said.consent,
        player=player,
        guardian_id=said.guardian,
        about=said.about,
        text_version=said.text_version,
        on_paper=said.on_paper,
        language=said.language,
        given_at=entry.device_time,
    )


def consent_withdrawn(entry: Entry, said: ConsentWithdrawn) -> None:
    """It holds no more."""
    player = known_player(said.player)
    given = player.consents.filter(id=said.consent, withdrawn_at=None)
    if not given.update(withdrawn_at=entry.device_time):
        raise SetAsideError("This consent was not given, or was taken back before.")


def reading_taken(entry: Entry, said: ReadingTaken) -> None:
    """A number is known; the reading's ID is its entry's."""
    Reading.objects.create(
        id=entry.id,
        player=known_player(said.player),
        measure=said.measure,
        value_mm=said.value_mm,
        over=said.over,
        beneath=said.beneath or "",
        by=who_said(entry),
        at=said.taken_at or entry.device_time,
    )
    keep_row(entry, said.take_in, said.player, after={READING: str(entry.id)})


def reading_withdrawn(_entry: Entry, said: ReadingWithdrawn) -> None:
    """It was wrong: it stays on record, and nothing leans on it any more."""
    player = known_player(said.player)
    if not player.readings.filter(id=said.reading, is_withdrawn=False).update(is_withdrawn=True):
        raise SetAsideError("This reading is not this player's, or was withdrawn before.")


def _columns(said: PlayerFields) -> dict[str, Any]:
    columns = said.model_dump(include=set(PERSONAL))
    return {**columns, "worn": [over.value for over in said.worn]}


PROJECTORS: Mapping[str, Callable[[Entry, Any], None]] = {
    **staff.PROJECTORS,
    PlayerAdded.KIND: player_added,
    PlayerChanged.KIND: player_changed,
    PlayerLeft.KIND: player_left,
    PlayerCameBack.KIND: player_came_back,
    RetentionHeld.KIND: retention_held,
    PersonErased.KIND: person_erased,
    GuardianAdded.KIND: guardian_added,
    ConsentGiven.KIND: consent_given,
    ConsentWithdrawn.KIND: consent_withdrawn,
    ReadingTaken.KIND: reading_taken,
    ReadingWithdrawn.KIND: reading_withdrawn,
}
