"""Moves of draws that keep what they are drawn from: long where little is known, fitted elsewhere.

A draw is a row z of standard normal numbers. A few directions, the orthonormal columns of Q, are
those that findings tell something of. Along them, u = Q'z, the draws themselves say how what is
believed lies: mean m and covariance S. A proposal is

    u* = m + sqrt(1 - b^2) (u - m) + b S^(1/2) e          along them
    w* = sqrt(1 - b^2) w + b e'                           across them, w = z - Q u

It is reversible for the reference q(z) = N(u; m, S) N(w; 0, 1), so that it is accepted with the
ratio of target over q, whatever m, S and b: the target stays as it is. With no directions at all
it is the preconditioned Crank-Nicolson step.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Step:
    """One kind of move.

    Parameters
    ----------
    basis
        Q, shape `(c, k)`.
    mean, root
        m, shape `(k,)`, and the lower Cholesky root of S, shape `(k, k)`.
    size
        b, above 0 and up to 1: 1 forgets where a draw was.

    References
    ----------
    Cotter, Roberts, Stuart and White 2013, Stat. Sci. 28:424; Cui, Law and Marzouk 2016,
    J. Comput. Phys. 304:109. Both from memory.
    """

    basis: Floats
    mean: Floats
    root: Floats
    size: float

    def __post_init__(self) -> None:
        """Refuse a step that goes nowhere or too far."""
        if not 0.0 < self.size <= 1.0:
            raise ValueError(f"a step's size must be above 0 and at most 1, got {self.size}")

    @classmethod
    def fitted(cls, standard: Floats, basis: Floats, size: float) -> "Step":
        """A step fitted to draws, shape `(n, c)`.

        Notes
        -----
        The covariance of few draws is drawn toward 1 by k / (n + k), so that it has a root.
        """
        along = _times(standard, basis)
        count, places = along.shape
        mean = along.mean(axis=0)
        off = along - mean
        share = places / (count + places)
        covariance = (1.0 - share) * _times(off.T, off) / count + share * np.eye(places)
        return cls(basis, mean, np.linalg.cholesky(covariance), size)

    def proposed(self, standard: Floats, rng: np.random.Generator) -> Floats:
        """Where each draw would go, shape `(n, c)`."""
        kept = np.sqrt(1.0 - self.size**2)
        fresh = rng.standard_normal(standard.shape)
        mixed = kept * standard + self.size * fresh
        along, fresh_along = _times(standard, self.basis), _times(fresh, self.basis)
        moved = (
            self.mean + kept * (along - self.mean) + self.size * _times(fresh_along, self.root.T)
        )
        plain = kept * along + self.size * fresh_along
        return np.asarray(mixed + _times(moved - plain, self.basis.T))

    def log_odds(self, standard: Floats) -> Floats:
        """Logarithm of prior over reference, but for a constant, shape `(n,)`."""
        along = _times(standard, self.basis)
        off = _times(along - self.mean, np.asarray(np.linalg.inv(self.root).T))
        return np.asarray(0.5 * (off**2).sum(axis=1) - 0.5 * (along**2).sum(axis=1))


def telling_directions(standard: Floats, seen: Floats, least: float) -> Floats:
    """Directions along which draws move what is seen of them.

    Parameters
    ----------
    standard
        Draws, shape `(n, c)`.
    seen
        What is seen of each, in units of the error with which it is seen, shape `(n, m)`.
    least
        How far, in those units, one standard deviation along a direction must move it.

    Returns
    -------
    Orthonormal columns, shape `(c, k)`: left singular vectors of the slopes of a linear fit.

    Notes
    -----
    The slopes are drawn toward none as if by c further draws that moved nothing.
    """
    off, shown = standard - standard.mean(axis=0), seen - seen.mean(axis=0)
    width = standard.shape[1]
    slopes = np.linalg.solve(_times(off.T, off) + width * np.eye(width), _times(off.T, shown))
    vectors, values, _ = np.linalg.svd(slopes, full_matrices=False)
    return np.asarray(vectors[:, values > least])


def _times(left: Floats, right: Floats) -> Floats:
    """Their product, on this thread alone.

    A linear algebra library that wakes further threads for products of this size loses more time
    than it saves, most of all where every core is playing a visit of its own.
    """
    return np.asarray(np.einsum("ij,jk->ik", left, right))
