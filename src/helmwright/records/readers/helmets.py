"""The helmets of the room, and whether each is good to issue."""

from collections.abc import Mapping
from datetime import date
from typing import NamedTuple
from uuid import UUID

from helmwright.catalogue import ModelSheet
from helmwright.records.facts import facts_of
from helmwright.records.good_to_issue import HelmetStanding, Verdict, good_to_issue
from helmwright.records.models import Helmet, Reservation, Sheet
from helmwright.records.readers.holders import Holding, holders_now
from helmwright.records.sheets import sheet_of


class HelmetRow(NamedTuple):
    """One helmet of the list.

    `holder` is None while nobody has it; `meant_for` is the visit that it is reserved for.
    """

    id: UUID
    code: str
    serial: str
    model: str
    is_invented: bool
    shell: int
    color: str
    store: UUID
    store_name: str
    verdict: Verdict
    holder: Holding | None
    meant_for: UUID | None
    is_retired: bool

    @property
    def can_be_issued_now(self) -> bool:
        """Whether it is good to issue, nobody has it and no fit visit is promised it."""
        good = self.verdict.standing is HelmetStanding.GOOD
        return good and self.holder is None and self.meant_for is None

    @property
    def stands(self) -> tuple[str, str]:
        """Mark and word of how it stands now; whoever has it comes before what it is good for."""
        if self.verdict.standing is HelmetStanding.GOOD:
            if self.holder is not None:
                return "fitted", f"issued to {self.holder.number or self.holder.name}"
            if self.meant_for is not None:
                return "visit", "in a fit visit"
        return self.verdict.mark, self.verdict.word


def helmets(*, day: date, search: str = "", retired: bool = False) -> list[HelmetRow]:
    """The list by codes; four queries, however many there are.

    Parameters
    ----------
    day
        On which they must be good to issue.
    search
        Part of a code, a serial number, a color, a model's or the holder's name, or the holder's
        jersey number; everything where left out.
    retired
        Whether those that were retired are listed, too.
    """
    rows = Helmet.objects.select_related("store").order_by("code")
    if not retired:
        rows = rows.filter(retired_on__isnull=True)
    sheets = {row.digest: (row, sheet_of(row)) for row in Sheet.objects.filter(is_current=True)}
    taken = _Taken(holders_now(), _reserved())
    listed = (_row(helmet, *sheets[helmet.sheet_id], taken, day) for helmet in rows)
    return [row for row in listed if _matches(row, search)]


def helmet_of_code(code: str) -> Helmet | None:
    """The helmet with a code as somebody typed or scanned it; None where there is none."""
    rows = Helmet.objects.select_related("sheet", "store")
    return rows.filter(code=code.strip().upper()).first()


def verdict_on(helmet: Helmet, day: date) -> Verdict:
    """What the records show of a helmet on a day."""
    return good_to_issue(facts_of(helmet, sheet_of(helmet.sheet)), day)


class _Taken(NamedTuple):
    """Holders and visits by the helmet that they have."""

    holders: Mapping[UUID, Holding]
    visits: Mapping[UUID, UUID]


def _reserved() -> dict[UUID, UUID]:
    held = Reservation.objects.filter(until__isnull=True, helmet__isnull=False)
    return {row.helmet_id: row.visit_id for row in held if row.helmet_id is not None}


def _row(helmet: Helmet, row: Sheet, sheet: ModelSheet, taken: _Taken, day: date) -> HelmetRow:
    return HelmetRow(
        id=helmet.id,
        code=helmet.code,
        serial=helmet.serial,
        model=row.model,
        is_invented=row.is_invented,
        shell=helmet.shell,
        color=helmet.color,
        store=helmet.store_id,
        store_name=helmet.store.name,
        verdict=good_to_issue(facts_of(helmet, sheet), day),
        holder=taken.holders.get(helmet.id),
        meant_for=taken.visits.get(helmet.id),
        is_retired=helmet.retired_on is not None,
    )


def _matches(row: HelmetRow, search: str) -> bool:
    wanted = search.strip().casefold()
    if not wanted:
        return True
    if row.holder is not None and row.holder.number.casefold() == wanted:
        return True
    name = row.holder.name if row.holder else ""
    texts = (row.code, row.serial, row.color, row.model, name)
    return any(wanted in text.casefold() for text in texts)
