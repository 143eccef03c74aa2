"""One player, whole: a fixed number of queries."""

from dataclasses import dataclass
from datetime import date
from uuid import UUID

from django.db.models import Q

from helmwright.anatomy import HeadEstimate
from helmwright.records.models import (
    Acknowledgment,
    Consent,
    Entry,
    Guardian,
    Issue,
    Player,
    Private,
    Reading,
    Staff,
    Visit,
)
from helmwright.records.readers.head_facts import HeadFacts, head_facts
from helmwright.records.readers.people import is_minor
from helmwright.records.readers.roster import PlayerRow, player_rows

CHANGES = ("player added", "player changed", "retention held")


@dataclass(frozen=True, slots=True)
class PlayerRecord:
    """Everything that the records hold of a player.

    Parameters
    ----------
    row
        As the roster shows them.
    head, estimate
        What is believed of the head; no estimate where there can be none.
    issues, visits, acknowledgments
        Newest first.
    guardians, consents
        Of a minor.
    is_minor
        Whether the player may be under 18.
    changes
        Entries that changed the player's own fields, newest first, and who made each.
    """

    row: PlayerRow
    head: HeadFacts
    estimate: HeadEstimate | None
    issues: tuple[Issue, ...]
    visits: tuple[Visit, ...]
    acknowledgments: tuple[Acknowledgment, ...]
    guardians: tuple[Guardian, ...]
    consents: tuple[Consent, ...]
    is_minor: bool
    changes: tuple[tuple[Entry, Staff | None], ...]

    @property
    def player(self) -> Player:
        """The player's own row."""
        return self.row.player

    @property
    def has_consent(self) -> bool:
        """Whether an agreement to the fitting stands."""
        return any(one.about == "fitting" and not one.withdrawn_at for one in self.consents)


def player_record(player: UUID, *, today: date) -> PlayerRecord | None:
    """The record of one player; None where there is no such player."""
    rows = player_rows(today=today, who=Q(pk=player))
    if not rows:
        return None
    row = rows[0]
    readings = list(Reading.objects.filter(player=player).select_related("by").order_by("at", "id"))
    head, estimate = head_facts(row.player, readings, today)
    issues = Issue.objects.filter(player=player).select_related("helmet", "helmet__sheet", "season")
    visits = Visit.objects.filter(player=player).select_related(
        "store", "helmet", "station", "fitter", "sheet"
    )
    signed = Acknowledgment.objects.filter(player=player).select_related("by", "helmet")
    consents = Consent.objects.filter(player=player).select_related("guardian")
    return PlayerRecord(
        row=row,
        head=head,
        estimate=estimate,
        issues=tuple(issues.order_by("-since")),
        visits=tuple(visits.order_by("-began_at")),
        acknowledgments=tuple(signed.order_by("-at")),
        guardians=tuple(Guardian.objects.filter(player=player).order_by("name")),
        consents=tuple(consents.order_by("-given_at")),
        is_minor=is_minor(row.player, today),
        changes=_changes(player),
    )


def _changes(player: UUID) -> tuple[tuple[Entry, Staff | None], ...]:
    entries = list(
        Entry.objects.filter(
            seq__in=Private.objects.filter(person=player).values("entry"), kind__in=CHANGES
        ).order_by("-seq")
    )
    staff = Staff.objects.in_bulk({entry.actor for entry in entries if entry.actor})
    return tuple((entry, staff.get(entry.actor) if entry.actor else None) for entry in entries)
