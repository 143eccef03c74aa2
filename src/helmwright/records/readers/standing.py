"""Where a player stands, from unmeasured to issued."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple


class Standing(NamedTuple):
    """A word, and the mark that goes with it."""

    word: str
    mark: str


UNMEASURED = Standing("unmeasured", "unknown")
MEASURED = Standing("measured", "unknown")
PROPOSED = Standing("proposed", "proposed")
IN_VISIT = Standing("in visit", "visit")
PAUSED = Standing("paused", "kept")
FITTED = Standing("fitted, not signed", "fitted")
ISSUED = Standing("issued", "yes")
REFIT_DUE = Standing("refit due", "check")
NO_BUILD = Standing("no build", "no")

STANDINGS = (
    UNMEASURED, MEASURED, PROPOSED, IN_VISIT, PAUSED, FITTED, ISSUED, REFIT_DUE, NO_BUILD,
)  # fmt: skip
"""In the order of a fitting day."""


@dataclass(frozen=True, slots=True)
class VisitFact:
    """What a visit says about where its player stands."""

    state: str
    began_at: datetime
    is_proposed: bool
    is_tried: bool


def standing(
    *,
    is_measured: bool,
    visits: Sequence[VisitFact],
    issued_at: datetime | None,
    is_held: bool,
    refit_why: Sequence[str] = (),
) -> Standing:
    """Where a player stands.

    Parameters
    ----------
    is_measured
        Whether a reading of the head stands.
    visits
        In the order in which they began.
    issued_at
        When a helmet was issued last, whether or not it is back; None for never.
    is_held
        Whether the player has a helmet now.
    refit_why
        Why the one that is held should be fitted again.
    """
    last = visits[-1] if visits else None
    if last is not None and (issued_at is None or last.began_at > issued_at):
        found = _by_visit(last)
        if found is not None:
            return found
    if is_held:
        return REFIT_DUE if refit_why else ISSUED
    return MEASURED if is_measured else UNMEASURED


def _by_visit(last: VisitFact) -> Standing | None:
    """What the last visit says; one that was stopped says nothing."""
    if last.state == "open" and last.is_proposed and not last.is_tried:
        return PROPOSED
    known = {"open": IN_VISIT, "paused": PAUSED, "accepted": FITTED, "no build": NO_BUILD}
    return known.get(last.state)
