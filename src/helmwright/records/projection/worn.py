"""What follows from what is worn under the helmet."""

from collections.abc import Callable, Mapping
from typing import Any

from helmwright.records.kinds.people import PlayerWears
from helmwright.records.models import Entry, Player
from helmwright.records.projection.known import known_player


def player_wears(_entry: Entry, said: PlayerWears) -> None:
    """The player is known to wear it."""
    player = known_player(said.player)
    worn = [over.value for over in said.worn]
    Player.objects.filter(id=player.id).update(worn=worn, glasses=said.glasses)


PROJECTORS: Mapping[str, Callable[[Entry, Any], None]] = {PlayerWears.KIND: player_wears}
