"""The receipt for an erasure, from the ledger alone."""

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from helmwright.records.models import Entry, Outcome

GROUP = 8
"""Letters of a digest between two blanks, as it is printed."""


@dataclass(frozen=True, slots=True)
class Erasure:
    """What was erased of whom, when.

    Parameters
    ----------
    player
        The random ID that stays in the ledger.
    at
        When.
    seq, digest
        The entry that did it, and the chain's head with it.
    """

    player: UUID
    at: datetime
    seq: int
    digest: str

    @property
    def printed_digest(self) -> str:
        """The digest in groups, for eyes."""
        return " ".join(self.digest[at : at + GROUP] for at in range(0, len(self.digest), GROUP))


def erasure_of(player: UUID) -> Erasure | None:
    """The erasure of a player; None where nothing was erased."""
    entry = (
        Entry.objects.filter(
            kind="person erased", outcome=Outcome.TAKEN, payload__contains=str(player)
        )
        .order_by("-seq")
        .first()
    )
    if entry is None:
        return None
    return Erasure(player, entry.server_time, entry.seq, entry.digest)
