"""The head of one player, as far as the readings tell it."""

from helmwright.anatomy import HeadEstimate, estimate_head
from helmwright.roster.player import Player


def estimate_player(player: Player) -> HeadEstimate:
    """Belief over the player's head, given everything that the roster says.

    The order of the columns does not matter, not even in the last digit.
    """
    return estimate_head(
        sorted(player.readings, key=lambda reading: (reading.measure, reading.value_mm)),
        worn=player.worn,
        **player.stated,
    )
