"""Ages and times out of a row: years, a year or day of birth, a grade; when it was measured.

Of a date of birth only the completed years are kept.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Protocol

from helmwright.anatomy import AgeError, Sex
from helmwright.anatomy.age import ADULT_AGE, checked_age
from helmwright.anatomy.growth import YOUNGEST_READ
from helmwright.anatomy.head_prior import age_interval
from helmwright.anatomy.reading import LONGEST_AGO
from helmwright.anatomy.youth import mean_growth
from helmwright.roster.cell import CellError
from helmwright.roster.columns import Column, Field
from helmwright.roster.day import EXAMPLE, completed_years, read_day
from helmwright.roster.player import Player, some_names
from helmwright.roster.remark import Remark
from helmwright.units import inches

Entry = tuple[Column, str]

GRADE_TO_AGE = 5
"""A pupil of a grade has this many completed years more, or one more again (common practice)."""

GRADES = range(3, 13)
"""Grades that are read: those of 8 to 18 years."""

OLD_MONTHS = 6
"""From here on a youth's readings are said to be old (assumed)."""

_CLASSES = {
    **dict.fromkeys(("freshman", "fresh", "fr"), 9),
    **dict.fromkeys(("sophomore", "soph", "so"), 10),
    **dict.fromkeys(("junior", "jr"), 11),
    **dict.fromkeys(("senior", "sr"), 12),
}
_COLLEGE = {"college", "university", "redshirt", "rs", "r", "graduate", "grad", "gr"}
"""Words of a class that only a college has; its players are taken as adults."""

_AGE = re.compile(r"(\d{1,3}(?:\.\d+)?) ?(?:y|yrs?|years?|yo|y/o|years? old)?\.?", re.IGNORECASE)
_YEARS_MONTHS = re.compile(r"(\d{1,2}) ?y[a-z]*\.?,? ?(\d{1,2}) ?m[a-z]*\.?", re.IGNORECASE)
_RANGE = re.compile(r"(\d{1,2}) ?(?:-|to) ?(\d{1,2})(?: ?y[a-z]*\.?)?", re.IGNORECASE)
_GRADE = re.compile(r"(?:grade )?(\d{1,2})(?:st|nd|rd|th)?(?: ?(?:grade|gr))?\.?", re.IGNORECASE)
_YEAR = re.compile(r"(?:19|20)\d{2}(?:\.0+)?")
_MONTHS = re.compile(r"(\d{1,3}(?:\.\d+)?) ?(?:mos?|months?)?\.?(?: ago)?", re.IGNORECASE)
_SPOKEN_MONTHS = re.compile(r".*m[a-z]*\.?(?: ago)?", re.IGNORECASE)
_YEARS_AGO = re.compile(r"(\d{1,2}(?:\.\d+)?) ?(?:y|yrs?|years?)\.?(?: ago)?", re.IGNORECASE)
_DAYS_A_MONTH = 365.25 / 12.0


class Said(Protocol):
    """Where remarks about a row are put."""

    def problem(self, column: str, value: str, wrong: str, right: str) -> None:
        """Something that keeps the row from an answer."""

    def notice(self, column: str, value: str, wrong: str, right: str) -> None:
        """Something to look at."""


@dataclass(frozen=True, slots=True)
class Age:
    """The age of one player: stated, within a range, or neither, which is an adult's."""

    age_years: float | None = None
    ages: tuple[float, float] | None = None

    @property
    def interval(self) -> tuple[float, float] | None:
        """Youngest and oldest exact age [years]."""
        return age_interval(self.age_years, self.ages)

    @property
    def is_young(self) -> bool:
        """Whether the player may still grow."""
        return self.interval is not None and self.interval[0] < ADULT_AGE.value


