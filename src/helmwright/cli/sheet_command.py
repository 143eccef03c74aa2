"""`helmwright sheet`: write, check, list and show model sheets."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from typing import TYPE_CHECKING

import click

from helmwright.cli.choices import (
    DEFAULT_MODEL,
    DEFAULT_SEED,
    chosen_sheet,
    read_file,
    sheet_options,
)
from helmwright.cli.paper import check_files
from helmwright.cli.press_command import press
from helmwright.cli.stop import NothingRan, Status

if TYPE_CHECKING:
    from helmwright.catalogue import ModelSheet


@click.group(short_help="Write or check a model sheet; list and show those in the package.")
def sheet() -> None:
    """Model sheets: what one helmet model offers and allows."""


@sheet.command(short_help="Check a model sheet, line by line, and say what it can fit.")
@click.argument("file")
@click.option("--quick", is_flag=True, help="Leave out which heads it can fit.")
@click.option(
    "--seed",
    type=click.IntRange(min=0),
    default=DEFAULT_SEED,
    show_default=True,
    help="Seed of the heads that are tried.",
)
def check(*, file: str, quick: bool, seed: int) -> None:
    """Check the model sheet FILE and name every line that needs work.

    A sheet without a fault is then tried on heads of those it is made for: how many of each
    shell's band, and of those between two bands, at least one build fits; what is in the way of
    the others; and which thickness would help. That takes some seconds.
    """
    from helmwright.catalogue import SheetError, parse_sheet
    from helmwright.cli.terminal import page_width
    from helmwright.cli.writing import print_text
    from helmwright.reports.sheet_page import sheet_page

    try:
        read = parse_sheet(read_file(file).decode("utf-8-sig"), name=file)
    except UnicodeDecodeError as error:
        raise NothingRan(f"{file} is not UTF-8 text; save it as UTF-8") from error
    except SheetError as error:
        click.echo(str(error), err=True)
        raise click.exceptions.Exit(Status.NOTHING_RAN) from error
    print_text(sheet_page(read, page_width()))
    if not quick:
        print_text(_covered(read, seed))


def _covered(read: "ModelSheet", seed: int) -> str:
    """The page on which heads a sheet can be made to fit."""
    import numpy as np

    from helmwright.cli.terminal import page_width, progress
    from helmwright.fit.coverage import cover, coverage_parts
    from helmwright.reports.coverage_page import coverage_page

    with progress(coverage_parts(read), "Trying builds on heads of every band") as tick:
        coverage = cover(read, rng=np.random.default_rng(seed), tick=tick)
    return coverage_page(coverage, seed, page_width())


@sheet.command(short_help="Write a sheet by answering questions.")
@click.argument("file")
def new(*, file: str) -> None:
    """Write a model sheet to FILE by answering questions; ten minutes with chart and pad bags.

    Lengths as people write them: 22 5/8, 7/8, 57 cm. Type back to go one question back. Ctrl-C
    stops and keeps what was answered; the same command goes on from there.
    """
    from helmwright.cli.new_sheet import new_sheet
    from helmwright.cli.terminal import accept_any_name

    accept_any_name()
    new_sheet(file)


@sheet.command("list", short_help="Name the model sheets in the package.")
def list_sheets() -> None:
    """Name the model sheets that the package carries; all are invented."""
    from helmwright.catalogue import load_packaged, packaged_models
    from helmwright.cli.writing import print_text
    from helmwright.reports.chances import model_words

    for name in packaged_models():
        read = load_packaged(name)
        made_for = read.ages and f", for {read.ages[0]:g} to {read.ages[1]:g} years"
        insides = ", insides not measured" if read.insides else ""
        told = f"{len(read.shells)} shells{made_for or ''}{insides}"
        print_text(f"{name}: {model_words(read)}; {told}\n")


@sheet.command(short_help="Print a packaged sheet, to be copied and changed.")
@click.argument("name")
def show(*, name: str) -> None:
    """Print the text of the packaged sheet NAME."""
    from helmwright.catalogue import packaged_models, packaged_text
    from helmwright.cli.writing import print_text

    if name not in packaged_models():
        known = ", ".join(packaged_models())
        raise NothingRan(f"no model sheet {name!r} in the package; there is: {known}")
    print_text(packaged_text(name))


@sheet.command(short_help="Print an empty stock list of a model, to be counted through.")
@sheet_options
@click.option("--demo", is_flag=True, help="Print the invented stock list of the demonstration.")
@click.option("--out", metavar="FILE", help="Write to this file instead of the screen.")
@click.option("--replace", is_flag=True, help="Write over the file where it is there already.")
def stock(
    *, model: str | None, sheet_file: str | None, demo: bool, out: str | None, replace: bool
) -> None:
    """Print every shell and pad of a model as CSV, with an empty column for the counts.

    Filled in, it says to a fit visit what is on the shelf.
    """
    from helmwright.cli.writing import check_new, deliver
    from helmwright.roster import demo_stock_bytes, stock_template

    check_files({"--out": out}, (sheet_file,))
    check_new(out, replace=replace)
    if demo and (model or sheet_file):
        raise NothingRan(f"--demo is a stock list of the {DEFAULT_MODEL}; leave the model out")
    if demo:
        deliver(demo_stock_bytes().decode("utf-8"), out)
        return
    deliver(stock_template(chosen_sheet(model, sheet_file)), out)


sheet.add_command(press)
