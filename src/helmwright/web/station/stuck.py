"""Entries at which the program failed: they stay at the station, and others go on."""

from dataclasses import dataclass, field
from typing import Any

FAILED = "The program failed at it, which is a defect of the program."
WAITS = "It is about the same as one before it that the program could not keep."
RIGHT = (
    "Tell the manager: the last lines in the window where the room was started say what it was. It"
    " stays on this device and is sent again by itself."
)
SUBJECTS = ("visit", "player", "helmet", "reservation")
"""Fields by which one entry is about the same as another, so that order counts between them."""


@dataclass(slots=True)
class Stuck:
    """Those of one batch, as they are told, and what they are about."""

    told: list[dict[str, Any]] = field(default_factory=list)
    _about: set[str] = field(default_factory=set)

    def add(self, raw: Any, what: str = FAILED) -> None:
        """It waits, and so does what comes after it about the same."""
        self.told.append({"id": named_id(raw), "what": what, "right": RIGHT})
        self._about |= _subjects(raw)

    def holds_up(self, raw: Any) -> bool:
        """Whether it is about the same as one that waits; then it waits too."""
        if self._about.isdisjoint(_subjects(raw)):
            return False
        self.add(raw, WAITS)
        return True


def named_id(raw: Any) -> str | None:
    """The ID that an entry names, where it names one."""
    named = raw.get("id") if isinstance(raw, dict) else None
    return named if isinstance(named, str) else None


def _subjects(raw: Any) -> set[str]:
    """Itself, what it corrects, and whatever it is about."""
    if not isinstance(raw, dict):
        return set()
    payload = raw.get("payload")
    payload = payload if isinstance(payload, dict) else {}
    named = [raw.get("id"), raw.get("corrects"), *(payload.get(name) for name in SUBJECTS)]
    return {each for each in named if isinstance(each, str)}
