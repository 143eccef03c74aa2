"""Drawings and paper: files of their own, beside whatever the command prints."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from collections.abc import Callable, Iterable, Mapping
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from helmwright.cli.stop import NothingRan, tell
from helmwright.cli.writing import check_out, deliver_beside, is_same_file

if TYPE_CHECKING:
    from helmwright.roster import RosterAnswer

Command = TypeVar("Command", bound=Callable[..., Any])


def paper_options(command: Command) -> Command:
    """What of a roster goes on paper."""
    command = click.option(
        "--roster-sheet", metavar="FILE", help="Write the roster to print, letter size, as PDF."
    )(command)
    return click.option(
        "--cards", metavar="FILE", help="Write everybody's fit card, half letter, as one PDF."
    )(command)


def drawing_options(command: Command) -> Command:
    """What of one build is drawn and goes on paper."""
    command = click.option(
        "--svg", metavar="FILE", help="Write the best build's sections, drawn to scale, as SVG."
    )(command)
    return click.option("--card", metavar="FILE", help="Write the fit card, half letter, as PDF.")(
        command
    )


def check_files(named: Mapping[str, str | None], sources: Iterable[str | None]) -> None:
    """Refuses files that cannot be written, that are read, or that are named twice.

    Parameters
    ----------
    named
        By option, where something is to be written.
    sources
        What is read.

    Raises
    ------
    NothingRan
        Before anybody has waited.

    """
    read = tuple(sources)
    for option, file in named.items():
        check_out(file, read, option=option)
    for (one, first), (other, second) in combinations(named.items(), 2):
        if first and second and is_same_file(Path(first), Path(second)):
            raise NothingRan(f"{one} and {other} name one file, {first}; give each its own")


def put_on_paper(
    answer: "RosterAnswer",
    *,
    cards: tuple[str, str | None] = ("--cards", None),
    roster_sheet: str | None = None,
    svg: str | None = None,
) -> None:
    """Writes what was asked for, and says where; nothing where nobody was answered.

    Parameters
    ----------
    answer
        What it shows.
    cards
        The option that asked for cards, and their file.
    roster_sheet, svg
        The other files.
    """
    option, card_file = cards
    asked = [file for file in (card_file, roster_sheet, svg) if file]
    if not asked or not answer.answers or answer.sheet is None:
        for file in asked:
            tell(f"{file} is not written, for nobody was answered")
        return
    from helmwright.reports import build_svg, fit_cards
    from helmwright.reports import roster_sheet as sheet_pdf

    if card_file:
        deliver_beside(fit_cards(answer), card_file, option=option, what="fit cards")
    if roster_sheet:
        page = sheet_pdf(answer)
        deliver_beside(page, roster_sheet, option="--roster-sheet", what="roster sheet")
    if svg:
        drawn = build_svg(answer.answers[0], answer.sheet).encode()
        deliver_beside(drawn, svg, option="--svg", what="drawing")
