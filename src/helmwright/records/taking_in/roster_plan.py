"""A roster file against the roster that is here: what each row would do."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, tzinfo
from uuid import UUID, uuid5

from helmwright.anatomy import Over, Reading
from helmwright.records.kinds import Payload
from helmwright.records.kinds.people import (
    PlayerAdded,
    PlayerChanged,
    PlayerFields,
    ReadingTaken,
)
from helmwright.records.meanwhile import changed_fields
from helmwright.records.taking_in.names import looks_like, same_key
from helmwright.records.taking_in.plan import LEAVE, NEW, Choice, Line, Plan, Verdict, refused, told
from helmwright.records.taking_in.roster_here import PlayerHere
from helmwright.records.taking_in.roster_row import RowSays, merged, row_says
from helmwright.records.taking_in.roster_words import changes, fields_told, readings_told
from helmwright.roster import Field, Remark, Roster

_ABOUT_ANSWERS = "no column holds a reading"
NOT_KEPT: Mapping[Field, str] = {
    Field.AGE: "Ages are not kept, they would be wrong next year: write the year of birth.",
    Field.BUILD_NOW: "What is in a helmet comes with the list of helmets, not with the roster.",
    Field.GUARD: "Face guards come with the list of helmets, not with the roster.",
    Field.MEASURED_BY: "Who measured is not kept from a file; the readings are yours.",
}
"""Columns of which nothing is kept, and why."""


@dataclass(frozen=True, slots=True)
class RosterTaking:
    """Everything that decides what a roster file does.

    Parameters
    ----------
    take_in
        Of the file; IDs of new players follow from it.
    team
        Players are looked for in it alone.
    players
        Of the team, those who left too, none who is erased.
    today, zone
        The day in the room, and its time zone.
    answers
        To rows that ask, by their number: a player's ID, "new" or "leave".
    """

    take_in: UUID
    team: UUID
    players: Sequence[PlayerHere]
    today: date
    zone: tzinfo
    answers: Mapping[int, str] = field(default_factory=dict)


def plan_roster(roster: Roster, taking: RosterTaking) -> Plan:
    """What each row would do; pure, and the same for the same file, roster and answers."""
    return Plan(tuple(_Planning(roster, taking).lines()), tuple(_file_notices(roster)))


class _Planning:
    """The rows, the names that stand in several of them, and who is taken by one already."""

    def __init__(self, roster: Roster, taking: RosterTaking) -> None:
        self.roster, self.taking = roster, taking
        self.here: dict[str, list[PlayerHere]] = defaultdict(list)
        for player in taking.players:
            self.here[same_key(player.fields.name)].append(player)
        self.by_id = {str(player.id): player for player in taking.players}
        self.rows_of: dict[str, list[int]] = defaultdict(list)
        for each in roster.players:
            if each.name:
                self.rows_of[same_key(each.name)].append(each.row)
        self.taken: dict[UUID, int] = {}

    def lines(self) -> Iterator[Line]:
        table = self.roster.table
        players = {player.row: player for player in self.roster.players}
        problems, notices = _by_row(self.roster.problems), _by_row(self.roster.notices)
        for row, cells in table.rows if table else ():
            player = players.get(row)
            if player is None or row in problems:
                who = next((each.who for each in problems[row] if each.who), "")
                yield refused(row, who, problems[row])
                continue
            columns = table.columns if table else ()
            says = row_says(player, columns, cells, today=self.taking.today)
            if says.problems:
                yield refused(row, player.label, says.problems)
                continue
            looked = [each for each in notices[row] if each.column]
            shown = tuple(map(told, (*looked, *says.notices)))
            yield self._line(says, shown)

    def _line(self, says: RowSays, notices: tuple[str, ...]) -> Line:
        key, row = same_key(says.player.name), says.player.row
        exact = self.here.get(key, [])
        rows = self.rows_of[key]
        asked = self._asked(says, key, exact, rows)
        if not asked:
            return self._matched(says, exact[0] if exact else None, notices)
        near = exact or self._near(key)
        choices = self._choices(says, near)
        answer = self.taking.answers.get(row, "")
        if answer == LEAVE:
            return Line(row, says.player.label, Verdict.LEFT_OUT, (asked,), choices=choices)
        if answer not in {choice.key for choice in choices}:
            return Line(row, says.player.label, Verdict.ASKS, (asked,), choices=choices)
        line = self._matched(says, self.by_id.get(answer), notices)
        return Line(row, line.who, line.verdict, line.says, line.payloads, choices, line.notices)

    def _asked(
        self, says: RowSays, key: str, exact: Sequence[PlayerHere], rows: Sequence[int]
    ) -> str:
        """What is asked of a row; empty where one player is meant, or nobody who is here."""
        if len(rows) > 1:
            others = ", ".join(str(row) for row in rows)
            return f"This name stands in rows {others}. Who is each?"
        if len(exact) > 1:
            named = "; ".join(player.called for player in exact)
            return f"Several players here have this name: {named}. Which one is it?"
        if exact:
            here, number = exact[0], says.player.number
            if number and here.fields.number and number != here.fields.number:
                return (
                    f"{here.fields.name} has number {here.fields.number} here, and the file says"
                    f" {number}. Is it the same player?"
                )
            return ""
        near = self._near(key)
        if near:
            named = "; ".join(player.called for player in near)
            return f"This looks like {named}. Is it the same player?"
        return ""

    def _near(self, key: str) -> list[PlayerHere]:
        """Players whose names look like it, but those whom another row names."""
        free = (other for other in self.here if other not in self.rows_of)
        return [player for other in looks_like(key, free) for player in self.here[other]]

    def _choices(self, says: RowSays, near: Sequence[PlayerHere]) -> tuple[Choice, ...]:
        number = says.player.number
        ordered = sorted(near, key=lambda player: player.fields.number != number)
        same = (Choice(str(player.id), f"the same player: {player.called}") for player in ordered)
        return (*same, Choice(NEW, "a new player"), Choice(LEAVE, "leave the row out"))

    def _matched(self, says: RowSays, here: PlayerHere | None, notices: tuple[str, ...]) -> Line:
        row, who = says.player.row, says.player.label
        if here is None:
            return self._added(says, notices)
        if here.id in self.taken:
            wrong = f"row {self.taken[here.id]} is this player already"
            right = "answer that it is a new player, or leave it out"
            return refused(row, who, [Remark(row, "", "", wrong, right)])
        self.taken[here.id] = row
        if not here.is_here:
            wrong = f"{here.called} was on the roster and has left"
            right = "bring the player back on their page, then take the file in again"
            return refused(row, who, [Remark(row, "", "", wrong, right)])
        after = merged(says.fields, here.fields)
        said: list[Payload] = []
        words = changes(here.fields, after)
        if after != here.fields:
            other = changed_fields(here.fields.model_dump(), after.model_dump())
            said.append(PlayerChanged(player=here.id, take_in=self.taking.take_in, **other))
        new = _not_here(says, here)
        said += self._readings(here.id, says, new)
        words += readings_told(new)
        if not said:
            return Line(row, who, Verdict.SAME, notices=notices)
        return Line(row, who, Verdict.CHANGE, tuple(words), tuple(said), notices=notices)

    def _added(self, says: RowSays, notices: tuple[str, ...]) -> Line:
        row, player = says.player.row, uuid5(self.taking.take_in, f"row {says.player.row}")
        fields = PlayerFields(**says.fields)
        added = PlayerAdded(
            player=player,
            team=self.taking.team,
            take_in=self.taking.take_in,
            **fields.model_dump(),
        )
        said = (added, *self._readings(player, says, says.readings))
        words = (f"a new player: {fields_told(fields)}", *readings_told(says.readings))
        return Line(row, says.player.label, Verdict.ADD, words, said, notices=notices)

    def _readings(self, player: UUID, says: RowSays, readings: Sequence[Reading]) -> list[Payload]:
        return [
            ReadingTaken(
                player=player,
                measure=each.measure,
                value_mm=each.value_mm,
                over=each.over,
                beneath=each.beneath,
                taken_at=says.taken_at(self.taking.zone),
                take_in=self.taking.take_in,
            )
            for each in readings
        ]


def _not_here(says: RowSays, here: PlayerHere) -> list[Reading]:
    """Readings that are not kept yet; of a number that stands there twice, two are the same."""
    kept = Counter(
        _named(each.measure, each.value_mm, each.over, each.beneath)
        for each in here.readings
        if says.day is None or each.day == says.day
    )
    new = []
    for each in says.readings:
        name = _named(each.measure, each.value_mm, each.over, each.beneath or "")
        if kept[name]:
            kept[name] -= 1
        else:
            new.append(each)
    return new


def _named(measure: str, value_mm: float, over: str, beneath: str) -> tuple[str, float, str, str]:
    return measure, round(value_mm, 2), over or Over.UNSTATED.value, beneath


def _by_row(remarks: Sequence[Remark]) -> dict[int, list[Remark]]:
    found: dict[int, list[Remark]] = defaultdict(list)
    for remark in remarks:
        found[remark.row].append(remark)
    return found


def _file_notices(roster: Roster) -> Iterator[str]:
    columns = roster.table.columns if roster.table else ()
    fields = {column.field for column in columns}
    yield from (words for kept, words in NOT_KEPT.items() if kept in fields)
    for remark in roster.notices:
        if remark.row == 0 and not remark.wrong.startswith(_ABOUT_ANSWERS):
            yield str(remark)
