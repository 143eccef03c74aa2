"""Visits of a player that are over: how each ended, when, and what they leave behind."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import Build
from helmwright.visit.event import ENDS, Accepted, PutOn, SymptomReported
from helmwright.visit.wire import NAMES, event_from_wire
from helmwright.visit.wire_fault import WireError

_END_NAMES = frozenset(NAMES[kind] for kind in ENDS)


@dataclass(frozen=True, slots=True)
class Earlier:
    """A visit that is over.

    Parameters
    ----------
    path
        Its file.
    end
        The name of the event that ended it.
    on
        The day on which it ended, as written: "2026-08-03"; empty where the file does not say.
    accepted
        The build that was accepted; None where none was, or the model sheet is another by now.
    has_put_on
        Whether any build was put on, so that what is in the helmet may be another since.
    """

    path: Path
    end: str
    on: str
    accepted: Build | None
    has_put_on: bool

    @property
    def for_symptom(self) -> bool:
        """Whether it ended for a symptom."""
        return self.end == NAMES[SymptomReported]


def earlier_of(path: Path, content: bytes, sheet: ModelSheet, digest: str) -> Earlier | None:
    """The visit that a file holds, where it is over.

    Parameters
    ----------
    path, content
        The file.
    sheet, digest
        The model sheet, and the digest of its content.

    Notes
    -----
    What counts is the last thing that happened: an end that was taken back is none.
    """
    lines = content.splitlines()
    last = object_of(lines[-1]) if lines else None
    name = last.get("event") if last is not None else None
    if last is None or not isinstance(name, str) or name not in _END_NAMES:
        return None
    first = object_of(lines[0]) or {}
    at = last.get("at")
    return Earlier(
        path,
        name,
        at[:10] if isinstance(at, str) else "",
        _accepted(last, sheet) if first.get("sheet") == digest else None,
        any((object_of(line) or {}).get("event") == NAMES[PutOn] for line in lines),
    )


def _accepted(last: dict[str, Any], sheet: ModelSheet) -> Build | None:
    fields = {key: value for key, value in last.items() if key not in ("line", "at")}
    try:
        event = event_from_wire(fields, sheet)
    except WireError:
        return None
    return event.build if isinstance(event, Accepted) else None


def open_symptom(visits: Sequence[Earlier]) -> Earlier | None:
    """The last visit that ended for a symptom, unless one was accepted since."""
    for visit in reversed(visits):
        if visit.end == NAMES[Accepted]:
            return None
        if visit.for_symptom:
            return visit
    return None


def left_in_helmet(visits: Sequence[Earlier]) -> Earlier | None:
    """The last visit in which a build was put on, where it was accepted: what is worn since."""
    for visit in reversed(visits):
        if visit.accepted is not None:
            return visit
        if visit.has_put_on:
            return None
    return None


def object_of(line: bytes) -> dict[str, Any] | None:
    """The JSON object of a line; None where it is none."""
    try:
        found = json.loads(line)
    except (ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) else None