def stated_age(
    entries: Sequence[Entry],
    said: Said,
    *,
    ages: tuple[float, float] | None,
    today: date | None,
) -> Age:
    """The age by the surest column: age, then birth, then grade; else the range `ages`."""
    found: list[tuple[Entry, Age]] = []
    for field in (Field.AGE, Field.BORN, Field.GRADE):
        for column, cell in entries:
            if column.field == field:
                try:
                    found.append(((column, cell), _read(field, column, cell, ages, today)))
                except AgeError as error:
                    wrong, _, right = str(error).partition(": ")
                    said.problem(column.heading, _shown(column, cell), wrong, right)
                except CellError as error:
                    left = f"{error.wrong}, left out"
                    said.notice(column.heading, _shown(column, cell), left, error.right)
    if not found:
        return Age(ages=ages)
    (used, used_cell), first = found[0]
    for (column, cell), other in found[1:]:
        if _apart(first, other):
            told = f"{used.heading} {_shown(used, used_cell)}".strip()
            wrong = f"this does not go with {told}, which is used"
            said.notice(column.heading, _shown(column, cell), wrong, "check both")
    return first


def _shown(column: Column, cell: str) -> str:
    """The cell as a remark may show it: a date of birth is not carried on."""
    return "" if column.field == Field.BORN else cell


def _read(
    field: Field,
    column: Column,
    cell: str,
    ages: tuple[float, float] | None,
    today: date | None,
) -> Age:
    if field is Field.AGE:
        return _checked(_age(cell))
    if field is Field.BORN:
        return _checked(_born(cell, today))
    return _checked(_grade(column, cell, ages))


def _checked(age: Age) -> Age:
    for years in (age.age_years, *(age.ages or ())):
        if years is not None:
            checked_age(years)
    return age


def _age(cell: str) -> Age:
    if match := _AGE.fullmatch(cell):
        return Age(age_years=float(match[1]))
    if (match := _YEARS_MONTHS.fullmatch(cell)) and int(match[2]) < 12:
        # An exact age, never a whole number, which would mean a year that is half over.
        return Age(age_years=int(match[1]) + (int(match[2]) + 0.5) / 12.0)
    if match := _RANGE.fullmatch(cell):
        young, old = sorted((float(match[1]), float(match[2])))
        return Age(ages=(young, old))
    if _GRADE.fullmatch(cell) or cell.split(maxsplit=1)[0].lower().rstrip(".") in _CLASSES:
        raise CellError(
            "this is a grade, no age", "write years here, or put it in a column headed Grade"
        )
    raise CellError("this is no age", "write it in years, like 12")


def _born(cell: str, today: date | None) -> Age:
    if today is None:
        raise CellError("a birth needs the day of today", "give the age in years instead")
    if _YEAR.fullmatch(cell):
        year = int(float(cell))
        if year > today.year:
            raise CellError("this year has not come yet", "check it")
        before = max(today.year - year - 1, 0)
        return Age(ages=(float(before), float(today.year - year)))
    return Age(age_years=float(completed_years(read_day(cell, today=today), today)))


def _grade(column: Column, cell: str, ages: tuple[float, float] | None) -> Age:
    words = cell.lower().replace("high school", "hs").replace("-", " ").split()
    plain = [word.rstrip(".") for word in words if word != "hs"]
    if match := _GRADE.fullmatch(" ".join(plain)):
        return _of_grade(int(match[1]))
    if _COLLEGE & set(plain):
        return Age()
    if len(plain) == 1 and plain[0] in _CLASSES:
        in_school = ages is not None and ages[1] < ADULT_AGE.value
        if "hs" in words or "grade" in column.heading.lower() or in_school:
            return _of_grade(_CLASSES[plain[0]])
        raise CellError(
            "a class of a high school or of a college",
            f'write the grade, such as {_CLASSES[plain[0]]}, or "college {plain[0]}"',
        )
    raise CellError("this is no grade", "write it like 9, or give the age in years")


