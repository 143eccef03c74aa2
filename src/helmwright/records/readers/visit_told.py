"""How a visit stands, as a role reads it: that it ended for a symptom is not for everybody."""

from helmwright.records.kinds.roles import SEE_BODY
from helmwright.records.kinds.visits import VisitBegun, VisitSaid, VisitTakenOver
from helmwright.records.visit_symptom import SYMPTOM

OF_VISITS = frozenset({VisitBegun.KIND, VisitSaid.KIND, VisitTakenOver.KIND})
"""Entries whose notes may tell how a visit of the player ended."""

NOT_TOLD = "What stands against it is for those who fit. Ask the manager or a fitter."
"""All notes of visits alike, so that none tells by being another."""


def reads_of_symptoms(role: str) -> bool:
    """Whether that role is told that a visit ended for a symptom; to others it was stopped."""
    return role in SEE_BODY


def note_told(kind: str, note: str, role: str) -> str:
    """Why an entry has no effect, as that role reads it."""
    return NOT_TOLD if note and kind in OF_VISITS and not reads_of_symptoms(role) else note


def state_told(state: str, role: str) -> str:
    """The state of a visit, as that role reads it."""
    return "stopped" if state == SYMPTOM and not reads_of_symptoms(role) else state
