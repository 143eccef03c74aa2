"""`helmwright build`: ranked builds for one player."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from typing import Any

import click

from helmwright.cli.ages import ages_options, chosen_ages
from helmwright.cli.choices import (
    chosen_sheet,
    male_share_option,
    output_options,
    sheet_options,
    units_option,
)
from helmwright.cli.paper import check_files, drawing_options, put_on_paper
from helmwright.cli.readings import face_options, now_option, player_from, reading_options
from helmwright.cli.stop import NothingRan, interruptible


@click.command(short_help="Ranked builds for one player, drawn and explained.")
@reading_options
@now_option
@face_options
@sheet_options
@drawing_options
@output_options
@units_option
@male_share_option
@ages_options
def build(
    *,
    model: str | None,
    sheet_file: str | None,
    card: str | None,
    svg: str | None,
    as_json: bool,
    out: str | None,
    seed: int,
    units: str,
    male_share: float | None,
    ages: str | None,
    today: str | None,
    **options: Any,
) -> None:
    """Propose builds for one player, best first, and say why.

    For example: helmwright build --tape "22 5/8" --length "7 7/8" --breadth "6 1/8"
    """
    from helmwright.cli.terminal import accept_any_name, page_width
    from helmwright.cli.writing import deliver
    from helmwright.reports import answer_json, build_page
    from helmwright.roster import Roster, answer_roster

    accept_any_name()
    check_files({"--out": out, "--card": card, "--svg": svg}, (sheet_file,))
    helmet = chosen_sheet(model, sheet_file)
    read = player_from(options, units, male_share, chosen_ages(ages, today, helmet))
    assert read.player is not None  # noqa: S101 - player_from refuses the other case
    with interruptible():
        roster = Roster((read.player,), (), read.notices)
        answer = answer_roster(roster, helmet, seed=seed, closely=True)
        if not answer.answers:
            raise NothingRan("; ".join(str(problem) for problem in answer.problems))
        deliver(answer_json(answer) if as_json else build_page(answer, page_width()), out)
        put_on_paper(answer, cards=("--card", card), svg=svg)
