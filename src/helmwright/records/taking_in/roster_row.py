"""What one row of a roster says of a player: fields to keep, and readings."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo
from typing import Any

from helmwright.anatomy import Over, Reading, Touch
from helmwright.records.kinds.people import PlayerFields
from helmwright.roster import CellError, Column, Field, Player, Remark
from helmwright.roster.cell import is_blank
from helmwright.roster.day import read_day

LONGEST: Mapping[str, int] = {"name": 120, "number": 8, "position": 40, "school_class": 20}
EARLIEST = 1940
_YEAR = re.compile(r"((?:19|20)\d{2})(?:\.0+)?")
_NOON = time(12)
_DAYS_A_MONTH = 365.25 / 12.0


@dataclass(frozen=True, slots=True)
class RowSays:
    """What is to be kept of a row.

    Parameters
    ----------
    player
        As the roster's reader has it.
    fields
        What the row states; a cell that is empty states nothing.
    day
        On which it was measured, where the row names it.
    months_day
        The same, where the row says how many months ago that was.
    problems, notices
        What is wrong, and what to look at.
    """

    player: Player
    fields: Mapping[str, Any]
    day: date | None
    months_day: date | None
    problems: tuple[Remark, ...]
    notices: tuple[Remark, ...]

    @property
    def readings(self) -> tuple[Reading, ...]:
        """Readings of a tape drawn in, or of calipers: the kinds that are kept."""
        return tuple(each for each in self.player.readings if each.touch is Touch.DRAWN_IN)

    def taken_at(self, zone: tzinfo) -> datetime | None:
        """Noon of the day of measuring; None where it is today."""
        day = self.day or self.months_day
        return None if day is None else datetime.combine(day, _NOON, zone)


def row_says(
    player: Player, columns: Sequence[Column], cells: Sequence[str], *, today: date
) -> RowSays:
    """What one row says.

    Parameters
    ----------
    player
        What the roster's reader made of it.
    columns, cells
        The row as written: a year of birth and a class are read from it.
    today
        The day in the room.
    """
    cell = {
        column.field: written
        for column, written in reversed([*zip(columns, cells, strict=False)])
        if column.field is not None and not is_blank(written)
    }
    problems: list[Remark] = []
    notices: list[Remark] = []
    fields = {**_plain(player), "school_class": cell.get(Field.GRADE)}
    fields["birth_year"], wrong = _birth_year(player, cell.get(Field.BORN), today)
    notices += wrong
    for name, most in LONGEST.items():
        if len(fields.get(name) or "") > most:
            problems.append(_remark(player, name, f"longer than {most} letters", "shorten it"))
    if not player.name:
        problems.append(
            _remark(player, "name", "no name", "write it: a number alone tells nobody apart")
        )
    if any(each.touch is Touch.LIGHT for each in player.readings):
        notices.append(_remark(player, "light tape", "not kept", "it is used in a file's answer"))
    known = {name: value for name, value in fields.items() if value not in (None, "", ())}
    day = _day(cell.get(Field.MEASURED), today)
    ago = max((each.months_ago for each in player.readings), default=0.0)
    months_day = today - timedelta(days=round(ago * _DAYS_A_MONTH)) if ago else None
    return RowSays(player, known, day, months_day, tuple(problems), tuple(notices))


def merged(fields: Mapping[str, Any], before: PlayerFields) -> PlayerFields:
    """What is kept, with what a row states written over it; the name stays as it is spelled."""
    said = {name: value for name, value in fields.items() if name != "name"}
    near = {
        name: getattr(before, name)
        for name in ("stature_mm", "weight_kg")
        if _is_near(said.get(name), getattr(before, name))
    }
    return before.model_copy(update=said | near)


def _plain(player: Player) -> dict[str, Any]:
    worn = tuple(kind for kind in player.worn or () if kind is not Over.UNSTATED)
    return {
        "name": player.name,
        "number": player.number,
        "position": player.position,
        "sex": player.sex.value if player.sex else None,
        "stature_mm": player.stature_mm,
        "weight_kg": player.weight_kg,
        "glasses": player.glasses,
        "worn": worn,
    }


def _birth_year(
    player: Player, cell: str | None, today: date
) -> tuple[int | None, tuple[Remark, ...]]:
    if cell is None:
        return None, ()
    match = _YEAR.fullmatch(cell)
    try:
        year = int(match[1]) if match else read_day(cell, today=today).year
    except CellError:
        # The roster's reader has told of it, without the cell: a day of birth is not carried on.
        return None, ()
    if EARLIEST <= year <= today.year:
        return year, ()
    wrong = "nobody who plays was born then, left out"
    return None, (_remark(player, "born", wrong, "write the year of birth"),)


def _day(cell: str | None, today: date) -> date | None:
    """A day where the cell holds one; months that have passed tell none."""
    try:
        return None if cell is None else read_day(cell, today=today)
    except CellError:
        return None


def _remark(player: Player, column: str, wrong: str, right: str) -> Remark:
    return Remark(player.row, column, "", wrong, right, player.name, player.number)


def _is_near(one: float | None, other: float | None) -> bool:
    """Whether two lengths or weights are one, written twice."""
    return one is not None and other is not None and abs(one - other) < 0.05
