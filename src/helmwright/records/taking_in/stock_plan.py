"""A stock list against what a store holds: what each row would do."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from uuid import UUID

from helmwright.catalogue import ModelSheet
from helmwright.records.kinds.things import PartsCounted, PartsMoved
from helmwright.records.part_place import sizes_by_place
from helmwright.records.taking_in.plan import Line, Plan, Verdict, refused
from helmwright.roster import Remark, StockRow, StockRows
from helmwright.roster.stock_place import SHELL


class How(StrEnum):
    """What the numbers of a stock list mean."""

    COUNTED = "counted"
    RECEIVED = "received"


@dataclass(frozen=True, slots=True)
class StockTaking:
    """Everything that decides what a stock list does.

    Parameters
    ----------
    take_in
        Of the file.
    store
        Whose list it is.
    digest, sheet
        The model whose parts they are.
    counts
        How many the store holds of each (place, size) that it lists.
    how
        Whether somebody counted what is there, or so many came.
    """

    take_in: UUID
    store: UUID
    digest: str
    sheet: ModelSheet
    counts: Mapping[tuple[str, str], int]
    how: How


def plan_stock(found: StockRows, taking: StockTaking) -> Plan:
    """What each row would do; pure, and the same for the same file and store.

    Rows of the same part are added up, and the first of them does what all say.
    """
    rows: dict[tuple[str, str], list[StockRow]] = {}
    for row in found.rows:
        rows.setdefault((row.place, row.size), []).append(row)
    lines = [
        *(line for part, same in rows.items() for line in _lines(part, same, taking)),
        *(refused(problem.row, "", [problem]) for problem in found.problems),
    ]
    return Plan(tuple(sorted(lines, key=lambda line: line.row)))


def _lines(part: tuple[str, str], rows: Sequence[StockRow], taking: StockTaking) -> Iterator[Line]:
    first, *others = rows
    who = " ".join(part)
    yield _line(first.row, who, part, rows, taking)
    for row in others:
        words = f"added to row {first.row}, which has the same part"
        yield Line(row.row, who, Verdict.SAME, (words,))


def _line(
    row: int,
    who: str,
    part: tuple[str, str],
    rows: Sequence[StockRow],
    taking: StockTaking,
) -> Line:
    place, size = part
    if place == SHELL:
        words = "Shells are helmets, each with an ID: take in a list of helmets."
        return Line(row, who, Verdict.LEFT_OUT, (words,))
    sizes = sizes_by_place(taking.sheet).get(place, ())
    if size not in sizes:
        known = ", ".join(sizes) or "none"
        wrong = f"{taking.sheet.model} counts no {place} {size}"
        return refused(row, who, [Remark(row, "size", size, wrong, f"there are {known}")])
    written = [each.count for each in rows if each.count is not None]
    if not written:
        return Line(row, who, Verdict.LEFT_OUT, ("no count: it stays as it is",))
    here, count = taking.counts.get(part), sum(written)
    if taking.how is How.RECEIVED:
        return _received(row, who, part, count, here, taking)
    if count == here:
        return Line(row, who, Verdict.SAME)
    said = PartsCounted(
        store=taking.store,
        sheet=taking.digest,
        place=place,
        size=size,
        count=count,
        take_in=taking.take_in,
    )
    verdict = Verdict.ADD if here is None else Verdict.CHANGE
    listed = "not listed here" if here is None else f"{here} here"
    return Line(row, who, verdict, (f"{listed} → {count} counted",), (said,))


def _received(
    row: int,
    who: str,
    part: tuple[str, str],
    count: int,
    here: int | None,
    taking: StockTaking,
) -> Line:
    if count == 0:
        return Line(row, who, Verdict.SAME, ("none came",))
    said = PartsMoved(
        sheet=taking.digest,
        place=part[0],
        size=part[1],
        quantity=count,
        to_store=taking.store,
        why="received",
        take_in=taking.take_in,
    )
    verdict = Verdict.ADD if here is None else Verdict.CHANGE
    words = f"{count} came: {here or 0} here → {(here or 0) + count}"
    return Line(row, who, verdict, (words,), (said,))
