"""`helmwright roster`: a build for every player of a file."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from typing import TYPE_CHECKING

import click

from helmwright.cli.ages import Ages, ages_options, chosen_ages
from helmwright.cli.choices import (
    chosen_share,
    chosen_sheet,
    male_share_option,
    output_options,
    read_file,
    sheet_options,
    units_option,
)
from helmwright.cli.form import Form, chosen_form
from helmwright.cli.paper import check_files, paper_options, put_on_paper
from helmwright.cli.stop import NothingRan, Status, interruptible, tell

if TYPE_CHECKING:
    from helmwright.catalogue import ModelSheet
    from helmwright.roster import Roster, RosterAnswer

BYTE_MARK = "\ufeff"
"""Tells spreadsheets that a file is UTF-8; without it they spoil accents."""


@click.command(
    epilog="Exit status: 0 every row answered, 1 some rows not, 2 nothing could run.",
    short_help="A build for every player of a roster file.",
)
@click.argument("file", required=False)
@click.option("--demo", is_flag=True, help="Run on the invented roster of the demonstration.")
@click.option(
    "--template",
    is_flag=True,
    help="Print an empty roster to be filled in, as CSV; with --out FILE.xlsx as a workbook.",
)
@click.option("--tab", metavar="NAME", help="The workbook's tab; else the one that fits best.")
@sheet_options
@click.option("--csv", "as_csv", is_flag=True, help="Answer as a table for a spreadsheet.")
@paper_options
@output_options
@units_option
@male_share_option
@ages_options
def roster(
    *,
    file: str | None,
    demo: bool,
    template: bool,
    tab: str | None,
    model: str | None,
    sheet_file: str | None,
    as_json: bool,
    as_csv: bool,
    cards: str | None,
    roster_sheet: str | None,
    out: str | None,
    seed: int,
    units: str,
    male_share: float | None,
    ages: str | None,
    today: str | None,
) -> None:
    """Read a roster FILE and propose a helmet build for every player in it.

    FILE is a workbook (.xlsx) or CSV as a spreadsheet saves it, or - for standard input. The first
    row names the columns, in any order: number, name, position, sex, age, height, weight,
    tape (in), length, breadth, brow to top, jaw width, worn, measured by, build now, glasses, face
    guard. Only what was measured needs to be there. A second reading goes into a second column,
    such as "tape 2".

    Where --out ends in .xlsx, .csv or .json, the answer is a workbook, a table or a document. In
    the workbook the answer stands beside the roster's own columns.
    """
    from helmwright.cli.terminal import accept_any_name
    from helmwright.cli.writing import deliver

    accept_any_name()
    _refuse_both(file, demo=demo, template=template, as_json=as_json, as_csv=as_csv)
    if template and (cards or roster_sheet):
        raise NothingRan("--template prints an empty roster; there is nobody to print a card for")
    if template and tab:
        raise NothingRan("--template prints an empty roster; there is no tab to read")
    form = chosen_form(out, as_json=as_json, as_csv=as_csv)
    check_files(
        {"--out": out, "--cards": cards, "--roster-sheet": roster_sheet}, (file, sheet_file)
    )
    if template:
        deliver(_empty(form), out)
        return
    with interruptible():
        helmet = chosen_sheet(model, sheet_file)
        meant = chosen_ages(ages, today, helmet)
        share = chosen_share(male_share)
        players = read_players(file, tab=tab, units=units, share=share, ages=meant)
        answer = _answer(players, helmet, seed)
        deliver(_written(answer, players, form, to_file=out is not None), out)
        put_on_paper(answer, cards=("--cards", cards), roster_sheet=roster_sheet)
    _point_out(answer, written_elsewhere=form is not Form.PAGE or out is not None)
    raise click.exceptions.Exit(_status(answer))


def _empty(form: Form) -> str | bytes:
    """An empty roster in the form that its file's name asks for."""
    from helmwright.reports import template_workbook
    from helmwright.roster import roster_template

    if form is Form.DOCUMENT:
        raise NothingRan("an empty roster is a table; give it a name that ends in .csv or .xlsx")
    return template_workbook() if form is Form.WORKBOOK else roster_template()


def _refuse_both(
    file: str | None, *, demo: bool, template: bool, as_json: bool, as_csv: bool
) -> None:
    """Refuses arguments that exclude each other."""
    if as_json and as_csv:
        raise NothingRan("--json and --csv exclude each other; give one of them")
    if template and (file or demo or as_json or as_csv):
        raise NothingRan("--template prints an empty roster; it goes by itself or with --out")
    if demo and file is not None:
        raise NothingRan("give a roster FILE or --demo, not both")
    if not (file or demo or template):
        raise NothingRan(
            "give a roster FILE, or --demo for the invented one; --template prints an empty one"
        )


def read_players(
    file: str | None, *, tab: str | None, units: str, share: float, ages: Ages
) -> "Roster":
    """The roster that the arguments name; of several tabs it says which was read."""
    from helmwright.roster import RosterError, demo_roster_bytes, read_roster_file

    data = read_file(file) if file else demo_roster_bytes()
    try:
        read = read_roster_file(
            data,
            tab=tab,
            unit=units,
            male_share=share,
            ages=ages.range,
            ages_from=ages.said_by,
            today=ages.today,
        )
    except RosterError as error:
        raise NothingRan(f"{file or '--demo'}: {error}") from error
    if read.table is not None and read.table.tabs > 1:
        tell(f'{file}: read from the tab "{read.table.tab}"')
    return read


def _answer(players: "Roster", sheet: "ModelSheet", seed: int) -> "RosterAnswer":
    """Every player's answer, with progress on the terminal."""
    from helmwright.cli.terminal import progress
    from helmwright.roster import answer_roster

    with progress(len(players.players), "Trying builds on possible heads") as tick:
        return answer_roster(players, sheet, seed=seed, tick=tick)


def _written(
    answer: "RosterAnswer", players: "Roster", form: Form, *, to_file: bool
) -> str | bytes:
    """The answer in the form that was asked for."""
    from helmwright.cli.terminal import FILE_WIDTH, page_width
    from helmwright.reports import answer_json, answer_workbook, roster_csv, roster_page

    match form:
        case Form.DOCUMENT:
            return answer_json(answer)
        case Form.TABLE:
            return f"{BYTE_MARK if to_file else ''}{roster_csv(answer)}"
        case Form.WORKBOOK:
            assert players.table is not None  # noqa: S101 - it was read from a file
            return answer_workbook(answer, players.table)
        case Form.PAGE:
            return roster_page(answer, FILE_WIDTH if to_file else page_width())


def _point_out(answer: "RosterAnswer", *, written_elsewhere: bool) -> None:
    """Says on stderr what a file or a pipe would keep from the person at the screen."""
    from helmwright.reports import answered_words

    if not written_elsewhere:
        return
    for problem in answer.problems:
        tell(f"not answered: {problem}")
    tell(answered_words(answer))


def _status(answer: "RosterAnswer") -> Status:
    """The exit status of the answer."""
    if not answer.answers:
        return Status.NOTHING_RAN
    return Status.SOME_NOT_ANSWERED if answer.problems else Status.ALL_ANSWERED
