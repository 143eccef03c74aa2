"""`helmwright air`: what becomes of air cells in the cold, in heat and at altitude."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from helmwright.cli.ages import ages_options, chosen_ages
from helmwright.cli.choices import (
    DEFAULT_SEED,
    chosen_sheet,
    male_share_option,
    sheet_options,
    units_option,
)
from helmwright.cli.readings import MEASURE_OPTIONS, now_option, player_from, reading_options
from helmwright.cli.stop import NothingRan, interruptible

if TYPE_CHECKING:
    from helmwright.catalogue import ModelSheet
    from helmwright.catalogue.air import Surroundings
    from helmwright.roster import RowRead


@click.command(short_help="What cold, heat or altitude does to air cells.")
@click.option(
    "--room",
    default="70 F",
    show_default=True,
    metavar="TEMPERATURE",
    help="Air of the room where the cells are filled.",
)
@click.option(
    "--room-elevation",
    default="0 ft",
    show_default=True,
    metavar="ELEVATION",
    help="How high that room lies.",
)
@click.option("--field", metavar="TEMPERATURE", help="Air of the field; the room's unless you say.")
@click.option(
    "--elevation",
    metavar="ELEVATION",
    help="How high the field lies; as high as the room unless you say.",
)
@reading_options
@now_option
@sheet_options
@click.option(
    "--seed",
    type=click.IntRange(min=0),
    default=DEFAULT_SEED,
    show_default=True,
    help="Seed of the random draws; the same seed gives the same answer.",
)
@click.option("--out", metavar="FILE", help="Write to this file instead of the screen.")
@units_option
@male_share_option
@ages_options
def air(
    *,
    room: str,
    room_elevation: str,
    field: str | None,
    elevation: str | None,
    model: str | None,
    sheet_file: str | None,
    out: str | None,
    seed: int,
    units: str,
    male_share: float | None,
    ages: str | None,
    today: str | None,
    **options: Any,
) -> None:
    """Say what becomes of a fill by feel elsewhere, for the best build of one player.

    Without a reading, only the limits that the gas law sets are told. For example: helmwright air
    --model redstart --field "32 F" --elevation "5280 ft" --tape "22 5/8"
    """
    from helmwright.cli.terminal import accept_any_name, page_width
    from helmwright.cli.writing import check_out, deliver
    from helmwright.reports.air_page import limits_page

    accept_any_name()
    check_out(out, (sheet_file,))
    sheet = chosen_sheet(model, sheet_file)
    if not any(pad.cell for pad in sheet.pads):
        raise NothingRan(
            f"{sheet.model} has no air cells; name a model that has, with --model or --sheet"
        )
    here = _surroundings(room, room_elevation, ("--room", "--room-elevation"))
    there = _surroundings(field or room, elevation or room_elevation, ("--field", "--elevation"))
    if not any(options[name.replace("-", "_")] for name in MEASURE_OPTIONS):
        deliver(limits_page(sheet, here, there, page_width()), out)
        return
    with interruptible():
        read = player_from(options, units, male_share, chosen_ages(ages, today, sheet))
        deliver(_answer(read, sheet, (here, there), seed), out)


def _answer(
    read: "RowRead", sheet: "ModelSheet", places: tuple["Surroundings", "Surroundings"], seed: int
) -> str:
    """The page for the best build of the player who was read."""
    import numpy as np

    from helmwright.cli.terminal import page_width
    from helmwright.fit.field import field_outlook
    from helmwright.reports.air_page import air_page
    from helmwright.roster import Roster, answer_roster

    assert read.player is not None  # noqa: S101 - player_from refuses the other case
    answer = answer_roster(Roster((read.player,), (), read.notices), sheet, seed=seed)
    if not answer.answers or answer.answers[0].proposal is None:
        raise NothingRan("; ".join(str(problem) for problem in answer.problems))
    (each,) = answer.answers
    build = answer.answers[0].proposal.ranked[0].build
    outlook = field_outlook(
        each.head, sheet, build, room=places[0], field=places[1], rng=np.random.default_rng(seed)
    )
    return air_page(outlook, build, sheet, seed, page_width())


def _surroundings(temperature: str, height: str, names: tuple[str, str]) -> "Surroundings":
    """The air that two options describe."""
    from helmwright.catalogue.air import Surroundings
    from helmwright.units import parse_elevation, parse_temperature

    return Surroundings(
        _read(parse_temperature, temperature, names[0]), _read(parse_elevation, height, names[1])
    )


def _read(parse: Callable[[str], float], text: str, option: str) -> float:
    from helmwright.units import UnitsError

    try:
        return parse(text)
    except UnitsError as error:
        raise NothingRan(f"{option}: {error}") from error
