"""What every kind of entry has in common."""

import hashlib
import json
from collections.abc import Mapping
from typing import Any, ClassVar
from uuid import UUID

from pydantic import BaseModel, ConfigDict

from helmwright.records.models.people import Role

MANAGER_ONLY = frozenset({Role.MANAGER})
FITTERS = frozenset({Role.MANAGER, Role.FITTER})
STOCK_HANDS = frozenset({Role.MANAGER, Role.FITTER, Role.STUDENT})


class Payload(BaseModel):
    """What one entry says.

    A kind of entry is a subclass: its name in the ledger, who may say it, and which of its fields
    are private, that is, kept where they can be erased.
    """

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)

    KIND: ClassVar[str]
    ROLES: ClassVar[frozenset[Role]] = MANAGER_ONLY
    PRIVATE: ClassVar[frozenset[str]] = frozenset()

    def whose(self) -> UUID | None:
        """The player whose private fields these are; None where there is none."""
        person: UUID | None = getattr(self, "player", None)
        return person

    def public_text(self) -> str:
        """Canonical JSON of what is not private."""
        return canonical(self.model_dump(mode="json", exclude=set(self.PRIVATE)))

    def private_text(self) -> str:
        """Canonical JSON of what is private; empty where nothing was said."""
        said = self.model_dump(mode="json", include=set(self.PRIVATE), exclude_defaults=True)
        return canonical(said) if said else ""


def canonical(data: Mapping[str, Any]) -> str:
    """One text for one content: sorted names, no blanks, ASCII."""
    return json.dumps(
        data, sort_keys=True, separators=(",", ":"), ensure_ascii=True, allow_nan=False
    )


def salted_digest(salt: str, text: str) -> str:
    """SHA-256 of the salt, a line break and the text, in hexadecimal."""
    return hashlib.sha256(f"{salt}\n{text}".encode()).hexdigest()
