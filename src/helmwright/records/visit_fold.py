"""The events of a visit as the records keep them, folded into where the visit stands."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from helmwright.catalogue import ModelSheet
from helmwright.fit.outlook import Build
from helmwright.records.kinds.visit_event import whole
from helmwright.visit import Event, OutOfTurnError, Protocol, PutOn, Visit, fold
from helmwright.visit.possible import refuse_impossible
from helmwright.visit.wire import event_from_wire
from helmwright.visit.wire_fault import WireError

UNSAID = "another build"
"""Stands for the reason of a build other than the proposed one, which is kept where it can be
erased, or was not said: what was done with the hands holds without a reason."""

_PLACE = re.compile(r"event \d+(?: \(\w+\) cannot come)?: ")


class CannotComeError(ValueError):
    """An event that cannot come where the visit stands; the words say what could."""


@dataclass(frozen=True, slots=True)
class Known:
    """What the events of a visit name: the model, and the checks."""

    sheet: ModelSheet
    protocol: Protocol


@dataclass(frozen=True, slots=True)
class Folded:
    """Events, and where they lead; nowhere before the first one.

    Parameters
    ----------
    events
        In order, what was taken back included.
    stands
        Where the visit stands; None where there is no event.
    """

    events: tuple[Event, ...] = ()
    stands: Visit | None = None

    @classmethod
    def of(cls, wires: Sequence[Mapping[str, Any]], known: Known) -> "Folded":
        """Events as they are kept, without what is private."""
        events = tuple(event_from_wire(wire, known.sheet) for wire in wires)
        return cls(events, fold(events) if events else None)

    @property
    def visit(self) -> Visit:
        """Where the visit stands, where it has begun."""
        if self.stands is None:
            raise CannotComeError("the visit has no start yet")
        return self.stands

    @property
    def in_helmet(self) -> Build | None:
        """What is in the helmet, as far as the visit knows."""
        return self.stands.in_helmet if self.stands else None


def read_public(event: Mapping[str, Any], known: Known) -> Event:
    """An event as it is kept, without what is private.

    Raises
    ------
    CannotComeError
        Where it names what the sheet does not have.
    """
    try:
        return event_from_wire(whole(event), known.sheet)
    except WireError as error:
        raise CannotComeError(str(error)) from error


def went_on(before: Folded, event: Event, known: Known) -> Folded:
    """The visit after one more event.

    Raises
    ------
    CannotComeError
        Where it cannot come there.
    """
    try:
        return _folded(before, event, known)
    except OutOfTurnError as error:
        if isinstance(event, PutOn) and not event.reason:
            return went_on(before, replace(event, reason=UNSAID), known)
        raise CannotComeError(_told(error)) from error
    except ValueError as error:
        raise CannotComeError(_told(error)) from error


def _folded(before: Folded, event: Event, known: Known) -> Folded:
    events = (*before.events, event)
    visit = fold(events)
    refuse_impossible(visit, known.sheet, known.protocol.checks)
    return Folded(events, visit)


def _told(error: ValueError) -> str:
    said = _PLACE.sub("", str(error), count=1)
    return f"{said[:1].upper()}{said[1:]}."
