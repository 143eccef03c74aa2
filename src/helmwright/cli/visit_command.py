"""`helmwright visit`: one player, one helmet, check by check, until it fits or does not."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from helmwright.cli.ages import Ages, ages_options, chosen_ages
from helmwright.cli.choices import (
    DEFAULT_SEED,
    chosen_share,
    chosen_sheet,
    male_share_option,
    sheet_options,
    units_option,
)
from helmwright.cli.readings import now_option
from helmwright.cli.stop import NothingRan, Status, interruptible, tell
from helmwright.cli.visit_choices import (
    Asked,
    Chosen,
    chosen_minutes,
    chosen_protocol,
    chosen_shelf,
)

if TYPE_CHECKING:
    from helmwright.cli.visit_file import VisitFile
    from helmwright.cli.visit_talk import TerminalTalk
    from helmwright.cli.visit_whose import Sought
    from helmwright.roster import Player, Roster
    from helmwright.visit.event import Started
    from helmwright.visit.step import Ended

FOLDER = "visits"
AGREED = "Type yes where they have said that the player may be fitted"
LEFT = "stopped; without --keep the dialogue was kept nowhere"
KEPT = "stopped; every answer so far is kept, and the same command goes on from there"


@click.command(
    short_help="A fit visit with one player: check by check, until the helmet fits.",
    epilog="Exit status: 0 accepted, 1 paused or ended otherwise, 2 nothing could run.",
)
@click.argument("player", required=False)
@click.option("--roster", "file", metavar="FILE", help="The roster that holds the player.")
@click.option("--demo", is_flag=True, help="Take the invented roster of the demonstration.")
@click.option("--tab", metavar="NAME", help="The workbook's tab; else the one that fits best.")
@sheet_options
@now_option
@click.option("--stock", metavar="FILE", help="The parts at this store; all listed ones else.")
@click.option("--protocol", metavar="FILE", help="Checks of your own (TOML).")
@click.option("--minutes", metavar="FILE", help="Your own times of changes and try-ons (TOML).")
@click.option(
    "--keep",
    metavar="FOLDER",
    help=f'Where visits are kept; the folder "{FOLDER}" beside the roster unless you say.',
)
@click.option(
    "--jsonl",
    "as_lines",
    is_flag=True,
    help="Plays with a program: JSON lines on standard input and output. Kept only with --keep.",
)
@click.option("--brief", is_flag=True, help="Leaves out how a check is done; type how for it.")
@click.option(
    "--seed",
    type=click.IntRange(min=0),
    default=DEFAULT_SEED,
    show_default=True,
    help="Seed of the random draws; the same seed and answers give the same visit.",
)
@units_option
@male_share_option
@ages_options
def visit(
    *,
    player: str | None,
    file: str | None,
    demo: bool,
    tab: str | None,
    model: str | None,
    sheet_file: str | None,
    now: str | None,
    stock: str | None,
    protocol: str | None,
    minutes: str | None,
    keep: str | None,
    as_lines: bool,
    brief: bool,
    seed: int,
    units: str,
    male_share: float | None,
    ages: str | None,
    today: str | None,
) -> None:
    """Fit a helmet on PLAYER: put on, check, change, check again.

    PLAYER is a name on the roster, part of one, a jersey number, or "row 7". Every answer is kept
    in a file at once; started again, an unfinished visit goes on where it was.

    For example: helmwright visit Avocet --roster kingfishers.csv
    """
    from helmwright.cli.roster_command import read_players
    from helmwright.cli.terminal import accept_any_name

    accept_any_name()
    asked = Asked(model, sheet_file, stock, protocol, minutes, keep, seed, male_share, ages, today)
    if as_lines and player is None:
        raise click.exceptions.Exit(_told(asked, file=file, demo=demo, now=now))
    if player is None:
        raise NothingRan("say who is fitted: a name, part of one, or a number")
    if demo == (file is not None):
        raise NothingRan("give --roster FILE, or --demo for the invented roster")
    if file == "-":
        raise NothingRan("--roster needs a file; what is typed is answers")
    with interruptible(LEFT if as_lines and keep is None else KEPT):
        helmet = chosen_sheet(model, sheet_file)
        chosen = Chosen(
            sheet=helmet,
            protocol=chosen_protocol(protocol, helmet),
            minutes=chosen_minutes(minutes),
            shelf=chosen_shelf(stock, helmet),
            now=now,
            seed=seed,
            is_brief=brief,
        )
        meant = chosen_ages(ages, today, helmet)
        share = chosen_share(male_share)
        players = read_players(file, tab=tab, units=units, share=share, ages=meant)
        folder = Path(keep) if keep else (Path(file).parent if file else Path()) / FOLDER
        who, whose = _meant(players, player)
        if as_lines:
            from helmwright.cli.visit_dialogue import dialogue, opened

            begun = opened(who, chosen.started(who), whose, chosen, keep)
            raise click.exceptions.Exit(dialogue(asked, begun))
        end = _visited(who, whose, folder, chosen, _notices(players, who, chosen, meant))
    raise click.exceptions.Exit(_status(end))


def _told(asked: Asked, *, file: str | None, demo: bool, now: str | None) -> Status:
    """A dialogue that begins with a start message."""
    from helmwright.cli.visit_dialogue import dialogue

    if file is not None or demo or now is not None:
        raise NothingRan("say who is fitted, or leave the roster out and send a start message")
    with interruptible(KEPT if asked.keep else LEFT):
        return dialogue(asked)


def _meant(players: "Roster", asked: str) -> tuple["Player", "Sought"]:
    """The player who is meant, and how the player's visits are found."""
    from helmwright.cli.visit_whose import sought
    from helmwright.roster.one_player import PlayerError, find_player

    try:
        player = find_player(players, asked)
    except PlayerError as error:
        raise NothingRan(str(error)) from error
    return player, sought(player, players)


