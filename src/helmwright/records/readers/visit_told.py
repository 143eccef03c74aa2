"""How a visit stands, as a role reads it: that it ended for a symptom is not for everybody."""

from helmwright.records.models import Role
from helmwright.records.visit_symptom import SYMPTOM

READ_OF_SYMPTOMS = frozenset({Role.MANAGER, Role.FITTER, Role.TRAINER})
"""Those who must not fit on, and those who are asked; to others such a visit was stopped."""


def reads_of_symptoms(role: str) -> bool:
    """Whether that role is told that a visit ended for a symptom."""
    return role in READ_OF_SYMPTOMS


def state_told(state: str, role: str) -> str:
    """The state of a visit, as that role reads it."""
    return "stopped" if state == SYMPTOM and not reads_of_symptoms(role) else state
