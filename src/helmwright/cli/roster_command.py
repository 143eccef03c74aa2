"""`helmwright roster`: a build for every player of a file."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from typing import TYPE_CHECKING

import click

from helmwright.cli.choices import (
    chosen_share,
    chosen_sheet,
    male_share_option,
    output_options,
    read_file,
    sheet_options,
    units_option,
)
from helmwright.cli.stop import NothingRan, Status, interruptible

if TYPE_CHECKING:
    from helmwright.roster import Roster, RosterAnswer

BYTE_MARK = "\ufeff"
"""Tells spreadsheets that a file is UTF-8; without it they spoil accents."""


@click.command(
    epilog="Exit status: 0 every row answered, 1 some rows not, 2 nothing could run.",
    short_help="A build for every player of a roster file.",
)
@click.argument("file", required=False)
@click.option("--demo", is_flag=True, help="Run on the invented roster of the demonstration.")
@sheet_options
@click.option("--csv", "as_csv", is_flag=True, help="Answer as a table for a spreadsheet.")
@output_options
@units_option
@male_share_option
def roster(
    *,
    file: str | None,
    demo: bool,
    model: str | None,
    sheet_file: str | None,
    as_json: bool,
    as_csv: bool,
    out: str | None,
    seed: int,
    units: str,
    male_share: float | None,
) -> None:
    """Read a roster FILE and propose a helmet build for every player in it.

    FILE is CSV as a spreadsheet saves it, or - for standard input. The first row names the
    columns, in any order: number, name, position, sex, height, weight, tape (in), length,
    breadth, brow to top, jaw width, worn, build now. Only what was measured needs to be there. A
    second reading goes into a second column, such as "tape 2".
    """
    from helmwright.cli.terminal import accept_any_name
    from helmwright.cli.writing import deliver

    accept_any_name()
    if as_json and as_csv:
        raise NothingRan("--json and --csv exclude each other; give one of them")
    with interruptible():
        players = _read(file, demo=demo, units=units, share=chosen_share(male_share))
        answer = _answer(players, model, sheet_file, seed)
        deliver(_written(answer, as_json=as_json, as_csv=as_csv, to_file=out is not None), out)
    _point_out(answer, written_elsewhere=as_json or as_csv or out is not None)
    raise click.exceptions.Exit(_status(answer))


def _read(file: str | None, *, demo: bool, units: str, share: float) -> "Roster":
    """The roster that the arguments name."""
    from helmwright.roster import RosterError, decode_roster, demo_roster_bytes, read_roster

    if demo == (file is not None):
        raise NothingRan("give a roster FILE, or --demo for the invented one")
    data = demo_roster_bytes() if file is None else read_file(file)
    try:
        return read_roster(decode_roster(data), unit=units, male_share=share)
    except RosterError as error:
        raise NothingRan(f"{file}: {error}") from error


def _answer(
    players: "Roster", model: str | None, sheet_file: str | None, seed: int
) -> "RosterAnswer":
    """Every player's answer, with progress on the terminal."""
    from helmwright.cli.terminal import progress
    from helmwright.roster import answer_roster

    sheet = chosen_sheet(model, sheet_file)
    with progress(len(players.players), "Trying builds on possible heads") as tick:
        return answer_roster(players, sheet, seed=seed, tick=tick)


def _written(answer: "RosterAnswer", *, as_json: bool, as_csv: bool, to_file: bool) -> str:
    """The answer in the form that was asked for."""
    from helmwright.cli.terminal import FILE_WIDTH, page_width
    from helmwright.reports import answer_json, roster_csv, roster_page

    if as_json:
        return answer_json(answer)
    if as_csv:
        return f"{BYTE_MARK if to_file else ''}{roster_csv(answer)}"
    return roster_page(answer, FILE_WIDTH if to_file else page_width())


def _point_out(answer: "RosterAnswer", *, written_elsewhere: bool) -> None:
    """Says on stderr what a file or a pipe would keep from the person at the screen."""
    if not written_elsewhere:
        return
    for problem in answer.problems:
        click.echo(f"helmwright: not answered: {problem}", err=True)
    click.echo(f"helmwright: {len(answer.answers)} of {answer.asked} rows answered", err=True)


def _status(answer: "RosterAnswer") -> Status:
    """The exit status of the answer."""
    if not answer.answers:
        return Status.NOTHING_RAN
    return Status.SOME_NOT_ANSWERED if answer.problems else Status.ALL_ANSWERED
