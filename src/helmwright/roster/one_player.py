"""Who is meant by a name, a part of one, or a number."""

import re
import unicodedata
from collections.abc import Callable, Sequence

from helmwright.roster.player import NAMES_SHOWN, Player, Roster

_ROW = re.compile(r"row (\d+)", re.IGNORECASE)
_NUMBER = re.compile(r"(?:no\.?|number|#)?\s*(\d+)", re.IGNORECASE)


class PlayerError(LookupError):
    """Nobody is called that, or several are; the message names who is there."""

    def __str__(self) -> str:
        return str(self.args[0])


def find_player(roster: Roster, asked: str) -> Player:
    """The one player who is meant.

    Parameters
    ----------
    roster
        The players.
    asked
        A name, part of one, a jersey number, or "row 7"; case and accents do not matter. A whole
        name goes before a part of one.

    Raises
    ------
    PlayerError
        Where nobody or several are meant, or the player's row cannot be answered.
    """
    for means in _ways(asked):
        found = [player for player in roster.players if means(player)]
        if len(found) == 1:
            return found[0]
        if found:
            several = f"{len(found)} players are meant by {asked!r}"
            raise PlayerError(f"{several}: {_listed(found)}. Say which, such as row {found[0].row}")
    raise PlayerError(_nobody(roster, asked))


def is_alone(roster: Roster, player: Player) -> bool:
    """Whether nobody else on the roster has the same name and number."""
    alike = [
        each
        for each in roster.players
        if (plain(each.name), each.number) == (plain(player.name), player.number)
    ]
    return len(alike) == 1


def plain(text: str) -> str:
    """A text without accents, capitals and double blanks, for comparing."""
    parts = unicodedata.normalize("NFKD", text)
    kept = "".join(each for each in parts if not unicodedata.combining(each))
    return " ".join(kept.casefold().split())


def _ways(asked: str) -> tuple[Callable[[Player], bool], ...]:
    """How somebody may be meant, the surest first."""
    said = plain(asked)
    row, number = _ROW.fullmatch(said), _NUMBER.fullmatch(said)
    if row is not None:
        return (lambda player: player.row == int(row[1]),)
    if number is not None:
        return (lambda player: plain(player.number).lstrip("0") == number[1].lstrip("0"),)
    return (
        lambda player: plain(player.name) == said,
        lambda player: said in plain(player.name).replace(",", " ").split(),
        lambda player: bool(said) and said in plain(player.name),
    )


def _nobody(roster: Roster, asked: str) -> str:
    """Nobody can be taken; a row that cannot be answered says why."""
    said = plain(asked)
    unread = [
        problem
        for problem in roster.problems
        if said and said in (plain(problem.who), plain(problem.number), f"row {problem.row}")
    ]
    if unread:
        return f"that row cannot be used yet. {' '.join(map(str, unread))}"
    return f"nobody on the roster is called {asked!r}; there are {_listed(roster.players)}"


def _listed(players: Sequence[Player]) -> str:
    """Who, with number and row; of many the first."""
    more = len(players) - 2 * NAMES_SHOWN
    shown = players if more <= 0 else players[: 2 * NAMES_SHOWN]
    named = ", ".join(_named(player) for player in shown)
    return named if more <= 0 else f"{named} and {more} more"


def _named(player: Player) -> str:
    number = f"no. {player.number}, " if player.number and player.name else ""
    return f"{player.label} ({number}row {player.row})"