def _notices(players: "Roster", player: "Player", chosen: Chosen, ages: Ages) -> list[str]:
    """What is to be looked at before the player is fitted, and what the maker says of it all."""
    from helmwright.reports.build_page import instruction_words
    from helmwright.roster.group import unsaid_hair_notices
    from helmwright.roster.made_for import made_for_notices
    from helmwright.roster.stated_age import age_notices

    said = [
        *age_notices([player], ages.range, ages.said_by),
        *made_for_notices([player], chosen.sheet),
        *unsaid_hair_notices([player]),
        *(notice for notice in players.notices if notice.row == player.row),
    ]
    by_maker = (
        f"The maker says: {instruction_words(each)}" for each in chosen.protocol.more_by_maker
    )
    return list(dict.fromkeys([*map(str, said), *by_maker]))


def _visited(
    player: "Player", whose: "Sought", folder: Path, chosen: Chosen, notices: list[str]
) -> "Ended | None":
    """The player's visit, to its end or until it is left."""
    from helmwright.cli.visit_file import open_visit

    started = chosen.started(player)
    file = open_visit(folder, whose, chosen.begun(started), lambda: datetime.now(UTC))
    try:
        return _carried_on(player, started, file, chosen, notices)
    finally:
        file.close()


def _carried_on(
    player: "Player",
    started: "Started",
    file: "VisitFile",
    chosen: Chosen,
    notices: list[str],
) -> "Ended | None":
    """The visit from where its file stands."""
    from helmwright.cli.terminal import page_width
    from helmwright.cli.visit_earlier import left_in_helmet
    from helmwright.cli.visit_file import refuse_another, refuse_unfit
    from helmwright.cli.visit_measure import tape_read
    from helmwright.cli.visit_screen import Screen
    from helmwright.cli.visit_talk import TerminalTalk
    from helmwright.cli.visit_whose import name_words
    from helmwright.cli.visiting import Visiting
    from helmwright.reports.layout import wrapped
    from helmwright.reports.visit_end_page import end_lines
    from helmwright.reports.visit_opening import opening_lines
    from helmwright.visit.state import fold
    from helmwright.visit.summary import summary

    width = page_width()
    talk = TerminalTalk(width)
    guide = chosen.guide()
    begun_before = bool(file.events)
    refuse_another(file, started, is_named=bool(name_words(player.name)))
    left = None if chosen.now is not None else left_in_helmet(file.earlier)
    if left is not None:
        started = replace(started, current=left.accepted)
    if not begun_before:
        if not _may_begin(file, talk, width):
            return None
        file.append(started)
    refuse_unfit(guide, file)
    visit = fold(file.events)
    if begun_before:
        is_changed = visit.started != started
        talk.say([*_going_on(player, file, chosen, width, is_changed=is_changed), ""])
    told = [] if begun_before else [*notices, *_earlier(file, is_taken=left is not None)]
    where = str(file.path)
    talk.say(opening_lines(player, chosen.sheet, visit, where, told, width, is_again=begun_before))
    expected = chosen.expected(guide, player)
    screen = Screen(chosen.sheet, chosen.protocol, expected, width, chosen.is_brief)

    def ending(_: "Ended") -> list[str]:
        visit = fold(file.events)
        told = summary(visit, chosen.protocol, chosen.sheet)
        tape = tape_read(visit.readings)
        lines = end_lines(told, chosen.protocol, chosen.sheet, width, tape_mm=tape)
        return [*lines, *wrapped(f"Kept in {file.path}.", width)]

    end = Visiting(guide, file, talk, screen, chosen.protocol, ending).to_the_end()
    if end is None:
        tell(f"paused; kept in {file.path}. The same command goes on from here")
    return end


