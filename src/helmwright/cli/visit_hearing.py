"""Whether what somebody types where something else was asked may be meant as a symptom."""

import re
from collections.abc import Iterable

from helmwright.visit.check_list import Symptom

ALIKE = 4
"""As many first letters alike make two words sound alike, where nothing says how one is heard."""

_APART = re.compile(r"[^\w'-]+")


def sounds_like_symptom(typed: str, symptoms: Iterable[Symptom]) -> bool:
    """Whether what was typed may be meant as a symptom.

    Notes
    -----
    It is asked, never taken as said: rather one question too many than a symptom passed over.
    """
    said = _APART.sub(" ", typed.lower().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")).strip()
    return bool(said) and any(_is_heard(said, each) for each in symptoms)


def _is_heard(said: str, symptom: Symptom) -> bool:
    if symptom.word.lower() in said:
        return True
    if not symptom.heard_as:
        return bool(_openings(said) & _openings(symptom.word.lower()))
    return any(f" {heard}" in f" {said}" for heard in symptom.heard_as)


def _openings(text: str) -> set[str]:
    return {word[:ALIKE] for word in text.split() if len(word) >= ALIKE}
