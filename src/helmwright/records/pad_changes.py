"""What moves on the shelf when pads of a helmet are changed."""

from collections.abc import Collection, Mapping
from typing import NamedTuple


class PadChange(NamedTuple):
    """One zone of a helmet: what comes out and what goes in, as on the bags."""

    zone: str
    out: str
    into: str


def changed_pads(
    now: Mapping[str, str], after: Mapping[str, str], zones: Collection[str]
) -> tuple[PadChange, ...]:
    """The pads that differ, in the order of the zones.

    Parameters
    ----------
    now, after
        Zone to label; what `after` leaves out stays.
    zones
        Those whose pads are parts.
    """
    return tuple(
        PadChange(zone, now[zone], after[zone])
        for zone in zones
        if zone in after and after[zone] != now[zone]
    )


def difference(counted: int, on_hand: int) -> int:
    """What a count moves: what was found beyond what was expected, or less."""
    return counted - on_hand


def free_slot(on_hand: int, taken: Collection[int]) -> int | None:
    """The lowest of the parts on hand that nobody has spoken for; None where none is left.

    Slots go from 1 up to the number on hand, so that a database can hold two from having one.
    """
    return next((slot for slot in range(1, on_hand + 1) if slot not in taken), None)
