"""A visit as a dialogue of lines: one message in, one message out, nothing lost on the way."""

from collections.abc import Callable, Sequence
from typing import Any
from typing import Protocol as Shape

from helmwright.anatomy import Over, Reading, check_readings
from helmwright.catalogue.sheet import ModelSheet
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import (
    Accepted,
    Event,
    LookAsked,
    Measured,
    MeasureSkipped,
    NoBuild,
    NotHere,
    Paused,
    PutOn,
    Resumed,
    Stopped,
    SymptomReported,
    Undone,
)
from helmwright.visit.lines_findings import read_findings
from helmwright.visit.lines_in import (
    VERSION,
    FindingForm,
    FindingsMessage,
    MeasuredMessage,
    NotHereMessage,
    PauseMessage,
    PutOnMessage,
    ResumeMessage,
    Said,
    SkipMessage,
    StartMessage,
    StateMessage,
    StopMessage,
    SymptomMessage,
    UndoMessage,
)
from helmwright.visit.lines_out import (
    ErrorReply,
    NotTakenForm,
    OutMessage,
    ProposalReply,
    QuestionReply,
    StartedReply,
    StateReply,
)
from helmwright.visit.lines_told import Telling
from helmwright.visit.state import Visit
from helmwright.visit.step import AskCheck, Record, Step
from helmwright.visit.wire import event_form
from helmwright.visit.wire_build import build_from_form
from helmwright.visit.wire_fault import WireError

_PLAIN: dict[type, type[Undone] | type[Paused] | type[Resumed]] = {
    UndoMessage: Undone,
    PauseMessage: Paused,
    ResumeMessage: Resumed,
}

NotTaken = tuple[NotTakenForm, ...]
ReadReadings = Callable[[Said, "tuple[Over, ...] | None"], tuple[Reading, ...]]
"""Readings under a roster's headings, taken over what is worn; WireError where they are none."""


class Guiding(Shape):
    """Whatever says what comes next; the guide of a visit, or a stand-in of a test."""

    @property
    def sheet(self) -> ModelSheet:
        """The helmet model."""

    @property
    def protocol(self) -> Protocol:
        """The checks."""

    def visit(self, events: Sequence[Event]) -> Visit:
        """Where the visit stands; ValueError for an event that cannot come."""

    def next(self, events: Sequence[Event]) -> Step:
        """What comes next."""


class Keeping(Shape):
    """Where events are kept, safely before anything follows from them."""

    @property
    def events(self) -> tuple[Event, ...]:
        """All so far."""

    def append(self, *events: Event) -> None:
        """Keeps more."""


