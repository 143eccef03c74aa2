"""From the text of a roster file to players, problems and notices."""

from collections.abc import Iterable
from difflib import SequenceMatcher
from itertools import zip_longest

from helmwright.anatomy.prior import MALE_SHARE
from helmwright.roster.columns import HAT_HEADING, SYNONYMS, Column, names_hat
from helmwright.roster.group import group_notices
from helmwright.roster.player import Roster
from helmwright.roster.remark import Remark, RosterError
from helmwright.roster.row import read_row
from helmwright.roster.table import read_table

CLOSE = 0.75
"""Likeness of two words from which on one may be a slip for the other (assumed)."""


def read_roster(text: str, *, unit: str = "in", male_share: float = MALE_SHARE.value) -> Roster:
    """The players of a roster file, and what was found on the way.

    Parameters
    ----------
    text
        The file's text: a header that names the columns, in any order, and a row for each player.
    unit
        Unit of a bare number in a column that names none.
    male_share
        Chance of male before anything is read, where a row states no sex [1].

    Raises
    ------
    RosterError
        Where the file as a whole is no roster.

    """
    table = read_table(text)
    if not table.rows:
        raise RosterError("there is no row below the header; add a row for each player")
    rows = [
        read_row(table.columns, cells, row=row, unit=unit, male_share=male_share)
        for row, cells in table.rows
    ]
    players = tuple(read.player for read in rows if read.player is not None)
    return Roster(
        players=players,
        problems=tuple(problem for read in rows for problem in read.problems),
        notices=(
            *_column_notices(table.columns),
            *group_notices(players),
            *(notice for read in rows for notice in read.notices),
        ),
    )


def _column_notices(columns: Iterable[Column]) -> list[Remark]:
    """Columns that are not known, named rather than passed over; and that none is a measure."""
    columns = list(columns)
    notices = [
        Remark(0, column.heading, "", "this column is not known and was left out", _nearest(column))
        for column in columns
        if column.field is None and column.heading
    ]
    if not any(column.is_measure for column in columns):
        wrong = "no column holds a reading of the head, so every answer is a forecast only"
        notices.append(Remark(0, "", "", wrong, "add a column such as tape (in)"))
    return notices


def _nearest(column: Column) -> str:
    """What to do about a heading that is not known: the known one that it is close to, if any."""
    if names_hat(column.heading):
        return HAT_HEADING
    heading = " ".join(column.heading.lower().replace("_", " ").split())
    if "helmet" in heading:
        return 'of the helmet only "build now" is read, what is in it now'
    known = (name for names in SYNONYMS.values() for name in names.split("|"))
    close = next((name for name in known if _is_slip(heading, name)), None)
    return f'did you mean "{close}"?' if close else "call it notes to have it passed over"


def _is_slip(heading: str, name: str) -> bool:
    """Whether each word of a heading is nearly that of a known one: a shoe size is no head size."""
    pairs = list(zip_longest(heading.split(), name.split(), fillvalue=""))
    return all(SequenceMatcher(None, *pair).ratio() >= CLOSE for pair in pairs)
