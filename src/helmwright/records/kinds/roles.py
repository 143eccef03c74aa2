"""Roles that go together: who may say and see what is said in these words everywhere."""

from helmwright.records.models.people import Role

EVERYONE = frozenset(Role)
MANAGER_ONLY = frozenset({Role.MANAGER})
FITTERS = frozenset({Role.MANAGER, Role.FITTER})
HANDS = frozenset({Role.MANAGER, Role.FITTER, Role.STUDENT})
"""Whoever moves helmets and parts."""

SEE_BODY = frozenset({Role.MANAGER, Role.FITTER, Role.TRAINER})
"""Who sees body, age, guardians, consent, signatures and symptoms: those whose work needs it."""
