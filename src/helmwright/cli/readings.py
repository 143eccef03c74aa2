"""One player's readings as options, read by the same rules as a row of a roster."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any, TypeVar

import click

from helmwright.cli.choices import chosen_share
from helmwright.cli.stop import NothingRan

if TYPE_CHECKING:
    from helmwright.cli.ages import Ages
    from helmwright.roster import RowRead

Command = TypeVar("Command", bound=Callable[..., Any])

MEASURE_OPTIONS: dict[str, tuple[str, str]] = {
    "tape": ("CIRCUMFERENCE", "Tape around the head, an inch above the brow."),
    "light-tape": ("LIGHT_TAPE", "The same with the tape laid on lightly; tells hair from head."),
    "length": ("LENGTH", "Caliper, between the brows to the back of the head."),
    "breadth": ("BREADTH", "Caliper, side to side above the ears."),
    "brow-to-top": ("BROW_TO_TOP", "Brow straight up to the level of the crown."),
    "tragion-to-top": ("TRAGION_TO_TOP", "Notch before the ear straight up to the crown's level."),
    "jaw-width": ("JAW_WIDTH", "Caliper over the cheeks where the jaw pads bear."),
    "bigonial": ("BIGONIAL", "Caliper across the corners of the lower jaw."),
    "cheekbones": ("BIZYGOMATIC", "Caliper across the cheekbones."),
    "chin-arc": ("CHIN_ARC", "Tape from ear notch around the chin to ear notch."),
}
_WORN = (
    "What will be worn under the helmet: bare (or buzz), short hair, thick hair, braids (or locs),"
    " skull cap, winter cap, or hair and a cap: braids and skull cap."
)
_OVER = "What the tape went over, in the same words; what is worn, unless you say."
BODY_OPTIONS: dict[str, tuple[str, str]] = {
    "name": ("NAME", "Name to print."),
    "sex": ("SEX", "M or F; left out, both are weighed."),
    "age": ("AGE", "Age in years, from 8; left out, an adult's, or one of --ages."),
    "measured": ("MEASURED", "When the readings were taken: 5 months, or a date such as 8/1/2026."),
    "height": ("STATURE", "Height, such as 6-2, 74 in or 188 cm."),
    "weight": ("WEIGHT", "Weight, such as 215 lb or 97.5 kg."),
    "worn": ("WORN", _WORN),
    "over": ("TAPE_OVER", _OVER),
    "measured-by": ("MEASURED_BY", "Who took the readings."),
}
_NOW = (
    'What is in the helmet now, such as "shell 4, crown 7/8, jaw left 1"; zones not named are as'
    " delivered. Changes are counted from it."
)
NOW_OPTION: dict[str, tuple[str, str]] = {"now": ("BUILD_NOW", _NOW)}

FACE_OPTIONS: dict[str, tuple[str, str]] = {
    "position": ("POSITION", "Position, such as QB, OL or WR/DB; face guards are chosen by it."),
    "glasses": ("GLASSES", "yes or no: whether glasses are worn under the helmet."),
    "guard": ("GUARD", "The face guard asked for, by its name on the sheet."),
}


def face_options(command: Command) -> Command:
    """What decides on the face guard."""
    for name, (_, text) in reversed(FACE_OPTIONS.items()):
        command = click.option(f"--{name}", metavar="TEXT", help=text)(command)
    return command


def now_option(command: Command) -> Command:
    """The build in the helmet now."""
    ((name, (_, text)),) = NOW_OPTION.items()
    return click.option(f"--{name}", metavar="TEXT", help=text)(command)


def reading_options(command: Command) -> Command:
    """Options for every measure, each to be repeated for a second reading, and for the body."""
    for name, (_, text) in reversed(BODY_OPTIONS.items()):
        command = click.option(f"--{name}", metavar="TEXT", help=text)(command)
    for name, (_, text) in reversed(MEASURE_OPTIONS.items()):
        option = click.option(f"--{name}", metavar="LENGTH", multiple=True, help=text)
        command = option(command)
    return command


_ALL_OPTIONS = BODY_OPTIONS | MEASURE_OPTIONS | NOW_OPTION | FACE_OPTIONS


def player_from(
    options: Mapping[str, Any], units: str, male_share: float | None, ages: "Ages"
) -> "RowRead":
    """The player whom the options describe.

    Raises
    ------
    NothingRan
        Where a reading cannot be read, or there is none.

    """
    from helmwright.roster import Column, Field, read_row
    from helmwright.roster.group import unsaid_hair_notices
    from helmwright.roster.stated_age import age_notices

    columns, cells = [], []
    for name, (field, _) in _ALL_OPTIONS.items():
        given = options.get(name.replace("-", "_"))
        for cell in (given,) if isinstance(given, str) else given or ():
            columns.append(Column(f"--{name}", Field[field]))
            cells.append(cell)
    read = read_row(
        columns,
        cells,
        row=0,
        unit=units,
        male_share=chosen_share(male_share),
        ages=ages.range,
        today=ages.today,
    )
    if read.player is None:
        raise NothingRan("; ".join(str(problem) for problem in read.problems))
    if not read.player.readings:
        raise NothingRan('no reading given; start with the tape: --tape "22 5/8"')
    about_age = age_notices([read.player], ages.range, ages.said_by)
    about_hair = unsaid_hair_notices([read.player])
    return replace(read, notices=(*about_age, *about_hair, *read.notices))
