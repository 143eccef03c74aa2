"""What the room knows of its players, for a roster that is to be taken in."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from helmwright.records.kinds.people import PlayerFields


@dataclass(frozen=True, slots=True)
class ReadingHere:
    """A reading that is kept, and the day on which it was taken."""

    measure: str
    value_mm: float
    over: str
    beneath: str
    day: date


@dataclass(frozen=True, slots=True)
class PlayerHere:
    """A player of the team; one who left may be on the file again."""

    id: UUID
    fields: PlayerFields
    is_here: bool = True
    readings: Sequence[ReadingHere] = ()

    @property
    def called(self) -> str:
        """Name and number."""
        number = f" (no. {self.fields.number})" if self.fields.number else ""
        return f"{self.fields.name}{number}"
