"""What is known of a player's head, out of rows, as the core takes it."""

from collections.abc import Iterable
from datetime import date
from functools import lru_cache

from helmwright.anatomy import AgeError, HeadEstimate, Over, Reading, Sex, estimate_head, head_prior
from helmwright.anatomy.age import ADULT_AGE
from helmwright.anatomy.prior import Stated
from helmwright.records import models
from helmwright.roster import read_heading
from helmwright.roster.stated_age import Age, stated_age
from helmwright.units import KG_PER_POUND, MM_PER_INCH

POUNDS = 5
"""To so many pounds, and to the inch, a body is rounded for a forecast: less than a roster's own
error."""

Range = tuple[float, float, float]
"""Middle, and the ends between which nine of ten such heads lie [mm]."""

DAYS_A_MONTH = 365.25 / 12.0
NINE_OF_TEN = 0.9


class _Heard:
    """Keeps remarks on an age."""

    def __init__(self) -> None:
        self.remarks: list[tuple[str, str]] = []

    def problem(self, column: str, value: str, wrong: str, right: str) -> None:  # noqa: ARG002
        """Keeps one: what is wrong, and what would be right."""
        self.remarks.append((wrong.removesuffix(", left out"), right))

    notice = problem


def class_faults(school_class: str, today: date) -> list[tuple[str, str]]:
    """What is wrong with a class that tells no age, and what would be right."""
    heard = _Heard()
    _age_of_class(school_class, heard, today)
    return heard.remarks


def age_of(player: models.Player, today: date) -> Age:
    """The player's age as far as birth year or class tell it; an adult's where neither does."""
    if player.birth_year is not None:
        youngest = float(today.year - player.birth_year - 1)
        return Age() if youngest >= ADULT_AGE.value else Age(ages=(youngest, youngest + 1.0))
    if not player.school_class:
        return Age()
    return _age_of_class(player.school_class, _Heard(), today)


def _age_of_class(school_class: str, heard: _Heard, today: date) -> Age:
    """By a class alone; a bare "freshman" may be in high school or in college, and tells none."""
    return stated_age([(read_heading("class"), school_class)], heard, ages=None, today=today)


def may_grow(player: models.Player, today: date) -> bool:
    """Whether the player's head may still grow; a child too young for any survey does."""
    try:
        return age_of(player, today).is_young
    except AgeError:
        return True


def stated_of(player: models.Player, today: date) -> Stated:
    """What is known of the player before any reading, as the head's estimate takes it."""
    age = age_of(player, today)
    stated = Stated(
        sex=Sex(player.sex) if player.sex else None,
        stature_mm=player.stature_mm,
        weight_kg=player.weight_kg,
    )
    if age.age_years is not None:
        stated["age_years"] = age.age_years
    if age.ages is not None:
        stated["ages"] = age.ages
    return stated


def worn_of(player: models.Player) -> tuple[Over, ...] | None:
    """What will be worn under the helmet; None where nobody said."""
    return tuple(Over(kind) for kind in player.worn) or None


def readings_of(
    player: models.Player, rows: Iterable[models.Reading], today: date
) -> tuple[Reading, ...]:
    """The readings that stand, in the core's form; of a player who grows with their age."""
    grows = may_grow(player, today)
    return tuple(_reading(row, today if grows else None) for row in rows if not row.is_withdrawn)


def estimate_of(player: models.Player, rows: Iterable[models.Reading], today: date) -> HeadEstimate:
    """Belief over the player's head, given everything in the records; about 2 ms."""
    readings = readings_of(player, rows, today)
    ordered = sorted(readings, key=lambda reading: (reading.measure, reading.value_mm))
    return estimate_head(ordered, worn=worn_of(player), **stated_of(player, today))


def forecast_of(player: models.Player, today: date) -> Range:
    """The tape around a head that nobody measured, from sex, age, height and weight."""
    age = age_of(player, today)
    return _forecast(
        player.sex,
        age.age_years,
        age.ages,
        _rounded(player.stature_mm, MM_PER_INCH),
        _rounded(player.weight_kg, POUNDS * KG_PER_POUND),
    )


@lru_cache(maxsize=4096)
def _forecast(
    sex: str,
    age_years: float | None,
    ages: tuple[float, float] | None,
    stature_mm: float | None,
    weight_kg: float | None,
) -> Range:
    prior = head_prior(
        Sex(sex) if sex else None,
        age_years=age_years,
        ages=ages,
        stature_mm=stature_mm,
        weight_kg=weight_kg,
    )
    tape = prior.marginal(["tape_circumference"])
    low, high = tape.interval("tape_circumference", NINE_OF_TEN)
    return float(tape.mean[0]), low, high


def _rounded(value: float | None, step: float) -> float | None:
    return None if value is None else round(value / step) * step


def core_reading(
    measure: str,
    value_mm: float,
    over: str = "",
    beneath: str | None = None,
    *,
    months_ago: float = 0.0,
    by: str = "",
) -> Reading:
    """A reading as the core takes it, from words as the records keep them."""
    return Reading(
        measure,
        value_mm,
        over=Over(over) if over else Over.UNSTATED,
        beneath=Over(beneath) if beneath else None,
        months_ago=months_ago,
        by=by,
    )


def _reading(row: models.Reading, grows_until: date | None) -> Reading:
    months = 0.0
    if grows_until is not None:
        months = max(float(round((grows_until - row.at.date()).days / DAYS_A_MONTH)), 0.0)
    return core_reading(
        row.measure,
        row.value_mm,
        row.over,
        row.beneath,
        months_ago=months,
        by=str(row.by_id or ""),
    )
