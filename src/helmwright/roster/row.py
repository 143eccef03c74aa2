"""One row read as a player, with everything that is to be said about it."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from helmwright.anatomy import Over, Reading, Sex, Touch, measure_of
from helmwright.anatomy.covering import COVERINGS
from helmwright.anatomy.prior import MALE_SHARE
from helmwright.roster.cell import (
    CellError,
    is_blank,
    read_coverings,
    read_glasses,
    read_length,
    read_sex,
    read_stature,
    read_weight,
)
from helmwright.roster.columns import Column, Field
from helmwright.roster.consistency import check_head
from helmwright.roster.plain import printable
from helmwright.roster.player import Player
from helmwright.roster.remark import Remark
from helmwright.roster.stated_age import months_ago, stated_age

Entry = tuple[Column, str]
Errors = Mapping[tuple[str, str], float]

SUMMARIES = {
    *("total", "totals", "sum", "average", "averages", "avg", "mean", "median", "std", "std dev"),
    *("sd", "count", "minimum", "maximum", "overall", "grand total"),
    *("team total", "team totals", "team average", "team mean"),
}
"""What a line of sums below a table is called; a whole name never is."""


@dataclass(frozen=True, slots=True)
class RowRead:
    """What one row gave; no player where there is a problem."""

    player: Player | None
    problems: tuple[Remark, ...]
    notices: tuple[Remark, ...]


@dataclass(slots=True)
class _Said:
    """Remarks gathered over one row."""

    row: int
    who: str
    problems: list[Remark] = field(default_factory=list)
    notices: list[Remark] = field(default_factory=list)

    def problem(self, column: str, value: str, wrong: str, right: str) -> None:
        self.problems.append(Remark(self.row, column, value, wrong, right, self.who))

    def notice(self, column: str, value: str, wrong: str, right: str) -> None:
        self.notices.append(Remark(self.row, column, value, wrong, right, self.who))


def read_row(
    columns: Sequence[Column],
    cells: Sequence[str],
    *,
    row: int,
    unit: str = "in",
    male_share: float = MALE_SHARE.value,
    ages: tuple[float, float] | None = None,
    today: date | None = None,
    errors: Errors | None = None,
) -> RowRead:
    """The player of one row.

    `errors` holds the technical error [mm] of each person who measures, by name and measure, where
    the repeats of the whole roster tell it.

    A head measure that cannot be read is a problem: the player is not answered, because a number
    left out would change the answer without anybody seeing it. Sex, age, height and weight only
    help; one that cannot be read is left out with a notice, but an age under 8 or of nobody is a
    problem: there is no survey to answer from. `ages` are those of a player who states none; dates
    are counted to `today`.
    """
    cells = [printable(cell) for cell in cells]
    entries = [
        (column, cell)
        for column, cell in zip(columns, cells, strict=False)
        if column.field is not None and not is_blank(cell)
    ]
    name = _name(entries)
    number = _first(entries, Field.NUMBER)
    said = _Said(row, name or (f"no. {number}" if number else ""))
    _overflow(columns, cells, said)
    _summary(name or number, said)
    sex = _sex(entries, said)
    age = stated_age(entries, said, ages=ages, today=today)
    months = months_ago(entries, said, age=age, sex=sex, today=today)
    read = _readings(entries, _takers(columns, cells), unit, said, errors or {})
    readings = tuple(replace(each, months_ago=months) for each in read)
    worn = _worn(entries, said)
    _covered(entries, worn or (), said)
    if not readings and not said.problems:
        said.notice("", "", "no reading of the head", "a forecast only; measure before choosing")
    player = Player(
        row=row,
        number=number,
        name=name,
        position=_first(entries, Field.POSITION),
        sex=sex,
        stature_mm=_body(entries, Field.STATURE, said, young=age.is_young),
        weight_kg=_body(entries, Field.WEIGHT, said, young=age.is_young),
        readings=readings,
        male_share=male_share,
        build_now=_first(entries, Field.BUILD_NOW),
        glasses=_glasses(entries, said),
        guard=_first(entries, Field.GUARD),
        age_years=age.age_years,
        ages=age.ages,
        worn=worn,
    )
    if readings and not said.problems:
        checked = check_head(player, [e for e in entries if e[0].is_measure], said.who)
        said.problems += checked.problems
        said.notices += checked.notices
    answered = None if said.problems else player
    return RowRead(answered, _numbered(said.problems, number), _numbered(said.notices, number))


def _numbered(remarks: Sequence[Remark], number: str) -> tuple[Remark, ...]:
    """The remarks, with the jersey number of their row."""
    return tuple(replace(remark, number=number) for remark in remarks)


def _first(entries: Sequence[Entry], wanted: Field) -> str:
    """The first cell of a field, or nothing."""
    return next((cell for column, cell in entries if column.field == wanted), "")


def _name(entries: Sequence[Entry]) -> str:
    """The whole name, from one column or from two."""
    parts = (_first(entries, Field.GIVEN_NAME), _first(entries, Field.FAMILY_NAME))
    return _first(entries, Field.NAME) or " ".join(part for part in parts if part)


def _overflow(columns: Sequence[Column], cells: Sequence[str], said: _Said) -> None:
    """A row longer than its header holds a stray comma, and its cells stand askew."""
    beyond = [cell for cell in cells[len(columns) :] if cell]
    if beyond:
        said.problem(
            "past the last column",
            beyond[0],
            "the row has more cells than the header, so its numbers may stand in wrong columns",
            "put quotation marks around a cell that holds a comma",
        )


def _summary(called: str, said: _Said) -> None:
    """A line of sums below the players is nobody's head."""
    if called.lower().replace(".", "").rstrip(": ") in SUMMARIES:
        said.problem(
            "",
            "",
            "this looks like a line of sums or averages, not like a player",
            "take the line out, or write the player's whole name",
        )


