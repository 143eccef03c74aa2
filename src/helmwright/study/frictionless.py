"""The program as it would be if its contact knew no friction: a check of the study's own sanity."""

from collections.abc import Iterator
from contextlib import contextmanager

from helmwright.fit import unknowns
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

NEXT_TO_NONE = Figure(
    1e-3, "1", ASSUMED, spread=0.0, note="friction of a contact that knows none, as good as"
)


@contextmanager
def without_friction() -> Iterator[None]:
    """While this holds, everything that the program draws in this process slides freely."""
    before = unknowns.FRICTION, unknowns.FRICTION_LIMITS
    unknowns.FRICTION, unknowns.FRICTION_LIMITS = NEXT_TO_NONE, (0.0, NEXT_TO_NONE.value)
    try:
        yield
    finally:
        unknowns.FRICTION, unknowns.FRICTION_LIMITS = before
