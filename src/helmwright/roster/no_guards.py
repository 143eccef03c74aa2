"""What a sheet without face guards leaves unanswered of what a roster says."""

from collections.abc import Iterator, Sequence

from helmwright.catalogue.sheet import ModelSheet
from helmwright.roster.player import Player
from helmwright.roster.remark import Remark

CHOOSE = "choose by the maker's list, or add the guards to the sheet"


def no_guard_notices(players: Sequence[Player], sheet: ModelSheet) -> Iterator[Remark]:
    """That glasses, position and a guard asked for count for nothing where no guard is listed.

    Who wears glasses or asks for a guard is named; of positions it is said once.
    """
    if sheet.face_guards:
        return
    for player in players:
        said = _said(player)
        if said:
            wrong = f"no face guards on the sheet of {sheet.model}: {said} not considered"
            yield Remark(player.row, "face guard", "", wrong, CHOOSE, player.name, player.number)
    if any(player.position and not _said(player) for player in players):
        wrong = f"no face guards on the sheet of {sheet.model}: positions are not considered"
        yield Remark(0, "position", "", wrong, CHOOSE)


def _said(player: Player) -> str:
    """What of a player's own bears on the guard, with its verb; nothing where nothing does."""
    parts = []
    if player.glasses:
        parts.append("glasses")
    if player.position and (player.glasses or player.guard):
        parts.append("position")
    if player.guard:
        parts.append(f'the guard asked for, "{player.guard}",')
    if not parts:
        return ""
    joined = parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
    return f"{joined} {'is' if parts == parts[-1:] and player.guard else 'are'}"
