"""Everything personal of a player is erased; a pseudonym, the readings and the acts stay."""

from datetime import datetime, timedelta

from helmwright.records.kinds.people import PersonErased, PlayerFields
from helmwright.records.models import (
    Acknowledgment,
    Entry,
    Guardian,
    Issue,
    Player,
    Private,
    TakeInRow,
    Visit,
)
from helmwright.records.projection.known import known_player
from helmwright.records.set_aside import SetAsideError
from helmwright.records.words import us_date

LAST_ZONE = timedelta(hours=12)
"""The last place on Earth where a day begins is so far behind UTC."""


def person_erased(entry: Entry, said: PersonErased) -> None:
    """Delete the private parts of the ledger, empty the columns; guardians' too."""
    player = known_player(said.player)
    reason = what_keeps(player, entry.server_time)
    if reason:
        raise SetAsideError(reason)
    Private.objects.filter(person=player.id).delete()
    TakeInRow.objects.filter(subject=player.id).delete()
    Acknowledgment.objects.filter(player=player).update(glasses=None)
    Guardian.objects.filter(player=player).update(name="", relation="", contact="")
    Player.objects.filter(id=player.id).update(
        **{**PlayerFields().model_dump(), "worn": []},
        is_here=False,
        hold_until=None,
        erased_at=entry.server_time,
    )


def what_keeps(player: Player, now: datetime) -> str:
    """Why the player cannot be erased now; empty where nothing is in the way.

    A hold ends when its last day is over everywhere, so that no setting of a clock ends it early.
    """
    if player.hold_until is not None and (now - LAST_ZONE).date() < player.hold_until:
        return (
            f"This record is on a retention hold until {us_date(player.hold_until)}. Lift the hold"
            " first, if whoever asked for it agrees."
        )
    issue = Issue.objects.filter(player=player, until=None).select_related("helmet").first()
    if issue is not None:
        return f"Helmet {issue.helmet.code} is still out to this player. Take it back first."
    if Visit.objects.filter(player=player, ended_at=None).exists():
        return "A fit visit of this player is open. End it first."
    return ""
