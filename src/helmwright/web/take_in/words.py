"""What files did and would do, in the words of the pages."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from helmwright.records.readers.taking_in import Made
from helmwright.records.taking_in.plan import Plan, Verdict

WHAT: Mapping[str, str] = {"roster": "A roster", "helmets": "Helmets", "stock": "A stock list"}

_KINDS: Mapping[str, tuple[str, str]] = {
    "player added": ("player added", "players added"),
    "player changed": ("player changed", "players changed"),
    "reading taken": ("reading added", "readings added"),
    "helmet added": ("helmet added", "helmets added"),
    "helmet changed": ("helmet changed", "helmets changed"),
    "helmet moved": ("helmet moved to another store", "helmets moved to another store"),
    "parts counted": ("part counted", "parts counted"),
    "parts moved": ("part received", "parts received"),
}


def made_words(made: Sequence[Made]) -> list[str]:
    """How many of each kind."""
    order = list(_KINDS)
    ordered = sorted(made, key=lambda each: order.index(each.kind))
    return [_count(each.count, *_KINDS[each.kind]) for each in ordered]


def rows_words(count: int) -> str:
    """1 row, 2 rows."""
    return _count(count, "row", "rows")


@dataclass(frozen=True, slots=True)
class Sum:
    """How many rows come to one end."""

    mark: str
    words: str


def sums(plan: Plan) -> list[Sum]:
    """The plan in a line."""
    ends = (
        (Verdict.ADD, "yes", "would add something", "would add something"),
        (Verdict.CHANGE, "yes", "would change something", "would change something"),
        (Verdict.ASKS, "check", "needs an answer", "need an answer"),
        (Verdict.REFUSED, "no", "cannot be taken in", "cannot be taken in"),
        (Verdict.SAME, "unknown", "is the same as here", "are the same as here"),
        (Verdict.LEFT_OUT, "unknown", "is left out", "are left out"),
    )
    counted = ((len(plan.having(verdict)), mark, one, many) for verdict, mark, one, many in ends)
    return [
        Sum(mark, f"{rows_words(count)} {one if count == 1 else many}")
        for count, mark, one, many in counted
        if count
    ]


def _count(count: int, one: str, many: str) -> str:
    return f"{count:,} {one if count == 1 else many}"
