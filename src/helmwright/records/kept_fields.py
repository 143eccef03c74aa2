"""What is kept of somebody or something in fields, as JSON holds it."""

from typing import Any

from helmwright.records.kinds.people import PlayerFields
from helmwright.records.kinds.things import HelmetFields
from helmwright.records.models import Helmet, Player


def kept_of_player(player: Player) -> dict[str, Any]:
    """All that can be changed of a player."""
    return _fields(PlayerFields, player)


def kept_of_helmet(helmet: Helmet) -> dict[str, Any]:
    """All that is known of a helmet beside its build."""
    return _fields(HelmetFields, helmet)


def _fields(kind: type[PlayerFields] | type[HelmetFields], row: Player | Helmet) -> dict[str, Any]:
    known = {name: getattr(row, name) for name in kind.model_fields}
    return kind.model_validate(known).model_dump(mode="json")