def _of_grade(grade: int) -> Age:
    if grade not in GRADES:
        low, high = GRADES[0], GRADES[-1]
        raise CellError(f"only grades {low} to {high} are read", "give the age in years")
    return Age(ages=(float(grade + GRADE_TO_AGE), float(grade + GRADE_TO_AGE + 1)))


def _apart(one: Age, other: Age) -> bool:
    """Whether two columns leave a whole year or more between them."""
    if one.interval is None or other.interval is None:
        young = one.interval or other.interval
        return young is not None and young[1] < ADULT_AGE.value - 2.0
    low, high = sorted((one.interval, other.interval))
    return high[0] - low[1] >= 1.0


def months_ago(
    entries: Sequence[Entry], said: Said, *, age: Age, sex: Sex | None, today: date | None
) -> float:
    """How long ago the row was measured, to the month; 0 where nothing is said."""
    for column, cell in entries:
        if column.field == Field.MEASURED:
            try:
                months = _months(column, cell, today)
            except CellError as error:
                if age.is_young:
                    wrong = f"{error.wrong}; a head that still grows needs the day of its readings"
                    said.problem(column.heading, cell, wrong, error.right)
                else:
                    wrong = f"{error.wrong}, left out; taken as measured today"
                    said.notice(column.heading, cell, wrong, error.right)
                return 0.0
            if _too_young_then(age, months):
                wrong = f"measured {months:g} months ago, when the player was not yet "
                wrong += f"{YOUNGEST_READ:g}: how such a head has grown since is not known"
                said.problem(column.heading, cell, wrong, "check the day, or measure again")
            elif age.is_young and months >= OLD_MONTHS:
                said.notice(column.heading, cell, _grown(age, sex, months), "measure again")
            return months
    return 0.0


def _too_young_then(age: Age, months: float) -> bool:
    """Whether nobody of that age can have been old enough for what is known of growth."""
    return age.interval is not None and age.interval[1] - months / 12.0 < YOUNGEST_READ


def _months(column: Column, cell: str, today: date | None) -> float:
    counted = _MONTHS.fullmatch(cell)
    spoken = _SPOKEN_MONTHS.fullmatch(cell) is not None
    if counted and (spoken or column.unit == "months" or "months" in column.heading.lower()):
        months = float(counted[1])
    elif years := _YEARS_AGO.fullmatch(cell):
        months = 12.0 * float(years[1])
    elif today is None:
        raise CellError("a date needs the day of today", "give the months since then instead")
    else:
        months = (today - read_day(cell, today=today)).days / _DAYS_A_MONTH
    if months > LONGEST_AGO:
        raise CellError("this is too long ago", f"{EXAMPLE}, or measure again")
    return float(round(months))


def _grown(age: Age, sex: Sex | None, months: float) -> str:
    """How much heads of that age have grown since; a boy's where sex is not stated."""
    low, high = age.interval or (ADULT_AGE.value, ADULT_AGE.value)
    middle = min(0.5 * (low + high), ADULT_AGE.value)
    girth = float(mean_growth(sex or Sex.MALE, middle - months / 12.0, middle)[0])
    return (
        f"measured {months:g} months ago; heads of that age have grown by about "
        f"{inches(girth, denominator=16, mark=' in')} around since, one by half of that and another"
        " by half as much again (assumed)"
    )


def age_notices(
    players: Sequence[Player], ages: tuple[float, float] | None, ages_from: str
) -> Iterator[Remark]:
    """That players who state no age are taken to be of the range, and who says so."""
    unstated = [player for player in players if player.age_years is None and player.ages == ages]
    if ages is not None and unstated:
        if len(unstated) > 1:
            named = some_names([player.label for player in unstated])
            who = f"{len(unstated)} players ({named}) state"
        else:
            who = f"{unstated[0].label} states"
        said = f", {ages_from}" if ages_from else ""
        wrong = f"{who} no age and may be {ages[0]:g} to {ages[1]:g} years old{said}"
        yield Remark(0, "age", "", wrong, "a column with the age makes every chance surer")
