"""A dialogue of lines as the command line asks for it: whom it begins with, where it is kept."""

import contextlib
import sys
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from helmwright.catalogue import ModelSheet, SheetError, parse_sheet
from helmwright.cli.ages import chosen_ages
from helmwright.cli.choices import chosen_share, chosen_sheet
from helmwright.cli.stop import NothingRan, Status
from helmwright.cli.visit_choices import (
    Asked,
    Chosen,
    chosen_minutes,
    chosen_protocol,
    chosen_shelf,
)
from helmwright.cli.visit_earlier import open_symptom
from helmwright.cli.visit_file import (
    VisitFile,
    found_words,
    open_visit,
    refuse_another,
    refuse_unfit,
)
from helmwright.cli.visit_lines import Memory, Opened, carry_on
from helmwright.cli.visit_said import said_player
from helmwright.cli.visit_whose import Sought, sought
from helmwright.reports.visit_opening import earlier_words, symptom_words
from helmwright.roster import Player, RosterError, stock_of
from helmwright.visit.event import Started
from helmwright.visit.lines_in import StartMessage
from helmwright.visit.wire_build import build_from_form
from helmwright.visit.wire_fault import WireError

Shelf = tuple[tuple[str, str, int], ...]


def opened_by(message: StartMessage, asked: Asked) -> Opened:
    """The visit that a start message asks for, begun or gone on with.

    Raises
    ------
    WireError
        Where it cannot be; the words say what would be right.
    """
    with _refused("start"):
        sheet = _sheet(message, asked)
        shelf, notices = _shelf(message, asked, sheet)
        chosen = Chosen(
            sheet=sheet,
            protocol=chosen_protocol(asked.protocol, sheet),
            minutes=chosen_minutes(asked.minutes),
            shelf=shelf,
            now=None,
            seed=asked.seed if message.seed is None else message.seed,
            is_brief=True,
        )
        ages = chosen_ages(asked.ages, asked.today, sheet)
        share = asked.male_share if message.male_share is None else message.male_share
        read = said_player(
            message.player,
            units=message.units,
            male_share=chosen_share(share),
            ages=ages.range,
            today=ages.today,
        )
        assert read.player is not None  # noqa: S101 - the other case was refused
        started = _started(message, chosen, read.player)
        said = (*notices, *map(str, read.notices))
        return opened(read.player, started, sought(read.player), chosen, asked.keep, notices=said)


def opened(
    player: Player,
    started: Started,
    whose: Sought,
    chosen: Chosen,
    keep: str | None,
    *,
    notices: tuple[str, ...] = (),
) -> Opened:
    """A player's visit, begun or gone on with.

    Parameters
    ----------
    player, started
        Who is fitted, and the first event if the visit has not begun.
    whose
        How the player's visits are found.
    chosen
        What the visit is made with.
    keep
        The folder where it is kept; None where it is kept nowhere.
    notices
        What to look at.

    Raises
    ------
    NothingRan
        Where its file cannot be used.
    """
    guide = chosen.guide()
    if keep is None:
        return Opened(guide, started, Memory(), notices, chosen.expected(guide, player))
    kept = open_visit(Path(keep), whose, chosen.begun(started), now)
    try:
        refuse_another(kept, started, is_named=whose.is_named)
        if kept.events:
            refuse_unfit(guide, kept)
    except NothingRan:
        kept.close()
        raise
    said = (*notices, *_going_on(kept, started))
    return Opened(guide, started, kept, said, chosen.expected(guide, player))


def _going_on(kept: VisitFile, started: Started) -> Iterator[str]:
    """What to know of a visit that is gone on with, and of the one before a new one."""
    if not kept.events and kept.earlier:
        last, symptom = kept.earlier[-1], open_symptom(kept.earlier)
        yield earlier_words(str(last.path), last.end)
        if symptom is not None:
            yield symptom_words(str(symptom.path), symptom.on)
    if kept.cut:
        yield "A last line that was never finished was cut off; send what it said again."
    if kept.events and kept.events[0] != started:
        yield "The visit goes on with player, stock and seed as they were when it began."
    yield from found_words(kept)


def now() -> datetime:
    """The time that is written beside events."""
    return datetime.now(UTC)


def dialogue(asked: Asked, begun: Opened | None = None) -> Status:
    """Plays visits with whatever is at standard input and output, until the input ends."""
    accepted = carry_on(begun, partial(opened_by, asked=asked), sys.stdin.buffer, sys.stdout.buffer)
    return Status.ALL_ANSWERED if accepted else Status.SOME_NOT_ANSWERED


@contextlib.contextmanager
def _refused(where: str) -> Iterator[None]:
    """What stops a command is an answer here: the dialogue goes on."""
    try:
        yield
    except NothingRan as error:
        raise WireError(str(error), where, "send another start") from error


def _sheet(message: StartMessage, asked: Asked) -> ModelSheet:
    if message.sheet is None:
        with _refused("model"):
            file = None if message.model else asked.sheet_file
            return chosen_sheet(message.model or asked.model, file)
    if message.model is not None:
        raise WireError("model and sheet exclude each other", "sheet", "send one of them")
    try:
        return parse_sheet(message.sheet, name="sheet")
    except SheetError as error:
        raise WireError(str(error), "sheet", "put every line right and send it again") from error


def _shelf(
    message: StartMessage, asked: Asked, sheet: ModelSheet
) -> tuple[Shelf | None, tuple[str, ...]]:
    """Parts at this store, and what is to be said of the list."""
    if message.stock is None:
        return chosen_shelf(asked.stock, sheet), ()
    rows = tuple((row.place, row.size, row.count) for row in message.stock)
    try:
        stock = stock_of(rows, sheet)
    except RosterError as error:
        raise WireError(str(error), "stock", "put every row right and send it again") from error
    return stock.rows, tuple(map(str, stock.notices))


def _started(message: StartMessage, chosen: Chosen, player: Player) -> Started:
    if message.current is None:
        return chosen.started(player)
    if player.build_now:
        raise WireError("current and build now say the same", "current", "send one of them")
    current = build_from_form(message.current, chosen.sheet, "current")
    return replace(chosen.started(player), current=current)