def _may_begin(file: "VisitFile", talk: "TerminalTalk", width: int) -> bool:
    """Whether a new visit begins: after one that ended for a symptom, only on a typed yes."""
    from helmwright.cli.visit_earlier import open_symptom
    from helmwright.cli.visit_leaving import LeftError
    from helmwright.reports.layout import wrapped
    from helmwright.reports.visit_opening import symptom_words

    symptom = open_symptom(file.earlier)
    if symptom is None:
        return True
    talk.say(wrapped(symptom_words(str(symptom.path), symptom.on), width))
    try:
        agreed = talk.ask(AGREED).strip().lower() == "yes"
    except LeftError:
        agreed = False
    if not agreed:
        tell("no visit was begun; it waits for the word of medical staff")
    return agreed


def _earlier(file: "VisitFile", *, is_taken: bool) -> list[str]:
    """What a new visit tells of those before it."""
    from helmwright.cli.visit_earlier import left_in_helmet
    from helmwright.reports.visit_opening import accepted_words, earlier_words

    if not file.earlier:
        return []
    last, left = file.earlier[-1], left_in_helmet(file.earlier) if is_taken else None
    said = [earlier_words(str(last.path), last.end)]
    return [*said, accepted_words(left.on)] if left is not None else said


def _going_on(
    player: "Player", file: "VisitFile", chosen: Chosen, width: int, *, is_changed: bool
) -> list[str]:
    """What an interrupted visit goes on with."""
    from helmwright.cli.visit_file import found_words
    from helmwright.reports.layout import wrapped
    from helmwright.reports.visit_opening import going_on_lines
    from helmwright.visit.event import Answered
    from helmwright.visit.said_words import named_words
    from helmwright.visit.state import fold
    from helmwright.visit.undo import standing

    kept = sum(isinstance(event, Answered) for _, event in standing(file.events))
    visit = fold(file.events)
    answers = visit.ahead if visit.now is None else visit.now.answers
    last = {each.check: each for each in answers}
    given = [named_words(chosen.protocol, each) for each in last.values()]
    lines = going_on_lines(player.label, kept, given, file.cut, width, is_changed=is_changed)
    return [*lines, *(line for said in found_words(file) for line in wrapped(said, width))]


def _status(end: "Ended | None") -> Status:
    """The exit status of the visit."""
    from helmwright.visit.event import Accepted

    accepted = end is not None and isinstance(end.how, Accepted)
    return Status.ALL_ANSWERED if accepted else Status.SOME_NOT_ANSWERED
