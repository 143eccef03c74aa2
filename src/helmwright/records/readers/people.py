"""Whether a player is a minor, who agreed to the fitting, and what was erased of somebody."""

from dataclasses import dataclass
from datetime import date, datetime
from uuid import UUID

from django.db.models import QuerySet

from helmwright.records.head import Head
from helmwright.records.models import (
    Entry,
    Guardian,
    Issue,
    Outcome,
    Player,
    Reading,
    Visit,
)
from helmwright.records.readers.heads import age_of

OF_AGE = 18


def is_minor(player: Player, today: date) -> bool:
    """Whether the player may be under 18.

    By birth year until 18 full years have passed for whoever was born on its last day; else by a
    class that tells an age. Where neither is known, of age (assumed).
    """
    if player.birth_year is not None:
        return today.year - player.birth_year <= OF_AGE
    ages = age_of(player, today).interval
    return ages is not None and ages[0] < OF_AGE


def is_surely_minor(player: Player, today: date) -> bool:
    """Whether the player is under 18 on whichever day of the birth year they were born."""
    return player.birth_year is not None and today.year - player.birth_year < OF_AGE


@dataclass(frozen=True, slots=True)
class Receipt:
    """That somebody was erased: what went, what stays, and where the chain stood.

    Parameters
    ----------
    player
        The pseudonym that stays.
    at
        When, by the server's clock.
    head
        Of the chain: the entry of the erasure itself.
    private_parts
        Entries of which names, free text or signatures were erased.
    guardians
        Whose names and contacts were erased.
    readings, visits, issues
        What stays under the pseudonym.
    """

    player: UUID
    at: datetime
    head: Head
    private_parts: int
    guardians: int
    readings: int
    visits: int
    issues: int

    @property
    def text(self) -> str:
        """The receipt in plain text, as it is printed."""
        return "\n".join(
            (
                "RECEIPT OF AN ERASURE",
                "",
                f"Player:  {self.player} (a random number; it names nobody)",
                f"Erased:  {self.at:%Y-%m-%d %H:%M:%S} UTC",
                f"Ledger:  entry {self.head.seq}, {self.head.digest}",
                "",
                "Erased from the records of this room:",
                f"  entries without names, fields, words, signatures: {self.private_parts}",
                f"  guardians without their name, relation and contact: {self.guardians}",
                "",
                "Kept under the random number, so that helmets and fittings stay on record:",
                f"  readings of the head: {self.readings}",
                f"  fit visits, with what each was told of sex, age and size: {self.visits}",
                f"  helmets issued, with their dates: {self.issues}",
                "",
                "Backups, exports and paper made before this day still hold what was erased",
                "here. Destroy them, or erase again after one is restored.",
                "",
            )
        )


def erasure_receipt(player: Player) -> Receipt | None:
    """The receipt; None where the player was not erased. It is the same whenever it is asked for.

    Costs a look at every entry that has a private part.
    """
    erased = _about(player).filter(kind="person erased", outcome=Outcome.TAKEN).first()
    if erased is None:
        return None
    parts = _about(player).filter(seq__lt=erased.seq).exclude(private_digest="")
    return Receipt(
        player=player.id,
        at=erased.server_time,
        head=Head(erased.seq, erased.digest),
        private_parts=parts.count(),
        guardians=Guardian.objects.filter(player=player).count(),
        readings=Reading.objects.filter(player=player).count(),
        visits=Visit.objects.filter(player=player).count(),
        issues=Issue.objects.filter(player=player).count(),
    )


def _about(player: Player) -> QuerySet[Entry]:
    return Entry.objects.filter(payload__contains=f'"player":"{player.id}"')
