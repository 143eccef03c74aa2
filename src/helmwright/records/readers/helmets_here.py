"""The helmets of one model in one store, and whether each can be had."""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import NamedTuple
from uuid import UUID

from helmwright.records.facts import facts_of
from helmwright.records.good_to_issue import Verdict, good_to_issue
from helmwright.records.models import (
    Helmet,
    HelmetBuild,
    Issue,
    Reservation,
    Sheet,
    Visit,
)
from helmwright.records.pad_changes import PadChange, changed_pads
from helmwright.records.part_place import swapped_zones
from helmwright.records.sheets import sheet_of


class HelmetHere(NamedTuple):
    """A helmet of a store.

    `taken` says in words why it cannot be had although the records show nothing against it; empty
    where it can.
    """

    id: UUID
    code: str
    shell: int
    pads: Mapping[str, str]
    verdict: Verdict
    taken: str

    @property
    def is_free(self) -> bool:
        """Whether it can be reserved now."""
        return self.verdict.may_be_issued and not self.taken

    @property
    def why(self) -> str:
        """Why it cannot be had, or what is not known of it; empty where nothing is to be said."""
        return self.taken or self.verdict.why


def helmets_here(
    store: UUID, sheet: str, *, day: date, shell: int | None = None, visit: UUID | None = None
) -> list[HelmetHere]:
    """A store's helmets of a model that are in use, by their codes; six queries.

    Parameters
    ----------
    sheet
        Any version of the model's sheet.
    day
        On which they must be good to issue.
    shell
        Only of this size.
    visit
        The visit that asks: what is reserved for it, or held by its player, is not taken.
    """
    row = Sheet.objects.filter(model=Sheet.objects.get(pk=sheet).model).get(is_current=True)
    rows = Helmet.objects.filter(store=store, sheet=row, retired_on__isnull=True).order_by("code")
    helmets = list(rows if shell is None else rows.filter(shell=shell))
    pads, taken = pads_now(helmets), _taken(helmets, visit)
    return [
        HelmetHere(
            id=helmet.id,
            code=helmet.code,
            shell=helmet.shell,
            pads=pads[helmet.id],
            verdict=good_to_issue(facts_of(helmet, sheet_of(row)), day),
            taken=taken.get(helmet.id, ""),
        )
        for helmet in helmets
    ]


def changes_to(
    pads: Mapping[str, str], wanted: Mapping[str, str], sheet: Sheet
) -> tuple[PadChange, ...]:
    """What is to be changed in a helmet for a build."""
    return changed_pads(pads, wanted, swapped_zones(sheet_of(sheet)))


def pads_now(helmets: Iterable[Helmet]) -> dict[UUID, dict[str, str]]:
    """What is in each helmet."""
    builds = HelmetBuild.objects.filter(helmet__in=list(helmets), until__isnull=True)
    return dict(builds.values_list("helmet", "pads"))


def _taken(helmets: list[Helmet], visit: UUID | None) -> dict[UUID, str]:
    asks = Visit.objects.filter(pk=visit).values_list("player", flat=True) if visit else []
    own = list(asks)
    out = Issue.objects.filter(helmet__in=helmets, until__isnull=True).exclude(player__in=own)
    going_on = Visit.objects.filter(helmet__in=helmets, ended_at__isnull=True)
    going_on = going_on.exclude(player__in=own)
    held = Reservation.objects.filter(helmet__in=helmets, until__isnull=True)
    held = held.exclude(visit__player__in=own)
    why: dict[UUID, str] = {}
    for rows, words in (
        (held, "It is meant for another player."),
        (going_on, "It is in another visit."),
        (out, "It is issued to another player."),
    ):
        why |= dict.fromkeys(rows.values_list("helmet_id", flat=True), words)
    return why
