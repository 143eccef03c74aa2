"""Whose a kept visit is: told by the name, and where that is not enough by the readings."""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from helmwright.anatomy import Reading
from helmwright.catalogue.sheet import ModelSheet
from helmwright.cli.visit_earlier import object_of
from helmwright.roster.one_player import is_alone, plain
from helmwright.visit.event import Started
from helmwright.visit.wire import event_from_wire
from helmwright.visit.wire_fault import WireError

if TYPE_CHECKING:
    from helmwright.roster import Player, Roster

LONGEST_STEM = 80
MOST_VISITS = 1000
_COUNT = re.compile(r"-visit-(\d+)$")
_RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)", re.IGNORECASE)
"""Names that Windows keeps for devices."""

_NAMELESS = re.compile(r"no\. .*|row \d+|this player")
"""What players without a name are called."""

_BESIDE_START = ("line", "at", "visit", "protocol", "current", "shelf")
"""Of a first line, what does not say whose it is; builds and parts need the sheet of that day."""

Readings = tuple[Reading, ...]


@dataclass(frozen=True, slots=True)
class Sought:
    """The player whose visit is looked for among those that are kept.

    Parameters
    ----------
    stem
        What files of the player's new visits are called. It has the number for whoever looks into
        the folder; a jersey number is no key, and is not looked for.
    name
        As on the roster; empty where there is none.
    readings
        As they are now.
    others
        Readings of each other player on the roster who is called the same; None where no roster
        says who else there is.
    """

    stem: str
    name: str = ""
    readings: Readings = ()
    others: tuple[Readings, ...] | None = ()

    @property
    def is_named(self) -> bool:
        """Whether there is a name to be known by."""
        return bool(name_words(self.name))

    def owns(self, path: Path, begun: Started | None) -> bool:
        """Whether the visit in that file, which begins so, is this player's.

        Notes
        -----
        Where name and readings do not tell, the file's own name does, which says under what
        number and row the visit was begun.
        """
        told = self.tells(begun)
        return self.calls(path) if told is None else told

    def tells(self, begun: Started | None) -> bool | None:
        """Whether a visit that begins so is this player's; None where that cannot be told.

        Notes
        -----
        A name that nobody else on the roster has decides. Where there is none, or others are
        called the same, the readings do: those with which the visit began are this player's and
        nobody else's, or the other way round.
        """
        if begun is None:
            return None
        if name_words(begun.who) != name_words(self.name):
            return False
        if self.is_named and self.others == ():
            return True
        mine = bool(begun.readings) and begun.readings == self.readings
        theirs = bool(begun.readings) and begun.readings in (self.others or ())
        return None if mine == theirs else mine

    def calls(self, path: Path) -> bool:
        """Whether a new visit of this player would be called so, but for its count."""
        return re.fullmatch(rf"{re.escape(self.stem)}(-visit-\d+)?", path.stem) is not None

    def paths(self, folder: Path) -> Iterator[Path]:
        """What the files of the player's first, second and further visits are called."""
        yield folder / f"{self.stem}.jsonl"
        for number in range(2, MOST_VISITS):
            yield folder / f"{self.stem}-visit-{number}.jsonl"


@dataclass(frozen=True, slots=True)
class Kept:
    """A kept visit.

    Parameters
    ----------
    path, content
        Its file.
    begun
        Its first event; None where that cannot be read, or was never written whole.
    at
        When it began, as written.
    """

    path: Path
    content: bytes
    begun: Started | None
    at: str


def kept_visits(folder: Path, sought: Sought, sheet: ModelSheet) -> list[Kept]:
    """A player's visits, the one begun last at the end.

    Notes
    -----
    The files of one name were begun in the order of their count, whatever a clock said.
    """
    begun: dict[str, str] = {}
    found = []
    for path in sorted(folder.glob("*.jsonl"), key=_count):
        kept = _read(path, sheet)
        if sought.owns(path, kept.begun):
            name = _COUNT.sub("", path.stem)
            begun[name] = max(begun.get(name, ""), kept.at)
            found.append((begun[name], kept))
    return [kept for _, kept in sorted(found, key=lambda each: each[0])]


def _count(path: Path) -> tuple[int, str]:
    counted = _COUNT.search(path.stem)
    return int(counted[1]) if counted else 1, path.stem


def _read(path: Path, sheet: ModelSheet) -> Kept:
    """What a file holds; its first line without what only the sheet of that day can read."""
    content = path.read_bytes()
    lines = content.splitlines()
    first: dict[str, Any] = (object_of(lines[0]) if lines else None) or {}
    fields = {key: value for key, value in first.items() if key not in _BESIDE_START}
    try:
        event = event_from_wire(fields, sheet)
    except WireError:
        return Kept(path, content, None, "")
    begun = event if isinstance(event, Started) else None
    return Kept(path, content, begun, str(first.get("at", "")))


def sought(player: "Player", roster: "Roster | None" = None) -> Sought:
    """How a player's visits are found.

    Parameters
    ----------
    player
        Who is fitted.
    roster
        All players, the one who is fitted among them; None where nobody says who else there is.
    """
    if roster is None:
        return Sought(
            file_stem(player.name, player.number), player.name, player.readings, others=None
        )
    same = name_words(player.name)
    others = tuple(
        each.readings
        for each in roster.players
        if each is not player and name_words(each.name) == same
    )
    row = 0 if is_alone(roster, player) else player.row
    stem = file_stem(player.name, player.number, row)
    return Sought(stem, player.name, player.readings, others)


def name_words(name: str) -> tuple[str, ...]:
    """The words by which a name is compared; none where there is no name."""
    said = plain(name)
    if _NAMELESS.fullmatch(said):
        return ()
    return tuple(re.findall(r"\w+", said.replace("_", " ")))


def file_stem(name: str, number: str, row: int = 0) -> str:
    """What the files of a player's visits are called.

    Parameters
    ----------
    name, number
        As on the roster.
    row
        The row, where another player has the same name and number; else 0.

    Returns
    -------
    str
        Letters and digits in any script, parted by single dashes; no name of a device.
    """
    said = [number, name, f"row {row}" if row or not (name or number) else ""]
    composed = unicodedata.normalize("NFC", " ".join(said).casefold())
    stem = "-".join(re.findall(r"\w+", composed.replace("_", " ")))[:LONGEST_STEM] or "player"
    return f"{stem}-player" if _RESERVED.fullmatch(stem) else stem
