"""`helmwright head`: what the readings of one head tell about all its measures."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from typing import Any

import click

from helmwright.cli.ages import ages_options, chosen_ages
from helmwright.cli.choices import DEFAULT_SEED, male_share_option, units_option
from helmwright.cli.readings import player_from, reading_options


@click.command(short_help="What a few readings tell about one head.")
@reading_options
@click.option("--json", "as_json", is_flag=True, help="Answer as a JSON document.")
@click.option("--out", metavar="FILE", help="Write to this file instead of the screen.")
@units_option
@male_share_option
@ages_options
def head(
    *,
    as_json: bool,
    out: str | None,
    units: str,
    male_share: float | None,
    ages: str | None,
    today: str | None,
    **options: Any,
) -> None:
    """Estimate every measure of one head from the readings that were taken.

    For example: helmwright head --tape "22 5/8" --tape "22 3/4" --length "7 7/8"
    """
    from helmwright.cli.terminal import accept_any_name, page_width
    from helmwright.cli.writing import check_out, deliver
    from helmwright.reports import answer_json, head_page
    from helmwright.roster import PlayerAnswer, RosterAnswer, estimate_player

    accept_any_name()
    check_out(out)
    read = player_from(options, units, male_share, chosen_ages(ages, today))
    assert read.player is not None  # noqa: S101 - player_from refuses the other case
    each = PlayerAnswer(read.player, estimate_player(read.player), None)
    answer = RosterAnswer((each,), (), read.notices, DEFAULT_SEED)
    deliver(answer_json(answer) if as_json else head_page(answer, page_width()), out)
