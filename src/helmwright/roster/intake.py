"""From the text of a roster file to players, problems and notices."""

from collections.abc import Iterable, Mapping
from datetime import date
from difflib import SequenceMatcher
from functools import partial
from itertools import zip_longest

from helmwright.anatomy import Reading, measurer_errors
from helmwright.anatomy.prior import MALE_SHARE
from helmwright.roster.columns import HAT_HEADING, SYNONYMS, Column, names_hat
from helmwright.roster.group import group_notices, unsaid_hair_notices
from helmwright.roster.measurer import measurer_notices
from helmwright.roster.player import Roster
from helmwright.roster.remark import Remark, RosterError
from helmwright.roster.row import RowRead, read_row
from helmwright.roster.spreadsheet import column_letters
from helmwright.roster.stated_age import age_notices
from helmwright.roster.table import Table, decode_roster, read_table
from helmwright.roster.workbook import is_workbook, read_workbook

CLOSE = 0.75
"""Likeness of two words from which on one may be a slip for the other (assumed)."""

CLOSE_ONCE_BEGUN = 0.65
"""The same where both begin with the same two letters: slips are rare there (assumed)."""


def read_roster(
    text: str,
    *,
    unit: str = "in",
    male_share: float = MALE_SHARE.value,
    ages: tuple[float, float] | None = None,
    ages_from: str = "",
    today: date | None = None,
) -> Roster:
    """The players of a roster file, and what was found on the way.

    Parameters
    ----------
    text
        The file's text: a header that names the columns, in any order, and a row for each player.
    unit
        Unit of a bare number in a column that names none.
    male_share
        Chance of male before anything is read, where a row states no sex [1].
    ages
        Youngest and oldest that a player may be whose row states no age [years]; an adult where
        not given.
    ages_from
        Who says so, for the notice about it.
    today
        The day to which dates of birth and of measuring are counted; without it they are left out.

    Raises
    ------
    RosterError
        Where the file as a whole is no roster.

    """
    return _roster(
        read_table(text),
        unit=unit,
        male_share=male_share,
        ages=ages,
        ages_from=ages_from,
        today=today,
    )


def read_roster_file(
    data: bytes,
    *,
    tab: str | None = None,
    unit: str = "in",
    male_share: float = MALE_SHARE.value,
    ages: tuple[float, float] | None = None,
    ages_from: str = "",
    today: date | None = None,
) -> Roster:
    """The players of a roster file, from its bytes: a text or a workbook.

    Parameters
    ----------
    data
        CSV in any encoding that `decode_roster` knows, or a workbook.
    tab
        The workbook's tab; without it the one whose header fits best.
    unit, male_share, ages, ages_from, today
        As for `read_roster`.

    Raises
    ------
    RosterError
        Where the file as a whole is no roster, or a text is asked for a tab.

    """
    if is_workbook(data):
        table = read_workbook(data, tab=tab)
    elif tab is not None:
        raise RosterError("only a workbook has tabs; leave --tab out")
    else:
        table = read_table(decode_roster(data))
    return _roster(
        table, unit=unit, male_share=male_share, ages=ages, ages_from=ages_from, today=today
    )


def _roster(
    table: Table,
    *,
    unit: str,
    male_share: float,
    ages: tuple[float, float] | None,
    ages_from: str,
    today: date | None,
) -> Roster:
    if not table.rows:
        raise RosterError("there is no row below the header; add a row for each player")
    read = partial(_rows, table, unit=unit, male_share=male_share, ages=ages, today=today)
    rows = read(errors={})
    measurers = measurer_errors(_heads(rows))
    if measurers:
        # Who measures is known only from the whole file; then each row is read by his own error.
        rows = read(errors={(each.by, each.measure): each.used_mm for each in measurers})
    players = tuple(read.player for read in rows if read.player is not None)
    return Roster(
        players=players,
        problems=tuple(problem for read in rows for problem in read.problems),
        notices=(
            *table.notices,
            *_column_notices(table),
            *age_notices(players, ages, ages_from),
            *group_notices(players),
            *measurer_notices(players, measurers),
            *unsaid_hair_notices(players),
            *(notice for read in rows for notice in read.notices),
        ),
        table=table,
        measurers=measurers,
    )


def _rows(
    table: Table,
    *,
    unit: str,
    male_share: float,
    ages: tuple[float, float] | None,
    today: date | None,
    errors: Mapping[tuple[str, str], float],
) -> list[RowRead]:
    return [
        read_row(
            table.columns,
            cells,
            row=row,
            unit=unit,
            male_share=male_share,
            ages=ages,
            today=today,
            errors=errors,
        )
        for row, cells in table.rows
    ]


def _heads(rows: Iterable[RowRead]) -> list[tuple[Reading, ...]]:
    return [read.player.readings for read in rows if read.player is not None]


def _column_notices(table: Table) -> list[Remark]:
    """Columns that are not known, named rather than passed over; and that none is a measure."""
    columns = table.columns
    notices = [
        Remark(0, f"column {column_letters(place)}", "", "no heading, left out", "head it notes")
        for place, column in enumerate(columns, start=1)
        if not column.heading and any(cells[place - 1] for _, cells in table.rows)
    ]
    notices += [
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
    known = [name for names in SYNONYMS.values() for name in names.split("|")]
    close = max(known, key=lambda name: _nearness(heading, name))
    asked = f'did you mean "{close}"?'
    return asked if _nearness(heading, close) > 0.0 else "call it notes to have it passed over"


def _nearness(heading: str, name: str) -> float:
    """Likeness of the least like of their words: a shoe size is no head size. 0 for no slip."""
    pairs = list(zip_longest(heading.split(), name.split(), fillvalue=""))
    likeness = [SequenceMatcher(None, *pair).ratio() for pair in pairs]
    limits = [CLOSE_ONCE_BEGUN if one[:2] == other[:2] else CLOSE for one, other in pairs]
    is_slip = all(each >= limit for each, limit in zip(likeness, limits, strict=True))
    return min(likeness, default=0.0) if is_slip else 0.0
