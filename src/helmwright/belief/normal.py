"""A multivariate normal belief over named quantities."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.linalg import cho_factor, cho_solve

from helmwright.belief.observation import Observation

Floats = npt.NDArray[np.float64]

_ROUNDING = 1e-9


class UnknownNameError(KeyError):
    """A quantity was asked for that this belief does not hold."""

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True, eq=False)
class Normal:
    """A multivariate normal distribution whose dimensions have names.

    Parameters
    ----------
    names
        One name for each of the d dimensions.
    mean
        Means, shape `(d,)`.
    covariance
        Covariances, shape `(d, d)`, symmetric and positive semi-definite.

    Raises
    ------
    ValueError
        If shapes disagree, a name occurs twice, or the covariance is no covariance.
    """

    names: tuple[str, ...]
    mean: Floats
    covariance: Floats

    def __post_init__(self) -> None:
        """Check and freeze the arrays."""
        mean = np.array(self.mean, dtype=np.float64)
        covariance = np.array(self.covariance, dtype=np.float64)
        _check(self.names, mean, covariance)
        covariance = 0.5 * (covariance + covariance.T)
        for key, array in (("mean", mean), ("covariance", covariance)):
            array.setflags(write=False)
            object.__setattr__(self, key, array)

    @property
    def sd(self) -> Floats:
        """Standard deviations, shape `(d,)`."""
        return np.sqrt(np.diag(self.covariance))

    def index(self, name: str) -> int:
        """Place of a quantity in the vector."""
        try:
            return self.names.index(name)
        except ValueError:
            raise UnknownNameError(
                f"no quantity named {name!r} here; there are {', '.join(self.names)}"
            ) from None

    def marginal(self, names: Sequence[str]) -> "Normal":
        """Belief over some of the quantities, in the order asked for."""
        places = [self.index(name) for name in names]
        return Normal(tuple(names), self.mean[places], self.covariance[np.ix_(places, places)])

    def extended(
        self, name: str, weights: Mapping[str, float], *, offset: float, variance: float
    ) -> "Normal":
        """Belief that also holds a new quantity: a weighted sum, an offset and fresh noise.

        Notes
        -----
        The new quantity is `w.x + offset + e`, with `e` normal with mean 0 and the given variance,
        independent of all else. No weights makes a quantity that stands alone.
        """
        row = self._row(weights)
        cross = self.covariance @ row
        covariance = np.block(
            [
                [self.covariance, cross[:, None]],
                [cross[None, :], np.array([[row @ cross + variance]])],
            ]
        )
        mean = np.append(self.mean, row @ self.mean + offset)
        return Normal((*self.names, name), mean, covariance)

    def given(self, observations: Sequence[Observation]) -> "Normal":
        """Belief after linear observations with independent errors.

        Notes
        -----
        With observation matrix H, error variances R and values y:
        `S = H C H' + R`, `K = C H' S^-1`, mean `m + K (y - H m)`, and the covariance in Joseph's
        form `(I - K H) C (I - K H)' + K R K'`, which stays positive semi-definite under rounding.
        Where values are themselves in doubt, with variances D, the belief is averaged over them
        (Jeffrey's rule for uncertain evidence): the mean stays and `K D K'` is added.

        References
        ----------
        Bucy and Joseph 1968, Filtering for Stochastic Processes with Applications to Guidance.
        Jeffrey 1965, The Logic of Decision, from memory.
        """
        if not observations:
            return self
        H, R, residual = self._system(observations)
        factor = cho_factor(H @ self.covariance @ H.T + R, lower=True)
        K = cho_solve(factor, H @ self.covariance).T
        D = np.diag([each.doubt for each in observations])
        keep = np.eye(len(self.names)) - K @ H
        covariance = keep @ self.covariance @ keep.T + K @ (R + D) @ K.T
        return Normal(self.names, self.mean + K @ residual, covariance)

    def log_evidence(self, observations: Sequence[Observation]) -> float:
        """Logarithm of the probability density of the observed values, doubt left aside."""
        if not observations:
            return 0.0
        H, R, residual = self._system(observations)
        factor = cho_factor(H @ self.covariance @ H.T + R, lower=True)
        log_det = 2.0 * float(np.log(np.diag(factor[0])).sum())
        misfit = float(residual @ cho_solve(factor, residual))
        return -0.5 * (misfit + log_det + residual.size * float(np.log(2.0 * np.pi)))

    def predicted(self, weights: Mapping[str, float]) -> tuple[float, float]:
        """Mean and variance of a weighted sum of the quantities."""
        row = self._row(weights)
        return float(row @ self.mean), float(row @ self.covariance @ row)

    def placed(self, standard: Floats) -> Floats:
        """Standard normal numbers `(n, d)` turned into draws `(n, d)` of this belief.

        Notes
        -----
        Uses the symmetric square root of the covariance: it exists for every covariance, singular
        ones too, and it moves smoothly with it, so that the same numbers give nearby draws of
        nearby beliefs.
        """
        values, vectors = np.linalg.eigh(self.covariance)
        root = (vectors * np.sqrt(np.clip(values, 0.0, None))) @ vectors.T
        return np.asarray(self.mean + standard @ root, dtype=np.float64)

    def completed(self, known: Floats, standard: Floats) -> Floats:
        """Draws of the quantities after the first k, given draws of these.

        Parameters
        ----------
        known
            Draws of the first k quantities, shape `(n, k)`.
        standard
            Standard normal numbers, shape `(n, d - k)`.

        Notes
        -----
        With x the first k and y the rest: `y = m_y + B (x - m_x) + e`, `B = C_yx C_xx^+`, and e
        normal with the covariance `C_yy - B C_xy`.
        """
        k, mean, C = known.shape[1], self.mean, self.covariance
        B = np.linalg.lstsq(C[:k, :k], C[:k, k:], rcond=None)[0].T
        left = Normal(self.names[k:], mean[k:], _no_less_than_none(C[k:, k:] - B @ C[:k, k:]))
        return np.asarray(left.placed(standard) + (known - mean[:k]) @ B.T)

    def draw(self, count: int, rng: np.random.Generator) -> Floats:
        """Draws, shape `(count, d)`."""
        return self.placed(rng.standard_normal((count, len(self.names))))

    def _row(self, weights: Mapping[str, float]) -> Floats:
        row = np.zeros(len(self.names))
        for name, weight in weights.items():
            row[self.index(name)] = weight
        return row

    def _system(self, observations: Sequence[Observation]) -> tuple[Floats, Floats, Floats]:
        H = np.stack([self._row(each.weights) for each in observations])
        R = np.diag([each.variance for each in observations])
        return H, R, np.array([each.value for each in observations]) - H @ self.mean


def _no_less_than_none(covariance: Floats) -> Floats:
    """A covariance that rounding may have taken a trifle below zero, brought back."""
    values, vectors = np.linalg.eigh(0.5 * (covariance + covariance.T))
    return np.asarray((vectors * np.clip(values, 0.0, None)) @ vectors.T)


def _check(names: tuple[str, ...], mean: Floats, covariance: Floats) -> None:
    size = len(names)
    if len(set(names)) != size:
        raise ValueError(f"names must differ: {', '.join(names)}")
    if mean.shape != (size,) or covariance.shape != (size, size):
        raise ValueError(
            f"{size} names need means of shape ({size},) and covariances of ({size}, {size}); "
            f"got {mean.shape} and {covariance.shape}"
        )
    if not (np.isfinite(mean).all() and np.isfinite(covariance).all()):
        raise ValueError("means and covariances must be finite")
    largest = float(np.abs(covariance).max(initial=0.0))
    if not np.allclose(covariance, covariance.T, rtol=0.0, atol=_ROUNDING * largest):
        raise ValueError("a covariance must be symmetric")
    if size and np.linalg.eigvalsh(covariance).min() < -_ROUNDING * largest:
        raise ValueError("a covariance must be positive semi-definite")
