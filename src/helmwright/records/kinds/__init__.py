"""Kinds of entries: what may be said, by whom, and which part of it is private."""

from collections.abc import Mapping

from helmwright.records.kinds import people, speakers, things, visits
from helmwright.records.kinds.payload import Payload, canonical, salted_digest

KINDS: Mapping[str, type[Payload]] = {
    kind.KIND: kind
    for room in (people, speakers, things, visits)
    for kind in vars(room).values()
    if isinstance(kind, type) and issubclass(kind, Payload) and "KIND" in vars(kind)
}
"""Every kind by its name in the ledger."""

__all__ = [
    "KINDS",
    "Payload",
    "canonical",
    "people",
    "salted_digest",
    "speakers",
    "things",
    "visits",
]
