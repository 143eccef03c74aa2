"""Where a visit stands, in the few words and numbers that a board shows."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from helmwright.anatomy import spoken_name
from helmwright.catalogue import ModelSheet
from helmwright.visit import (
    Accepted,
    Event,
    NoBuild,
    Protocol,
    Stopped,
    SymptomReported,
    Visit,
)
from helmwright.visit.undo import standing
from helmwright.visit.wire_build import build_to_wire

OPEN, PAUSED = "open", "paused"
_ENDS: dict[type, str] = {
    Accepted: "accepted",
    NoBuild: "no build",
    Stopped: "stopped",
    SymptomReported: "symptom",
}


@dataclass(frozen=True, slots=True)
class Stand:
    """Where a visit stands.

    Parameters
    ----------
    state
        One of the states of a visit's row.
    waits_for
        What is asked now, or is asked when a pause ends, as a few words; empty where it is over.
    build
        Proposed, or on the head, as a visit writes it; None before the first proposal.
    found_right
        Stated chance of the last proposal.
    try_ons
        How many builds were on the head.
    """

    state: str
    waits_for: str
    build: dict[str, Any] | None
    found_right: float | None
    try_ons: int


def stand_of(visit: Visit, sheet: ModelSheet, protocol: Protocol) -> Stand:
    """Where a visit stands."""
    proposed = visit.proposal or (visit.try_ons[-1].proposed if visit.try_ons else None)
    build = visit.proposal.build if visit.proposal else visit.in_helmet
    return Stand(
        state=state_of(visit),
        waits_for=_waits_for(visit, protocol),
        build=None if build is None else build_to_wire(build, sheet),
        found_right=None if proposed is None else proposed.found_right,
        try_ons=len(visit.try_ons),
    )


def state_of(visit: Visit) -> str:
    """The state of a visit's row."""
    if visit.ended is not None:
        return _ENDS[type(visit.ended)]
    return PAUSED if visit.paused else OPEN


def standing_places(events: Sequence[Event], kind: type[Event]) -> frozenset[int]:
    """Places, from 0, of what was said of a kind and not taken back."""
    return frozenset(place - 1 for place, event in standing(events) if isinstance(event, kind))


def _waits_for(visit: Visit, protocol: Protocol) -> str:
    if visit.ended is not None:
        return ""
    if visit.measure is not None:
        return f"the {spoken_name(visit.measure.measure)}"
    if visit.proposal is not None:
        return "the proposed build"
    if visit.look is not None:
        return f"a second look: {protocol.check(visit.look.check).title}"
    return "the checks" if visit.now is not None else "a proposal"
