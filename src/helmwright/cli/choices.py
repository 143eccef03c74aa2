"""Options that several commands share."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from helmwright.cli.stop import NothingRan

if TYPE_CHECKING:
    from helmwright.catalogue import ModelSheet

Command = TypeVar("Command", bound=Callable[..., Any])

DEFAULT_SEED = 1
DEFAULT_MODEL = "ouzel"


def sheet_options(command: Command) -> Command:
    """Which helmet model: one that the package carries, or a sheet of one's own."""
    command = click.option(
        "--sheet", "sheet_file", metavar="FILE", help="A model sheet of your own (TOML)."
    )(command)
    return click.option(
        "--model",
        metavar="NAME",
        help=f"A model sheet in the package (all invented); {DEFAULT_MODEL} unless you say.",
    )(command)


def output_options(command: Command) -> Command:
    """Where the answer goes, and the seed of its draws."""
    command = click.option(
        "--seed",
        type=click.IntRange(min=0),
        default=DEFAULT_SEED,
        show_default=True,
        help="Seed of the random draws; the same seed gives the same answer.",
    )(command)
    command = click.option(
        "--out", metavar="FILE", help="Write to this file instead of the screen."
    )(command)
    return click.option("--json", "as_json", is_flag=True, help="Answer as a JSON document.")(
        command
    )


def male_share_option(command: Command) -> Command:
    """What is believed of the sex of a player who states none."""
    return click.option(
        "--male-share",
        type=click.FloatRange(0.0, 1.0),
        metavar="SHARE",
        help="Chance, 0 to 1, that a player of unstated sex is male; 0.95 unless you say.",
    )(command)


def chosen_share(male_share: float | None) -> float:
    """The share that the option names, or the assumed one."""
    from helmwright.anatomy.prior import MALE_SHARE

    return MALE_SHARE.value if male_share is None else male_share


def units_option(command: Command) -> Command:
    """The unit of bare numbers."""
    return click.option(
        "--units",
        type=click.Choice(["in", "cm", "mm"]),
        default="in",
        show_default=True,
        help="Unit of a head measure that names none.",
    )(command)


def chosen_sheet(model: str | None, sheet_file: str | None) -> "ModelSheet":
    """The sheet that the options name.

    Raises
    ------
    NothingRan
        Where there is none, or it cannot be used.

    """
    from helmwright.catalogue import SheetError, load_packaged, packaged_models, parse_sheet

    if model and sheet_file:
        raise NothingRan("--model and --sheet exclude each other; give one of them")
    try:
        if sheet_file:
            return parse_sheet(read_file(sheet_file).decode("utf-8-sig"), name=sheet_file)
        name = model or DEFAULT_MODEL
        if name not in packaged_models():
            known = ", ".join(packaged_models())
            raise NothingRan(f"no model sheet {name!r} in the package; there is: {known}")
        return load_packaged(name)
    except UnicodeDecodeError as error:
        raise NothingRan(f"{sheet_file} is not UTF-8 text; save it as UTF-8") from error
    except SheetError as error:
        raise NothingRan(str(error)) from error


def read_file(name: str) -> bytes:
    """The bytes of a file; `-` is standard input.

    Raises
    ------
    NothingRan
        Where it cannot be read.

    """
    if name == "-":
        return sys.stdin.buffer.read()
    try:
        return Path(name).read_bytes()
    except OSError as error:
        raise NothingRan(f"cannot read {name}: {(error.strerror or str(error)).lower()}") from error
