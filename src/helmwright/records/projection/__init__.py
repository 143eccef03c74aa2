"""Projections: what follows from each kind of entry, in the tables that pages and acts ask."""

from collections.abc import Callable, Mapping
from typing import Any

from helmwright.records.models import Entry
from helmwright.records.projection import people, speakers, things, visits, worn

Projector = Callable[[Entry, Any], None]
"""Applies an entry; SetAsideError where it can have no effect."""

PROJECTORS: Mapping[str, Projector] = {
    **people.PROJECTORS,
    **speakers.PROJECTORS,
    **things.PROJECTORS,
    **visits.PROJECTORS,
    **worn.PROJECTORS,
}
"""By the kind's name."""

__all__ = ["PROJECTORS", "Projector"]
