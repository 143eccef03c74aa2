"""Things that somebody says, for tests that need some."""

from datetime import UTC, datetime
from uuid import UUID

from helmwright.records.ids import new_id
from helmwright.records.kinds import Payload
from helmwright.records.kinds.people import PlayerAdded, StaffJoined, TeamOpened
from helmwright.records.ledger import Kept, Said, append
from helmwright.records.models import Player, Role, Staff, Team

NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)


def tell(payload: Payload, *, by: UUID | None = None, now: datetime = NOW) -> Kept:
    """What became of it."""
    return append(Said(new_id(now), payload, now, actor=by), now=now)


def a_team(name: str = "Kingfishers") -> Team:
    team = new_id(NOW)
    assert tell(TeamOpened(team=team, name=name)).is_taken
    return Team.objects.get(id=team)


def a_player(team: Team, **fields: object) -> Player:
    player = new_id(NOW)
    said = PlayerAdded.model_validate({"player": player, "team": team.id, **fields})
    assert tell(said).is_taken
    return Player.objects.get(id=player)


def a_member(role: Role = Role.MANAGER, username: str = "desk", name: str = "") -> Staff:
    staff = new_id(NOW)
    assert tell(StaffJoined(staff=staff, username=username, name=name, role=role)).is_taken
    return Staff.objects.get(id=staff)
