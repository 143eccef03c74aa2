"""The file of a visit: one line for each event, on the disk before anything follows from it."""

import json
import os
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from helmwright.catalogue.sheet import ModelSheet
from helmwright.cli.stop import NothingRan
from helmwright.cli.visit_earlier import Earlier, earlier_of, object_of
from helmwright.cli.visit_lock import is_locked_for_us
from helmwright.cli.visit_whose import MOST_VISITS, Sought, kept_visits
from helmwright.reports.visit_opening import also_open_words, whose_words
from helmwright.visit.event import Event, Started
from helmwright.visit.wire import event_from_wire, event_to_wire
from helmwright.visit.wire_fault import WireError

if TYPE_CHECKING:
    from helmwright.visit.guide import Guide

FORMAT = 1

Clock = Callable[[], datetime]


@dataclass(frozen=True, slots=True)
class Begun:
    """What a visit was begun with, and must be gone on with.

    Parameters
    ----------
    who
        The player, for messages.
    sheet
        The model sheet; names the parts in the file.
    sheet_digest, protocol_digest
        Of their content.
    """

    who: str
    sheet: ModelSheet
    sheet_digest: str
    protocol_digest: str


class VisitFile:
    """An open visit file, locked against a second program.

    Parameters
    ----------
    path
        Where it is.
    descriptor
        Of the open and locked file.
    begun
        What the visit is begun with.
    clock
        The time that is written beside each event; it must know its time zone.

    Attributes
    ----------
    events
        What happened so far.
    cut
        Bytes of a last line that was never finished and has been cut off.
    earlier
        The player's visits before this one, in order.
    is_moved
        Whether it was begun under another number or row than the roster has now.
    is_by_number
        Whether nothing but number and row say whose it is.
    also_open
        Other unfinished visits of the player, begun before this one.
    """

    def __init__(self, path: Path, descriptor: int, begun: Begun, clock: Clock) -> None:
        self.path, self.begun = path, begun
        self.events: tuple[Event, ...] = ()
        self.cut = 0
        self.earlier: tuple[Earlier, ...] = ()
        self.is_moved = self.is_by_number = False
        self.also_open: tuple[Path, ...] = ()
        self._descriptor, self._clock = descriptor, clock

    def append(self, *events: Event) -> None:
        """Puts events on the disk, and only then into the list.

        Raises
        ------
        NothingRan
            Where the disk does not take them; the file is then as it was.
        """
        before = os.lseek(self._descriptor, 0, os.SEEK_END)
        number = len(self.events)
        lines = [self._line(number + place, event) for place, event in enumerate(events, start=1)]
        try:
            _written_through(self._descriptor, "".join(lines).encode())
        except OSError as error:
            os.ftruncate(self._descriptor, before)
            raise _cannot_write(self.path, error) from error
        self.events += events

    def close(self) -> None:
        """Lets another program have the file."""
        os.close(self._descriptor)

    def take(self, content: bytes) -> None:
        """Takes over what the file holds; a torn last line is cut off.

        Raises
        ------
        NothingRan
            Where a line cannot be read, or the visit was begun with something else.
        """
        whole, torn = content[: (end := content.rfind(b"\n") + 1)], content[end:]
        if torn and object_of(torn) is not None:
            # Only the line's end is missing: the event itself was written.
            os.lseek(self._descriptor, 0, os.SEEK_END)
            _written_through(self._descriptor, b"\n")
            whole, torn = content + b"\n", b""
        objects = [self._read(n, line) for n, line in enumerate(whole.splitlines(), start=1)]
        if objects:
            self._check_begun(objects[0])
        self.events = tuple(self._event(n, each) for n, each in enumerate(objects, start=1))
        if torn:
            os.ftruncate(self._descriptor, len(whole))
            os.fsync(self._descriptor)
            self.cut = len(torn)

    def _line(self, number: int, event: Event) -> str:
        head: dict[str, Any] = {"line": number, "at": self._clock().isoformat(timespec="seconds")}
        if number == 1:
            head |= {"visit": FORMAT, "protocol": self.begun.protocol_digest}
        whole = head | event_to_wire(event, self.begun.sheet)
        return json.dumps(whole, ensure_ascii=False) + "\n"

    def _read(self, number: int, line: bytes) -> dict[str, Any]:
        found = object_of(line)
        if found is None:
            raise self._unreadable(number, "it is no JSON object")
        if found.pop("line", None) != number:
            raise self._unreadable(number, f'its "line" is not {number}; lines were moved')
        return found

    def _check_begun(self, first: dict[str, Any]) -> None:
        if first.pop("visit", None) != FORMAT:
            raise self._unreadable(1, f'it does not begin a visit of format "visit": {FORMAT}')
        self._refuse_other("model sheet", first.get("sheet"), self.begun.sheet_digest)
        self._refuse_other("protocol", first.pop("protocol", None), self.begun.protocol_digest)

    def _refuse_other(self, what: str, then: object, now: str) -> None:
        if then != now:
            raise NothingRan(
                f"{self.path} holds an unfinished visit of {self.begun.who}, begun with another"
                f" {what} or before this one was changed. Go on with the {what} of that day, or"
                " move the file away to begin anew"
            )

    def _event(self, number: int, fields: dict[str, Any]) -> Event:
        fields.pop("at", None)
        try:
            return event_from_wire(fields, self.begun.sheet)
        except WireError as error:
            raise self._unreadable(number, str(error)) from error

    def _unreadable(self, number: int, why: str) -> NothingRan:
        return NothingRan(
            f"{self.path}, line {number}, cannot be read: {why}. The file was left as it was; put"
            " the line right, or move it away to begin a new visit"
        )


