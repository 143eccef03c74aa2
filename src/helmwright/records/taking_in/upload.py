"""A file on its way in: what it is, and what was chosen with it."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from uuid import UUID

from helmwright.records.kinds.roles import FITTERS, MANAGER_ONLY
from helmwright.records.models.people import Role

MOST_BYTES = 1_500_000
"""Largest file; a roster of 500 players takes some 50 thousand."""

MOST_ROWS = 1_000
"""Rows of one file: so many are taken in at once, and the room waits for it."""

MOST_ENTRIES = 4_000
"""Most that one file says to the ledger: nobody else can write meanwhile, milliseconds each."""

ROLES: Mapping[str, frozenset[Role]] = {
    "roster": FITTERS,
    "helmets": MANAGER_ONLY,
    "stock": MANAGER_ONLY,
}
"""What may be taken in, and by whom."""


@dataclass(frozen=True, slots=True)
class Upload:
    """A file and the choices that belong to it.

    Parameters
    ----------
    take_in
        ID under which it is taken in, once.
    what
        "roster", "helmets" or "stock".
    file_name, data
        As the person chose it.
    team
        For a roster.
    store
        For stock, whose it is; for helmets, where those lie whose rows name none.
    sheet
        For stock, the model's digest.
    how
        For stock, "counted" or "received".
    answers
        To the rows that ask.
    """

    take_in: UUID
    what: str
    file_name: str
    data: bytes
    team: UUID | None = None
    store: UUID | None = None
    sheet: str = ""
    how: str = "counted"
    answers: Mapping[int, str] = field(default_factory=dict)

    @property
    def digest(self) -> str:
        """SHA-256 of the file."""
        return hashlib.sha256(self.data).hexdigest()
