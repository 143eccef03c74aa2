"""What every kind of entry has in common."""

import hashlib
import json
import math
import re
from collections.abc import Collection, Mapping
from datetime import UTC, datetime
from typing import Any, ClassVar
from uuid import UUID

from pydantic import BaseModel, ConfigDict, model_validator

from helmwright.records.kinds.roles import MANAGER_ONLY
from helmwright.records.models.people import Role

_HALF = re.compile("[\ud800-\udfff]")

FIRST_TIME, LAST_TIME = datetime(1970, 1, 1, tzinfo=UTC), datetime(2200, 1, 1, tzinfo=UTC)
"""What clocks of devices show, wrong ones included."""


def of_a_clock(at: datetime) -> datetime:
    """The time, where a clock may have shown it: others cannot be written in UTC."""
    if not FIRST_TIME <= at < LAST_TIME:
        raise ValueError("no clock shows this time; set the clock of the station")
    return at


class UnfitError(ValueError):
    """Nothing of the kind can be said anew; the message says what is wrong, and what is right."""


class Payload(BaseModel):
    """What one entry says.

    A kind of entry is a subclass: its name in the ledger, who may say it, and which of its fields
    are private, that is, kept where they can be erased.
    """

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)

    KIND: ClassVar[str]
    ROLES: ClassVar[frozenset[Role]] = MANAGER_ONLY
    PRIVATE: ClassVar[frozenset[str]] = frozenset()

    @model_validator(mode="before")
    @classmethod
    def _can_be_kept(cls, data: Any) -> Any:
        """What one database keeps and another does not is kept by none."""
        if not can_be_kept(data):
            raise ValueError(
                "there is a character that is no letter, or a number that is none;"
                " take out what cannot be seen"
            )
        return data

    def whose(self) -> UUID | None:
        """The player whose private fields these are; None where there is none."""
        person: UUID | None = getattr(self, "player", None)
        return person

    def refuse_unfit(self) -> None:
        """Refuse what has to be there when it is said, and may be erased later.

        Raises
        ------
        UnfitError
            Where it is not there.
        """

    def public_text(self) -> str:
        """Canonical JSON of what is not private."""
        return canonical(self.model_dump(mode="json", exclude=set(self.PRIVATE)))

    def private_text(self) -> str:
        """Canonical JSON of what is private; empty where nothing was said."""
        said = self.model_dump(mode="json", include=set(self.PRIVATE), exclude_defaults=True)
        return canonical(said) if said else ""


class PartialPayload(Payload):
    """What one entry says of something that is known: what is left out is not said, and stays.

    What is said empty is emptied; the two are told apart by what was named, here and in the ledger.
    """

    def public_text(self) -> str:
        """Canonical JSON of what was said and is not private."""
        said = self.model_dump(mode="json", exclude=set(self.PRIVATE), exclude_unset=True)
        return canonical(said)

    def private_text(self) -> str:
        """Canonical JSON of what was said and is private; empty where nothing was."""
        said = self.model_dump(mode="json", include=set(self.PRIVATE), exclude_unset=True)
        return canonical(said) if said else ""

    def said(self, among: Collection[str]) -> dict[str, Any]:
        """Those of the fields that were said."""
        return self.model_dump(include=self.model_fields_set & set(among))


def can_be_kept(value: Any) -> bool:
    """Whether every text and number in it can stand in every database.

    PostgreSQL takes no NUL and no half of a surrogate pair, and JSON no number that is none.
    """
    if isinstance(value, str):
        return "\x00" not in value and not _HALF.search(value)
    if isinstance(value, float):
        return math.isfinite(value)
    if isinstance(value, Mapping):
        return all(can_be_kept(part) for pair in value.items() for part in pair)
    return all(map(can_be_kept, value)) if isinstance(value, (list, tuple)) else True


def canonical(data: Mapping[str, Any]) -> str:
    """One text for one content: sorted names, no blanks, ASCII."""
    return json.dumps(
        data, sort_keys=True, separators=(",", ":"), ensure_ascii=True, allow_nan=False
    )


def salted_digest(salt: str, text: str) -> str:
    """SHA-256 of the salt, a line break and the text, in hexadecimal."""
    return hashlib.sha256(f"{salt}\n{text}".encode()).hexdigest()
