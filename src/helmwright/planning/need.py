"""How many pieces of a part a number of fittings will want."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.special import betaln, gammaln

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Share:
    """What is believed of the share of fittings that take so many pieces of a part.

    Parameters
    ----------
    pieces
        How many such a fitting takes; at least 1.
    wins, misses
        Parameters of a Beta belief: fittings that took it and fittings that did not, those of the
        belief before any was seen included; above 0.
    """

    pieces: int
    wins: float
    misses: float

    def __post_init__(self) -> None:
        if self.pieces < 1:
            raise ValueError(f"pieces {self.pieces} must be 1 or more")
        if self.wins <= 0 or self.misses <= 0:
            raise ValueError(f"wins {self.wins:g} and misses {self.misses:g} must be above 0")

    @property
    def mean(self) -> float:
        """The share that is expected [1]."""
        return self.wins / (self.wins + self.misses)


def need_pmf(known: Sequence[tuple[int, float]], shares: Sequence[Share], fittings: int) -> Floats:
    """Chances of every number of pieces that will be wanted.

    Parameters
    ----------
    known
        Of each fitting whose build is proposed already: pieces, and the chance that it takes them.
    shares
        For the fittings of which nothing is known yet.
    fittings
        How many those are.

    Returns
    -------
    Floats
        Chance of 0, 1, 2, ... pieces [1]; shape (most + 1,).

    Notes
    -----
    The known ones are independent (a Poisson-binomial sum); the others have one share in common
    that is itself not known, so that their number is beta-binomial, wider than a binomial one.
    Shares of one piece and of two are taken as independent. What fittings give back to the shelf
    is not counted on.
    """
    pmf = np.ones(1)
    for pieces, chance in known:
        pmf = np.convolve(pmf, _spread(np.array([1.0 - chance, chance]), pieces))
    for share in shares:
        pmf = np.convolve(pmf, _spread(beta_binomial(fittings, share), share.pieces))
    return pmf


def beta_binomial(fittings: int, share: Share) -> Floats:
    """Chances of 0 to `fittings` of them, where the share is known only as a Beta belief [1]."""
    k = np.arange(fittings + 1)
    ways = gammaln(fittings + 1) - gammaln(k + 1) - gammaln(fittings - k + 1)
    logs = ways + betaln(k + share.wins, fittings - k + share.misses)
    chances = np.exp(logs - betaln(share.wins, share.misses))
    whole: Floats = chances / chances.sum()
    return whole


def more_than(pmf: Floats, count: int) -> float:
    """Chance that more than `count` are wanted [1]."""
    return float(min(1.0, pmf[max(count + 1, 0) :].sum()))


def interval(pmf: Floats, share: float = 0.8) -> tuple[int, int]:
    """The numbers between which the need lies with the given share, as much left out at each end.

    Returns
    -------
    tuple[int, int]
        The (1 - share) / 2 and (1 + share) / 2 quantiles.
    """
    cumulative = np.cumsum(pmf)
    ends = ((1.0 - share) / 2.0, (1.0 + share) / 2.0)
    low, high = (int(np.searchsorted(cumulative, end - 1e-12)) for end in ends)
    return low, min(high, len(pmf) - 1)


def _spread(pmf: Floats, pieces: int) -> Floats:
    """Chances of numbers of pieces, from those of numbers of fittings."""
    spread = np.zeros((len(pmf) - 1) * pieces + 1)
    spread[::pieces] = pmf
    return spread
