"""How a visit stands, as a role reads it: that it ended for a symptom is not for everybody."""

from helmwright.records.kinds.visits import VisitBegun, VisitSaid, VisitTakenOver
from helmwright.records.models import Role
from helmwright.records.visit_symptom import SYMPTOM

READ_OF_SYMPTOMS = frozenset({Role.MANAGER, Role.FITTER, Role.TRAINER})
"""Those who must not fit on, and those who are asked; to others such a visit was stopped."""


OF_VISITS = frozenset({VisitBegun.KIND, VisitSaid.KIND, VisitTakenOver.KIND})
"""Entries whose notes may tell how a visit of the player ended."""

NOT_TOLD = "What stands against it is for those who fit. Ask the manager or a fitter."
"""All notes of visits alike, so that none tells by being another."""


def reads_of_symptoms(role: str) -> bool:
    """Whether that role is told that a visit ended for a symptom."""
    return role in READ_OF_SYMPTOMS


def note_told(kind: str, note: str, role: str) -> str:
    """Why an entry has no effect, as that role reads it."""
    return NOT_TOLD if note and kind in OF_VISITS and not reads_of_symptoms(role) else note


def state_told(state: str, role: str) -> str:
    """The state of a visit, as that role reads it."""
    return "stopped" if state == SYMPTOM and not reads_of_symptoms(role) else state
