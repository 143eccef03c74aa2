"""Options about ages: of players who state none, and the day to which dates are counted."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING, Any, TypeVar

import click

from helmwright.cli.stop import NothingRan

if TYPE_CHECKING:
    from helmwright.catalogue import ModelSheet

Command = TypeVar("Command", bound=Callable[..., Any])

_RANGE = re.compile(r"(\d{1,2}(?:\.\d+)?) ?(?:-|to) ?(\d{1,2}(?:\.\d+)?)")


@dataclass(frozen=True, slots=True)
class Ages:
    """What the options say of ages: a range for who states none, who says so, and today."""

    range: tuple[float, float] | None
    said_by: str
    today: date


def ages_options(command: Command) -> Command:
    """The ages of players who state none, and today."""
    command = click.option(
        "--today",
        metavar="YYYY-MM-DD",
        help="The day to which dates of birth and of measuring are counted; the clock's unless"
        " you say.",
    )(command)
    return click.option(
        "--ages",
        metavar="RANGE",
        help="Ages, such as 8-12, of players who state none; adults unless you say.",
    )(command)


def chosen_ages(ages: str | None, today: str | None, sheet: "ModelSheet | None" = None) -> Ages:
    """What the options say, else the ages for which the helmet is made, as far as heads go.

    Raises
    ------
    NothingRan
        Where they cannot be read.

    """
    from helmwright.anatomy.age import YOUNGEST

    day = _day(today)
    if ages is not None:
        return Ages(_range(ages), "the range asked for", day)
    made_for = sheet.ages if sheet is not None else None
    if sheet is None or made_for is None or made_for[1] < YOUNGEST:
        return Ages(None, "", day)
    said = f"for which the sheet of {sheet.model} says it is made; another range may be asked for"
    return Ages((max(made_for[0], YOUNGEST), made_for[1]), said, day)


def _range(written: str) -> tuple[float, float]:
    from helmwright.anatomy import AgeError
    from helmwright.anatomy.head_prior import age_interval

    match = _RANGE.fullmatch(written.strip())
    if match is None:
        raise NothingRan(f"--ages {written} is no range of ages; write it like --ages 8-12")
    low, high = float(match[1]), float(match[2])
    try:
        age_interval(None, (low, high))
    except AgeError as error:
        raise NothingRan(f"--ages {written}: {error}") from error
    return low, high


def _day(written: str | None) -> date:
    """The day that is named, or the clock's."""
    if written is None:
        return datetime.now().astimezone().date()
    try:
        return date.fromisoformat(written)
    except ValueError as error:
        raise NothingRan(f"--today {written} is no day; write it like 2026-08-15") from error