class Dialogue:
    """One visit.

    Parameters
    ----------
    guide, kept
        What comes next, and where events go; its start is already there.
    telling
        How it is told.
    read_readings
        Reads what was measured in the visit.
    """

    def __init__(
        self, guide: Guiding, kept: Keeping, telling: Telling, read_readings: ReadReadings
    ) -> None:
        self._guide, self._kept, self._telling = guide, kept, telling
        self._read_readings = read_readings

    @property
    def sheet(self) -> ModelSheet:
        """The helmet model; names the parts of events."""
        return self._telling.sheet

    @property
    def end(self) -> Accepted | NoBuild | Stopped | SymptomReported | None:
        """How it ended; None while it goes on. The end may still be undone."""
        return self._visit().ended

    def begin(self, notices: Sequence[str] = ()) -> StartedReply:
        """The first line: what visit this is, and what it waits for."""
        kept = len(self._kept.events)
        next_ = self._next(again=True)
        started, sheet, protocol = (
            self._visit().started,
            self._telling.sheet,
            self._telling.protocol,
        )
        return StartedReply(
            message="started",
            version=VERSION,
            who=started.who,
            model=sheet.model,
            invented=sheet.invented,
            sheet=started.sheet,
            protocol=protocol.name,
            seed=started.seed,
            kept=kept if kept > 1 else 0,
            symptoms=tuple(symptom.says for symptom in protocol.symptoms),
            notices=tuple(notices),
            cautions=self._telling.cautions,
            assumed=self._telling.assumed,
            next=next_,
        )

    def reply(self, message: Any) -> OutMessage:
        """What is answered to one message; where it cannot be taken, an error.

        Parameters
        ----------
        message
            As `read_message` gives it.
        """
        try:
            return self._replied(message)
        except WireError as error:
            return error_reply(error)

    def leave(self) -> None:
        """Whoever was at the other end is gone: the visit pauses, unless it is over."""
        visit = self._visit()
        if visit.ended is None and not visit.paused:
            self._kept.append(Paused())

    def _replied(self, message: Any) -> OutMessage:
        match message:
            case StateMessage():
                return self._state()
            case FindingsMessage(findings=findings):
                return self._next(self._found(findings))
            case StartMessage():
                raise WireError("a visit is going on", "message", "end it first: stop")
        event = self._event(message)
        notices = self._about(event) if isinstance(event, Measured) else ()
        self._keep(event)
        told = self._next(again=isinstance(message, ResumeMessage))
        return told.model_copy(update={"notices": notices}) if notices else told

    def _about(self, event: Measured) -> tuple[str, ...]:
        """What to look at in readings that have just been taken, beside those from before.

        Raises
        ------
        WireError
            Where no head has them together.
        """
        visit = self._visit()
        readings = (*visit.readings, *event.readings)
        new = {reading.measure for reading in event.readings}
        findings = check_readings(readings, **visit.started.stated)
        for finding in findings:
            if finding.blocks:
                raise WireError(finding.message, "readings", finding.suggestion or "measure again")
        return tuple(
            f"{finding.message} {finding.suggestion or ''}".strip()
            for finding in findings
            if new & set(finding.measures)
        )

    def _event(self, message: Any) -> Event:
        """The event that a message makes."""
        visit = self._visit()
        match message:
            case PutOnMessage():
                return self._put_on(message, visit)
            case MeasuredMessage(readings=said):
                return Measured(self._read_readings(said, visit.started.worn))
            case SkipMessage():
                if visit.measure is None:
                    raise WireError(
                        "no measure is asked for", "message", "nothing is to be skipped"
                    )
                return MeasureSkipped(visit.measure.measure)
            case NotHereMessage(place=place, size=size):
                return NotHere(place, size)
            case UndoMessage() | PauseMessage() | ResumeMessage():
                return _PLAIN[type(message)]()
            case SymptomMessage(words=words):
                return SymptomReported(words)
            case StopMessage(reason=reason):
                return Stopped(reason)
        raise TypeError(f"{type(message).__name__} is no message of a visit")

    def _put_on(self, message: PutOnMessage, visit: Visit) -> PutOn:
        if message.build is not None:
            build = build_from_form(message.build, self._telling.sheet, "build")
            return PutOn(build, message.reason)
        if visit.proposal is None:
            raise WireError("no build is proposed", "build", "name the build, and the reason")
        return PutOn(visit.proposal.build, message.reason)

    def _found(self, forms: Sequence[FindingForm]) -> NotTaken:
        """Takes the answers that are asked for, as far as they reach; those that are left."""
        waiting = read_findings(forms, self._telling.protocol)
        step = self._guide.next(self._kept.events)
        if not isinstance(step, AskCheck):
            raise WireError("no check is asked now", "message", self._asked_instead(step))
        while waiting and isinstance(step, AskCheck):
            asked = [check.key for check in (step.check, *step.rest_of_round)]
            taken = [waiting.pop(key) for key in asked if key in waiting]
            if not taken:
                break
            self._keep(*taken)
            step = self._guide.next(self._kept.events)
        why = self._why_not(step)
        return tuple(NotTakenForm(check=key, why=why) for key in waiting)

    def _asked_instead(self, step: Step) -> str:
        named = {"AskPutOn": "put on", "AskMeasure": "measured, or skip", "PausedNow": "resume"}
        return f"send {named.get(type(step).__name__, 'undo, or nothing: the visit is over')}"

    def _why_not(self, step: Step) -> str:
        match step:
            case Record(LookAsked(check, _)):
                return f"{check} is to be looked at again first"
            case AskCheck(check):
                return f"{check.key} is asked first"
        return "another build comes first, or the end"

    def _keep(self, *events: Event) -> None:
        """Keeps events that may come now.

        Raises
        ------
        WireError
            Where one may not; none is kept then.
        """
        try:
            self._guide.visit((*self._kept.events, *events))
        except ValueError as error:
            wrong, _, right = str(error).rpartition("; ")
            raise WireError(wrong or right, "message", right if wrong else "") from error
        self._kept.append(*events)

    def _next(
        self, not_taken: NotTaken = (), *, again: bool = False
    ) -> QuestionReply | ProposalReply:
        """What comes next, everything that the program has to say kept first.

        `again` repeats a proposal that is still open.
        """
        before = self._visit().proposal
        while isinstance(step := self._guide.next(self._kept.events), Record):
            self._kept.append(step.event)
        visit = self._visit()
        is_open = visit.proposal is not None and visit.ended is None and not visit.paused
        told: QuestionReply | ProposalReply = (
            self._telling.proposal(visit, step)
            if is_open and (again or visit.proposal != before)
            else self._telling.question(step, visit)
        )
        return told.model_copy(update={"not_taken": not_taken}) if not_taken else told

    def _state(self) -> StateReply:
        next_ = self._next(again=True)
        visit, telling = self._visit(), self._telling
        return StateReply(
            message="state",
            version=VERSION,
            events=tuple(event_form(each, telling.sheet) for each in self._kept.events),
            try_ons=telling.try_ons(visit),
            rejected=tuple(map(telling.build, visit.rejected)),
            in_helmet=None if visit.in_helmet is None else telling.build(visit.in_helmet),
            skipped=tuple(sorted(visit.skipped)),
            sub_scores=telling.scores(visit),
            next=next_,
        )

    def _visit(self) -> Visit:
        return self._guide.visit(self._kept.events)


def error_reply(error: WireError) -> ErrorReply:
    """What is answered to a line that cannot be taken."""
    return ErrorReply(
        message="error", what=error.wrong, where=error.where, right=error.right, taken=()
    )