def open_visit(folder: Path, sought: Sought, begun: Begun, clock: Clock) -> VisitFile:
    """The player's unfinished visit, or a new and empty file after all that are finished.

    Parameters
    ----------
    folder
        Where visits are kept; it is made where there is none.
    sought
        Whose visit; of several that are unfinished the one begun last.
    begun, clock
        As for `VisitFile`.

    Raises
    ------
    NothingRan
        Where another program has the visit open, or the file cannot be read or written.
    """
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        kept = kept_visits(folder, sought, begun.sheet)
        earlier = [over for each in kept if (over := _over(each.path, each.content, begun))]
        ended = {each.path for each in earlier}
        unfinished = [each for each in kept if each.path not in ended]
        while unfinished:
            last = unfinished.pop()
            file = _opened(last.path, begun, clock)
            if isinstance(file, VisitFile):
                file.earlier, file.is_moved = tuple(earlier), not sought.calls(file.path)
                file.is_by_number = last.begun is not None and sought.tells(last.begun) is None
                file.also_open = tuple(each.path for each in unfinished if each.begun is not None)
                return file
            earlier.append(file)
        file = _new(folder, sought, begun, clock)
    except OSError as error:
        raise _cannot_write(folder, error) from error
    file.earlier = tuple(earlier)
    return file


def _new(folder: Path, sought: Sought, begun: Begun, clock: Clock) -> VisitFile:
    """An empty file behind all that are called like it."""
    for path in sought.paths(folder):
        if not path.exists():
            file = _opened(path, begun, clock)
            if isinstance(file, VisitFile):
                return file
    raise NothingRan(f"{folder} holds {MOST_VISITS} visits of {begun.who}; move old ones away")


def _opened(path: Path, begun: Begun, clock: Clock) -> VisitFile | Earlier:
    """The visit in that file; how it ended, where it is finished."""
    is_new = not path.exists()
    # What is finished is not gone on with, so that whoever still looks at its end may keep it.
    if not is_new and (end := _over(path, path.read_bytes(), begun)):
        return end
    flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0)
    descriptor = os.open(path, flags, 0o600)
    try:
        _refuse_shared(descriptor, path, begun)
        content = path.read_bytes()
        if end := _over(path, content, begun):
            os.close(descriptor)
            return end
        file = VisitFile(path, descriptor, begun, clock)
        file.take(content)
    except BaseException:
        os.close(descriptor)
        raise
    if is_new:
        _settle(path.parent)
    return file


def _refuse_shared(descriptor: int, path: Path, begun: Begun) -> None:
    """Two programs on one visit would each write what the other does not know."""
    if not is_locked_for_us(descriptor):
        raise NothingRan(
            f"the visit of {begun.who} is open in another window ({path}); pause it there first"
        )


def _over(path: Path, content: bytes, begun: Begun) -> Earlier | None:
    """The visit of a file that is over; None where it goes on."""
    return earlier_of(path, content, begun.sheet, begun.sheet_digest)


def _written_through(descriptor: int, content: bytes) -> None:
    """Writes everything, and waits until the disk has it."""
    rest = memoryview(content)
    while rest:
        rest = rest[os.write(descriptor, rest) :]
    os.fsync(descriptor)


def _settle(folder: Path) -> None:
    """Waits until the disk knows the folder's new file; where folders cannot be waited for, not."""
    if os.name != "posix":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def _cannot_write(path: Path, error: OSError) -> NothingRan:
    reason = (error.strerror or str(error)).lower()
    return NothingRan(
        f"cannot write {path}: {reason}; make room or name another folder with --keep FOLDER"
    )


def found_words(file: VisitFile) -> list[str]:
    """What to look at in how an unfinished visit was found."""
    whose = whose_words(is_moved=file.is_moved, is_by_number=file.is_by_number)
    others = [also_open_words(str(path)) for path in file.also_open]
    return [*([whose] if whose else []), *others]


def refuse_another(file: VisitFile, started: Started, *, is_named: bool) -> None:
    """Refuses to go on with what may be somebody else's visit: no name, and other readings.

    Raises
    ------
    NothingRan
        With what would be right.
    """
    first = file.events[0] if file.events else started
    if is_named or not isinstance(first, Started) or first.readings == started.readings:
        return
    raise NothingRan(
        f"{file.path} holds an unfinished visit of a player without a name, begun with other"
        " readings, and a jersey number tells nobody apart. Give the player a name, or move the"
        " file away"
    )


def refuse_unfit(guide: "Guide", file: VisitFile) -> None:
    """Refuses a file whose events cannot have happened, which only an editor can make.

    Raises
    ------
    NothingRan
        With the reason.
    """
    try:
        guide.visit(file.events)
    except ValueError as error:
        raise NothingRan(
            f"{file.path} is no visit: {error}. The file was left as it was; move it away to begin"
            " a new one"
        ) from error
