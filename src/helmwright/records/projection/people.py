"""What follows for teams, players and staff."""

from collections.abc import Callable, Mapping
from typing import Any

from helmwright.records.kinds.people import TeamOpened
from helmwright.records.models import Entry, Team
from helmwright.records.set_aside import SetAsideError


def team_opened(_entry: Entry, said: TeamOpened) -> None:
    """A team is there."""
    if Team.objects.filter(name=said.name).exists():
        raise SetAsideError(f"There is a team called {said.name} already.")
    Team.objects.create(id=said.team, name=said.name)


PROJECTORS: Mapping[str, Callable[[Entry, Any], None]] = {TeamOpened.KIND: team_opened}
