"""Players who are younger or older than those for whom the sheet says the helmet is made."""

from collections.abc import Iterator, Sequence

from helmwright.anatomy.age import ADULT_AGE
from helmwright.anatomy.head_prior import age_interval
from helmwright.catalogue.sheet import ModelSheet
from helmwright.roster.player import Player
from helmwright.roster.remark import Remark


def made_for_notices(players: Sequence[Player], sheet: ModelSheet) -> Iterator[Remark]:
    """A notice for every player of an age that the sheet leaves out; none where it names no ages.

    Notes
    -----
    The last year counts to its end. Who states no age, and of whom none is said, counts as the
    adult that the answer takes.
    """
    for player in players:
        wrong = made_for_words(player, sheet)
        stated = f"{player.age_years:g}" if player.age_years is not None else ""
        right = "ask the maker, and use it only where the maker's instructions allow that"
        if wrong:
            yield Remark(player.row, "age", stated, wrong, right, player.name, player.number)


def made_for_words(player: Player, sheet: ModelSheet) -> str:
    """That the sheet leaves out the player's age; nothing where it does not, or names no ages."""
    if sheet.ages is None:
        return ""
    youngest, oldest = sheet.ages
    low, high = age_interval(player.age_years, player.ages) or (ADULT_AGE.value, 99.0)
    if low < oldest + 1.0 and high > youngest:
        return ""
    return (
        f"the sheet of {sheet.model} says it is made for {youngest:g} to {oldest:g} years, and"
        f" this player is {'younger' if high <= youngest else 'older'}"
    )