def _sex(entries: Sequence[Entry], said: _Said) -> Sex | None:
    for column, cell in entries:
        if column.field == Field.SEX:
            try:
                return read_sex(cell)
            except CellError as error:
                said.notice(column.heading, cell, f"{error.wrong}, left out", error.right)
    return None


def _glasses(entries: Sequence[Entry], said: _Said) -> bool | None:
    for column, cell in entries:
        if column.field == Field.GLASSES:
            try:
                return read_glasses(cell)
            except CellError as error:
                said.notice(column.heading, cell, f"{error.wrong}, left out", error.right)
    return None


def _body(entries: Sequence[Entry], wanted: Field, said: _Said, *, young: bool) -> float | None:
    read = read_stature if wanted == Field.STATURE else read_weight
    for column, cell in entries:
        if column.field == wanted:
            try:
                return read(cell, column, young=young)
            except CellError as error:
                said.notice(column.heading, cell, f"{error.wrong}, left out", error.right)
    return None


def _readings(
    entries: Sequence[Entry], takers: Sequence[str], unit: str, said: _Said, errors: Errors
) -> tuple[Reading, ...]:
    """Every reading of the head in the row, with who took it."""
    measured = [(column, cell) for column, cell in entries if column.is_measure]
    if _swapped(measured, unit, said):
        return ()
    over = _over(entries, said)
    readings: list[Reading] = []
    for (column, cell), who in zip(measured, takers, strict=True):
        try:
            value = read_length(cell, column, unit)
        except CellError as error:
            said.problem(column.heading, cell, error.wrong, error.right)
        else:
            readings.append(_reading(column, value, over, who, errors))
    return tuple(readings)


def _reading(
    column: Column, value: float, over: Sequence[Over], who: str, errors: Errors
) -> Reading:
    """One reading, with what it went over where that changes it."""
    layered = bool(over) and measure_of(column.measure).layer > 0
    return Reading(
        column.measure,
        value,
        over=over[-1] if layered else Over.UNSTATED,
        beneath=over[0] if layered and len(over) > 1 else None,
        touch=Touch.LIGHT if column.is_light else Touch.DRAWN_IN,
        by=who,
        tem_mm=errors.get((who, column.measure)),
    )


