"""Whether what is on the shelf lasts for those still to be fitted, and when the last one goes."""

from collections.abc import Sequence
from dataclasses import dataclass

from helmwright.planning.need import Floats, Share, interval, more_than, need_pmf
from helmwright.planning.wanted import Key

SHARE = 0.8
"""What an interval holds: eight cases in ten."""

Wish = tuple[int, float]
"""Pieces, and the chance that they are taken; (0, 0) where it is not known."""


@dataclass(frozen=True, slots=True)
class Outlook:
    """What is expected of one part.

    Parameters
    ----------
    key
        Its place and size.
    on_hand
        Pieces that are free; below 0 where more was taken than was ever counted.
    low, high
        Pieces that will be wanted, eight cases in ten [1].
    short
        Chance that there are too few [1].
    first, last
        After how many of the coming fittings the last piece is gone: in one case of ten by then
        already, and in nine of ten; None where that is after all of them.
    """

    key: Key
    on_hand: int
    low: int
    high: int
    short: float
    first: int | None
    last: int | None


def outlook(
    key: Key, on_hand: int, wishes: Sequence[Wish | None], shares: Sequence[Share]
) -> Outlook:
    """What is expected of a part.

    Parameters
    ----------
    key
        Its place and size.
    on_hand
        Pieces that are free.
    wishes
        Of each fitting to come, in order: pieces and chance where a build is proposed; None where
        nothing is known yet.
    shares
        What is believed of those.
    """
    pmf = _after(wishes, shares)
    low, high = interval(pmf, SHARE)
    ends = ((1.0 - SHARE) / 2.0, (1.0 + SHARE) / 2.0)
    first, last = (_gone_after(on_hand, wishes, shares, end) for end in ends)
    return Outlook(key, on_hand, low, high, more_than(pmf, on_hand), first, last)


def _gone_after(
    on_hand: int, wishes: Sequence[Wish | None], shares: Sequence[Share], level: float
) -> int | None:
    """The fewest fittings after which none is left with the given chance; found by halving."""

    def is_gone(fittings: int) -> bool:
        return more_than(_after(wishes[:fittings], shares), on_hand - 1) >= level

    low, high = 0, len(wishes)
    if not is_gone(high):
        return None
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if is_gone(middle) else (middle + 1, high)
    return low


def _after(wishes: Sequence[Wish | None], shares: Sequence[Share]) -> Floats:
    known = [wish for wish in wishes if wish is not None and wish[0]]
    return need_pmf(known, shares, sum(wish is None for wish in wishes))
