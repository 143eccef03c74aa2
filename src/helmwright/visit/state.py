"""Where a visit stands: the fold over its events."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from helmwright.anatomy import Reading
from helmwright.fit.outlook import Build
from helmwright.visit.event import (
    Accepted,
    Answered,
    Event,
    LookAsked,
    MeasureAsked,
    Measured,
    MeasureSkipped,
    NoBuild,
    NotHere,
    Paused,
    Proposed,
    PutOn,
    Resumed,
    Started,
    Stopped,
    SymptomReported,
)
from helmwright.visit.undo import OutOfTurnError, standing

__all__ = ["OutOfTurnError", "TryOn", "Visit", "fold"]


@dataclass(frozen=True, slots=True)
class TryOn:
    """One build on the head, and what was answered about it.

    Parameters
    ----------
    number
        From 1.
    build
        What was put on.
    before
        What was in the helmet before; None at the first where nobody said.
    lay
        The same where somebody said, as of a helmet that was taken up for this try-on.
    proposed
        What the program had proposed; None where it had nothing open.
    reason
        Why another build was put on, in the fitter's words.
    answers
        In order, repeats included; those first that were given before the helmet went on.
    asked
        What the program asked to look at again.
    """

    number: int
    build: Build
    before: Build | None
    proposed: Proposed | None
    reason: str = ""
    answers: tuple[Answered, ...] = ()
    asked: tuple[LookAsked, ...] = ()
    lay: Build | None = None


@dataclass(frozen=True, slots=True)
class Visit:
    """Where a visit stands.

    Parameters
    ----------
    started
        Player and helmet.
    readings
        Those of the start and those taken since.
    skipped
        Measures that were asked for and left out.
    missing
        Parts that are not at this store whatever was counted, as (zone, label).
    try_ons
        Every build that was put on, in order.
    left
        Whether the build on the head is given up: another is, or will be, proposed.
    rejected
        Builds that were given up for what was found on them.
    proposal, measure, look
        What the program has asked for and waits for.
    ahead
        Answers given before the proposed build goes on.
    paused
        Whether it is interrupted.
    ended
        How it ended; None while it goes on.
    """

    started: Started
    readings: tuple[Reading, ...]
    skipped: frozenset[str] = frozenset()
    missing: frozenset[tuple[str, str]] = frozenset()
    try_ons: tuple[TryOn, ...] = ()
    left: bool = False
    rejected: tuple[Build, ...] = ()
    proposal: Proposed | None = None
    measure: MeasureAsked | None = None
    look: LookAsked | None = None
    ahead: tuple[Answered, ...] = ()
    paused: bool = False
    ended: Accepted | NoBuild | Stopped | SymptomReported | None = None

    @property
    def now(self) -> TryOn | None:
        """The try-on that is going on; None where none is."""
        return None if self.left or not self.try_ons else self.try_ons[-1]

    @property
    def in_helmet(self) -> Build | None:
        """What is in the helmet now; None where nobody said."""
        return self.try_ons[-1].build if self.try_ons else self.started.current


def fold(events: Sequence[Event]) -> Visit:
    """Where the visit stands after these events.

    Parameters
    ----------
    events
        Everything that happened, in order, what was taken back included.

    Raises
    ------
    OutOfTurnError
        Where an event cannot come after those before it.

    Notes
    -----
    A pure function of the list: nothing else is kept of a visit. It knows no protocol; whether a
    check exists and has such an answer is the guide's to say.
    """
    visit: Visit | None = None
    for place, event in standing(events):
        visit = _begun(place, event) if visit is None else _after(visit, place, event)
    if visit is None:
        raise OutOfTurnError("a visit without events is no visit; its first event is its start")
    return visit


def _begun(place: int, event: Event) -> Visit:
    if not isinstance(event, Started):
        raise _wrong(place, event, "the visit has not begun", "its start comes first")
    return Visit(event, event.readings)


def _after(visit: Visit, place: int, event: Event) -> Visit:
    fault = _closed(visit, event)
    step = _STEPS.get(type(event))
    if fault is None and step is None:
        fault = ("the visit has begun already", "another visit is another list")
    if fault is not None or step is None:
        raise _wrong(place, event, *(fault or ("", "")))
    after = step(visit, event)
    if isinstance(after, Visit):
        return after
    raise _wrong(place, event, *after)


Fault = tuple[str, str]
"""Why an event cannot come, and what could."""


def _wrong(place: int, event: Event, why: str, right: str) -> OutOfTurnError:
    return OutOfTurnError(f"event {place} ({type(event).__name__}) cannot come: {why}; {right}")


def _closed(visit: Visit, event: Event) -> Fault | None:
    """Why nothing but a few events can come, where that is so."""
    if isinstance(event, SymptomReported):
        return None
    if visit.ended is not None:
        return ("the visit is over", "only a symptom can be told, or the last word undone")
    if visit.paused and not isinstance(event, (Resumed, Stopped)):
        return ("the visit is paused", "resume it first")
    return None


def _proposed(visit: Visit, event: Proposed) -> Visit | Fault:
    waits = _waiting(visit)
    return waits or replace(_given_up(visit), proposal=event)


def _measure_asked(visit: Visit, event: MeasureAsked) -> Visit | Fault:
    waits = _waiting(visit)
    return waits or replace(_given_up(visit), measure=event)


def _look_asked(visit: Visit, event: LookAsked) -> Visit | Fault:
    now = visit.now
    if now is None or all(given.check != event.check for given in now.answers):
        return (f"{event.check!r} was not answered at this try-on", "a first answer comes before")
    if visit.look is not None:
        return (f"a look at {visit.look.check!r} is still open", "its answer comes first")
    return replace(_with_last(visit, replace(now, asked=(*now.asked, event))), look=event)


def _accepted(visit: Visit, event: Accepted) -> Visit | Fault:
    now, waits = visit.now, _waiting(visit)
    if waits:
        return waits
    if now is None or event.build != now.build:
        return ("this build is not on the head", "only the build on the head is accepted")
    return replace(visit, ended=event)


def _no_build(visit: Visit, event: NoBuild) -> Visit | Fault:
    return replace(_given_up(visit), proposal=None, measure=None, look=None, ended=event)


def _waiting(visit: Visit) -> Fault | None:
    """What the program waits for, so that it has nothing new to say."""
    if visit.proposal is not None:
        return ("the proposed build is not on the head yet", "it is put on, or another one")
    if visit.measure is not None:
        return (f"{visit.measure.measure} was asked for", "it is measured or skipped")
    if visit.look is not None:
        return (f"a look at {visit.look.check!r} is still open", "its answer comes first")
    if visit.now is not None and not visit.now.answers:
        return ("the build on the head has not been checked", "its checks come first")
    return None


def _given_up(visit: Visit) -> Visit:
    """The build on the head is left for another."""
    now = visit.now
    if now is None:
        return visit
    known = now.build in visit.rejected
    rejected = visit.rejected if known else (*visit.rejected, now.build)
    return replace(visit, left=True, rejected=rejected)


def _put_on(visit: Visit, event: PutOn) -> Visit | Fault:
    open_now = visit.proposal
    if not event.reason and (open_now is None or event.build != open_now.build):
        return ("it is not the proposed build", "another build is put on with a reason")
    if event.lay is not None and event.lay.shell != event.build.shell:
        return ("what lay in the helmet is of another shell", "pads change, and the shell stays")
    kept = open_now is None or open_now.build.shell == event.build.shell
    tried = TryOn(
        number=len(visit.try_ons) + 1,
        build=event.build,
        before=event.lay or visit.in_helmet,
        proposed=open_now,
        reason=event.reason,
        answers=visit.ahead if kept else (),
        lay=event.lay,
    )
    return replace(
        visit,
        try_ons=(*visit.try_ons, tried),
        left=False,
        proposal=None,
        measure=None,
        look=None,
        ahead=(),
    )


def _answered(visit: Visit, event: Answered) -> Visit | Fault:
    if visit.proposal is not None:
        return replace(visit, ahead=(*visit.ahead, event))
    now = visit.now
    if now is None:
        return ("there is no helmet on the head", "a build is put on first")
    look = None if visit.look is not None and visit.look.check == event.check else visit.look
    return replace(_with_last(visit, replace(now, answers=(*now.answers, event))), look=look)


def _with_last(visit: Visit, tried: TryOn) -> Visit:
    return replace(visit, try_ons=(*visit.try_ons[:-1], tried))


def _measured(visit: Visit, event: Measured) -> Visit | Fault:
    read = {reading.measure for reading in event.readings}
    if not read:
        return ("it holds no reading", "at least one reading, or the measure is skipped")
    still = visit.measure if visit.measure and visit.measure.measure not in read else None
    readings = (*visit.readings, *event.readings)
    return replace(visit, readings=readings, measure=still, proposal=None, ahead=())


def _not_here(visit: Visit, event: NotHere) -> Visit | Fault:
    if visit.proposal is None:
        return ("no build is proposed", "a part is missing from a proposed build")
    missing = visit.missing | {(event.place, event.size)}
    return replace(visit, missing=missing, proposal=None, ahead=())


def _skipped(visit: Visit, event: MeasureSkipped) -> Visit | Fault:
    if visit.measure is None or visit.measure.measure != event.measure:
        return (f"{event.measure} was not asked for", "only what was asked for is skipped")
    return replace(visit, skipped=visit.skipped | {event.measure}, measure=None)


def _paused(visit: Visit, _event: Paused) -> Visit | Fault:
    return replace(visit, paused=True)


def _resumed(visit: Visit, _event: Resumed) -> Visit | Fault:
    if not visit.paused:
        return ("the visit is not paused", "it goes on as it is")
    return replace(visit, paused=False)


def _ended(visit: Visit, event: SymptomReported | Stopped) -> Visit | Fault:
    return replace(visit, ended=event)


_STEPS: dict[type, Callable[[Visit, Any], Visit | Fault]] = {
    Proposed: _proposed,
    MeasureAsked: _measure_asked,
    LookAsked: _look_asked,
    Accepted: _accepted,
    NoBuild: _no_build,
    PutOn: _put_on,
    Answered: _answered,
    Measured: _measured,
    MeasureSkipped: _skipped,
    NotHere: _not_here,
    Paused: _paused,
    Resumed: _resumed,
    SymptomReported: _ended,
    Stopped: _ended,
}