def _takers(columns: Sequence[Column], cells: Sequence[str]) -> list[str]:
    """Who took each filled reading: the first named took the first of each measure, and so on.

    A cell left empty is the one before again; before the first that is named, nobody is known.
    """
    by: list[str] = []
    for column, cell in zip(columns, cells, strict=False):
        if column.field == Field.MEASURED_BY:
            by.append(cell if not is_blank(cell) else by[-1] if by else "")
    found: list[str] = []
    seen: Counter[Field | None] = Counter()
    for column, cell in zip(columns, cells, strict=False):
        if column.is_measure:
            place = min(seen[column.field], len(by) - 1)
            seen[column.field] += 1
            if not is_blank(cell):
                found.append(by[place] if by else "")
    return found


def _over(entries: Sequence[Entry], said: _Said) -> tuple[Over, ...]:
    """What the readings went over; what is worn, where nothing else was said."""
    over = _coverings(entries, Field.TAPE_OVER, said)
    if over is None:
        over = _coverings(entries, Field.WORN, said)
    return over or ()


def _worn(entries: Sequence[Entry], said: _Said) -> tuple[Over, ...] | None:
    """What will be worn; hair that was taped over stays on under a cap."""
    worn = _coverings(entries, Field.WORN, said)
    over = _coverings(entries, Field.TAPE_OVER, said)
    if worn is None:
        return over
    if over and all(kind.is_headwear for kind in worn):
        worn += tuple(k for k in over if not k.is_headwear and k is not Over.BARE)
    return tuple(kind for kind in Over if kind in worn)


def _coverings(entries: Sequence[Entry], wanted: Field, said: _Said) -> tuple[Over, ...] | None:
    for column, cell in entries:
        if column.field == wanted:
            try:
                return read_coverings(cell)
            except CellError as error:
                wrong = f"{error.wrong}; taken as not stated"
                if not any(each.column == column.heading for each in said.notices):
                    said.notice(column.heading, cell, wrong, error.right)
                return None
    return None


def _covered(entries: Sequence[Entry], worn: Sequence[Over], said: _Said) -> None:
    """What is worn is fitted over, by a thickness that nobody has measured."""
    kinds = [kind for kind in worn if kind in COVERINGS]
    if not set(kinds) - {Over.SHORT_HAIR}:
        # A third of a millimeter: the page's closing words on hair are enough.
        return
    column, cell = next(e for e in entries if e[0].field in (Field.WORN, Field.TAPE_OVER))
    thick = "; ".join(_thickness(kind) for kind in kinds)
    said.notice(
        column.heading,
        cell,
        f"fitted over {' and '.join(kinds)} of assumed thickness under a drawn-in tape ({thick})",
        "fit again when that changes",
    )


def _thickness(kind: Over) -> str:
    firm = COVERINGS[kind].firm
    limit = 2.0 * (firm.spread or 0.0)
    ends = f"{max(firm.value - limit, 0.0):g} to {firm.value + limit:g}"
    return f"{kind} {firm.value:g} mm; {ends} mm, 19 times of 20"


def _swapped(measured: Sequence[Entry], unit: str, said: _Said) -> bool:
    """Whether length and breadth stand in each other's columns: no head is broader than long."""
    lengths = [entry for entry in measured if entry[0].field == Field.LENGTH]
    breadths = [entry for entry in measured if entry[0].field == Field.BREADTH]
    for (length, long_cell), (breadth, broad_cell) in zip(lengths, breadths, strict=False):
        try:
            as_length = read_length(broad_cell, Column("", Field.LENGTH, breadth.unit), unit)
            as_breadth = read_length(long_cell, Column("", Field.BREADTH, length.unit), unit)
        except CellError:
            continue
        if as_length > as_breadth:
            said.problem(
                f"{length.heading} and {breadth.heading}",
                f"{long_cell} and {broad_cell}",
                "length and breadth look swapped: no head is broader than it is long",
                f"length {broad_cell} and breadth {long_cell}?",
            )
            return True
    return False
