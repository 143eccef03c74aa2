"""A fit visit as a dialogue of JSON lines on standard input and output."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, BinaryIO, Protocol

from helmwright.cli.stop import NothingRan
from helmwright.cli.visit_said import said_readings
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.visit_end_page import DO_NOT, NO_CLEARING, NOT_ACCEPTED, SPINE
from helmwright.visit.event import Accepted, Event, Started
from helmwright.visit.lines import Dialogue, Guiding, Keeping, error_reply
from helmwright.visit.lines_in import StartMessage, SymptomMessage, read_message
from helmwright.visit.lines_out import ErrorReply, OutMessage, line_of
from helmwright.visit.lines_told import Expecting, Telling, nothing_expected
from helmwright.visit.wire import event_form
from helmwright.visit.wire_fault import WireError

LONGEST = 1_000_000
"""Bytes of the longest line that is read."""

_TAKEN = (
    "put that right and send state, which says what comes next; what is under taken counts, so do"
    " not send it again"
)


class Held(Keeping, Protocol):
    """A place for events that is given up when its visit is left."""

    def close(self) -> None:
        """Lets another program have it."""


class Memory:
    """Events that are kept nowhere but here."""

    def __init__(self) -> None:
        self.events: tuple[Event, ...] = ()

    def append(self, *events: Event) -> None:
        """Keeps more."""
        self.events += events

    def close(self) -> None:
        """Nothing is to be given up."""


@dataclass(frozen=True)
class Opened:
    """A visit that can begin or go on.

    Parameters
    ----------
    guide
        Says what comes next.
    started
        The first event, if the visit has not begun.
    kept
        Where its events are.
    notices
        What to look at in player and stock.
    expected
        What is foreseen at the checks of a build.
    """

    guide: Guiding
    started: Started
    kept: Held
    notices: tuple[str, ...] = ()
    expected: Expecting = nothing_expected


Opener = Callable[[StartMessage], Opened]
"""Opens the visit that a start message asks for; WireError where it cannot."""


class Lines:
    """One line in, one line out.

    Parameters
    ----------
    opener
        Opens visits.
    writer
        Where answers go.
    """

    def __init__(self, opener: Opener, writer: BinaryIO) -> None:
        self._opener, self._writer = opener, writer
        self._dialogue: Dialogue | None = None
        self._kept: Held | None = None
        self._before = 0
        self.is_accepted = False

    def begin(self, opened: Opened) -> None:
        """Begins the visit, or goes on with it, and says so."""
        self._write(self._begun(opened))

    def take(self, line: bytes) -> None:
        """Answers one line."""
        self._write(self._answer(line))

    def leave(self) -> None:
        """Pauses the visit, unless it is over, and gives up its place."""
        dialogue, kept = self._dialogue, self._kept
        self._dialogue = self._kept = None
        if dialogue is None or kept is None:
            return
        try:
            dialogue.leave()
            self.is_accepted = isinstance(dialogue.end, Accepted)
        finally:
            kept.close()

    def _answer(self, line: bytes) -> OutMessage:
        self._before = 0 if self._kept is None else len(self._kept.events)
        reply = self._replied_or_refused(line)
        return self._with_taken(reply) if isinstance(reply, ErrorReply) else reply

    def _with_taken(self, reply: ErrorReply) -> ErrorReply:
        """The error with what of the line happened all the same, so that it is not sent again."""
        dialogue, kept = self._dialogue, self._kept
        if dialogue is None or kept is None or len(kept.events) == self._before:
            return reply
        taken = tuple(event_form(each, dialogue.sheet) for each in kept.events[self._before :])
        return reply.model_copy(update={"taken": taken, "right": _TAKEN})

    def _replied_or_refused(self, line: bytes) -> OutMessage:
        first = ""
        try:
            message = read_message(_text(line))
            if isinstance(message, SymptomMessage):
                first = "stop the fitting and tell the athletic trainer or a physician; then "
            return self._replied(message)
        except WireError as error:
            return error_reply(error)
        except NothingRan as error:
            # The disk did not take an event: it has not happened, and may be sent again.
            return error_reply(
                WireError(str(error), "", f"{first}put that right and send the line again")
            )

    def _replied(self, message: Any) -> OutMessage:
        if isinstance(message, StartMessage) and self._is_free():
            opened = self._opener(message)
            self.leave()
            return self._begun(opened)
        if self._dialogue is None:
            right = 'send {"message": "start", "player": ...}'
            raise WireError("no visit has begun", "message", right)
        return self._dialogue.reply(message)

    def _is_free(self) -> bool:
        return self._dialogue is None or self._dialogue.end is not None

    def _begun(self, opened: Opened) -> OutMessage:
        guide, kept = opened.guide, opened.kept
        self._before = len(kept.events)
        if not kept.events:
            _append_or_give_up(kept, opened.started)
        telling = Telling(
            guide.sheet,
            guide.protocol,
            cautions=CAUTIONS,
            assumed=(ASSUMED,),
            not_accepted=(NOT_ACCEPTED, DO_NOT),
            at_symptom=(NO_CLEARING, SPINE),
            expected=opened.expected,
        )
        self._dialogue, self._kept = Dialogue(guide, kept, telling, said_readings), kept
        return self._dialogue.begin(opened.notices)

    def _write(self, reply: OutMessage) -> None:
        self._writer.write(line_of(reply))
        self._writer.flush()


def carry_on(opened: Opened | None, opener: Opener, reader: BinaryIO, writer: BinaryIO) -> bool:
    """Answers every line until the input ends; a visit that has not ended is left paused.

    Parameters
    ----------
    opened
        The visit that the command line asks for; None where a start message will.
    opener
        Opens a visit at a start message.
    reader, writer
        Where lines come from, and where answers go.

    Returns
    -------
    bool
        Whether the last visit ended accepted.
    """
    lines = Lines(opener, writer)
    try:
        if opened is not None:
            lines.begin(opened)
        while line := reader.readline(LONGEST + 1):
            if len(line) > LONGEST and not line.endswith(b"\n"):
                _pass_over(reader)
            if line.strip():
                lines.take(line)
    finally:
        lines.leave()
    return lines.is_accepted


def _append_or_give_up(kept: Held, started: Started) -> None:
    """Begins the visit; one that the disk does not take leaves its place free to begin again."""
    try:
        kept.append(started)
    except NothingRan:
        kept.close()
        raise


def _pass_over(reader: BinaryIO) -> None:
    """The rest of a line that is too long."""
    while (rest := reader.readline(LONGEST)) and not rest.endswith(b"\n"):
        pass


def _text(line: bytes) -> str:
    if len(line) > LONGEST:
        raise WireError("this line is too long", "", f"send at most {LONGEST:,} bytes a line")
    try:
        return line.decode("utf-8")
    except UnicodeDecodeError as error:
        raise WireError("this line is not UTF-8", "", "send one JSON object a line") from error
