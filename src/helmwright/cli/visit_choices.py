"""What the options of a visit choose: the checks, the times, the parts at hand."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from dataclasses import dataclass
from typing import TYPE_CHECKING

from helmwright.cli.choices import read_file
from helmwright.cli.stop import NothingRan, tell

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from helmwright.catalogue import ModelSheet
    from helmwright.cli.visit_file import Begun
    from helmwright.fit.minutes import Minutes
    from helmwright.fit.outlook import Build
    from helmwright.roster import Player, Stock
    from helmwright.visit.check_list import Protocol
    from helmwright.visit.event import Started
    from helmwright.visit.guide import Guide
    from helmwright.visit.starts import Expectation
    from helmwright.visit.state import Visit

ShelfRows = tuple[tuple[str, str, int], ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """What the command line says of every visit of a dialogue.

    Parameters
    ----------
    model, sheet_file, stock, protocol, minutes
        As the options have them; a start message may name another sheet and stock.
    keep
        The folder where visits are kept; None where they are kept nowhere.
    seed, male_share
        Where a start message names none.
    ages, today
        Of players who state none, and the day to which dates are counted.
    """

    model: str | None
    sheet_file: str | None
    stock: str | None
    protocol: str | None
    minutes: str | None
    keep: str | None
    seed: int
    male_share: float | None
    ages: str | None
    today: str | None


@dataclass(frozen=True, slots=True)
class Chosen:
    """What a visit is made with.

    Parameters
    ----------
    sheet, protocol, minutes
        The helmet, its checks, what acts take.
    shelf
        The parts at this store; None where everything listed is there.
    now
        What is in the helmet now, as written; None where the roster may say it.
    seed
        Of every draw.
    is_brief
        Whether how a check is done is left out.
    """

    sheet: "ModelSheet"
    protocol: "Protocol"
    minutes: "Minutes"
    shelf: ShelfRows | None
    now: str | None
    seed: int
    is_brief: bool

    def begun(self, started: "Started") -> "Begun":
        """What the visit's file is held to."""
        from helmwright.cli.visit_file import Begun
        from helmwright.visit.sheet_digest import content_digest

        return Begun(started.who, self.sheet, started.sheet, content_digest(self.protocol))

    def started(self, player: "Player") -> "Started":
        """The first event of the player's visit.

        Raises
        ------
        NothingRan
            Where the sheet has no such build as is said to be in the helmet.
        """
        from helmwright.visit.event import Started
        from helmwright.visit.sheet_digest import sheet_digest

        return Started(
            player.label,
            player.readings,
            player.stated,
            player.worn,
            sheet_digest(self.sheet),
            self._in_helmet(player),
            self.shelf,
            self.seed,
        )

    def guide(self) -> "Guide":
        """Who says what comes next."""
        from helmwright.visit.guide import Guide

        return Guide(self.sheet, self.protocol, minutes=self.minutes)

    def expected(
        self, guide: "Guide", player: "Player"
    ) -> "Callable[[Visit], Mapping[str, Expectation]]":
        """What to expect at checks of strap and face, counted once for each build."""
        from helmwright.roster.face import face_wish
        from helmwright.visit.belief import batches, generator
        from helmwright.visit.starts import expectations, face_start

        known: dict[Build, Mapping[str, Expectation]] = {}

        def expecting(visit: "Visit") -> "Mapping[str, Expectation]":
            build = visit.in_helmet
            if build is None:
                return {}
            if build not in known:
                checks = self.protocol.checks
                cloud = guide.beliefs.after(visit, batches(checks, visit)).cloud
                rng = generator(visit, "face", build)
                face = face_start(cloud, build, rng=rng, wish=face_wish(player))
                known[build] = expectations(self.protocol, face=face)
            return known[build]

        return expecting

    def _in_helmet(self, player: "Player") -> "Build | None":
        from helmwright.roster import CellError, build_now, estimate_player

        said = player.build_now if self.now is None else self.now
        try:
            return build_now(said, self.sheet, estimate_player(player)) if said else None
        except CellError as error:
            where = "--now" if self.now is not None else f"row {player.row}, build now"
            raise NothingRan(f'{where} "{said}": {error}') from error


def chosen_protocol(file: str | None, sheet: "ModelSheet") -> "Protocol":
    """The checks for the helmet: the usual ones, or those of a file.

    Raises
    ------
    NothingRan
        Where the file cannot be used, or does not suit the helmet.
    """
    from helmwright.visit.protocol import (
        ProtocolError,
        UnsuitedProtocolError,
        parse_protocol,
        protocol_for,
    )

    try:
        base = None if file is None else parse_protocol(_text(file), name=file)
        return protocol_for(sheet, base=base)
    except (ProtocolError, UnsuitedProtocolError) as error:
        raise NothingRan(str(error)) from error


def chosen_minutes(file: str | None) -> "Minutes":
    """What acts take: the assumed times, or those of a file.

    Raises
    ------
    NothingRan
        Where the file cannot be used.
    """
    from helmwright.fit.minutes import Minutes, UnreadableMinutesError

    try:
        return Minutes() if file is None else Minutes.read(_text(file))
    except UnreadableMinutesError as error:
        raise NothingRan(f"{file}: {error}") from error


def chosen_shelf(file: str | None, sheet: "ModelSheet") -> ShelfRows | None:
    """The parts at this store; None where no list was given.

    Raises
    ------
    NothingRan
        Where the list cannot be used.
    """
    from helmwright.roster import RosterError, read_stock

    if file is None:
        return None
    try:
        stock = read_stock(read_file(file), sheet)
    except RosterError as error:
        raise NothingRan(f"{file}: {error}") from error
    if not any(count for _, _, count in stock.rows):
        raise NothingRan(f"{file}: {_nothing_counted(stock)}")
    for notice in stock.notices:
        tell(f"{file}: {notice}")
    return stock.rows


def _nothing_counted(stock: "Stock") -> str:
    """Why nobody can be fitted from such a list."""
    if stock.is_uncounted:
        return "no part has a count; write how many are here, or leave the stock list out"
    return (
        "every count is 0, so that nothing is on the shelf; count at least the helmet in hand as a"
        " shell, or leave the stock list out"
    )


def _text(file: str) -> str:
    try:
        return read_file(file).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise NothingRan(f"{file} is not UTF-8 text; save it as UTF-8") from error
