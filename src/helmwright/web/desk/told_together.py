"""Players and helmets of one standing, who are told in one sentence of what needs doing."""

from typing import NamedTuple

from helmwright.records.good_to_issue import HelmetStanding


class Players(NamedTuple):
    """Players of one standing, told in one sentence: of one, of more, and why it matters.

    Where `has_why`, one alone has a reason of its own.
    """

    standing: str
    mark: str
    one: str
    more: str
    why: str
    has_why: bool = False


NOT_SIGNED = Players(
    "fitted, not signed",
    "fitted",
    "player is fitted and has not signed",
    "players are fitted and have not signed",
    "The warning is read and explained, and both sign; then the helmet is issued.",
)
NO_BUILD = Players(
    "no build",
    "no",
    "player fits no build of what was there",
    "players fit no build of what was there",
    "A part that is missing, another model, or a call to the maker.",
)
REFIT_DUE = Players(
    "refit due",
    "check",
    "player is due for a new fit check",
    "players are due for a new fit check",
    "Why stands at each.",
    has_why=True,
)
UNMEASURED = Players(
    "unmeasured",
    "unknown",
    "player is unmeasured",
    "players are unmeasured",
    "Nobody can say which shell, and stock cannot be planned for them.",
)


class Helmets(NamedTuple):
    """Helmets of one standing, told in one sentence; why, where there are several."""

    standing: HelmetStanding
    word: str
    one: str
    more: str
    why: str
    act: str
    with_holders_too: bool = False


ON_HOLD = Helmets(
    HelmetStanding.ON_HOLD,
    "on hold",
    "is on hold",
    "are on hold",
    "Why stands at each.",
    "See the holds",
)
NOT_GOOD = Helmets(
    HelmetStanding.NOT_GOOD,
    "not good to issue",
    "is not good to issue",
    "are not good to issue",
    "Why stands at each. None of them is issued.",
    "See which",
)
UNKNOWN = Helmets(
    HelmetStanding.UNKNOWN,
    "not known",
    "lacks a date",
    "lack a date",
    "Read the labels inside and write them down.",
    "See which",
    with_holders_too=True,
)
