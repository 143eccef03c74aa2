"""A mixture of normal beliefs over the same quantities."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np
import numpy.typing as npt
from scipy.optimize import brentq
from scipy.special import logsumexp, ndtr

from helmwright.belief.normal import Floats, Normal
from helmwright.belief.observation import Observation

_LEAST_SD = 1e-12
"""Stands in for a spread of zero, so that what is known exactly still has a place."""


@dataclass(frozen=True, eq=False)
class Mixture:
    """Several normal beliefs, one of which holds.

    Parameters
    ----------
    weights
        Probability of each part, shape `(k,)`; scaled to sum to 1.
    parts
        The normal beliefs, all over the same names.
    labels
        What each part stands for.
    """

    weights: Floats
    parts: tuple[Normal, ...]
    labels: tuple[str, ...]

    def __post_init__(self) -> None:
        """Check the parts and scale the weights."""
        weights = np.array(self.weights, dtype=np.float64)
        if not (len(self.parts) == len(self.labels) == weights.size > 0):
            raise ValueError("a mixture needs as many weights and labels as parts, and at least 1")
        if any(part.names != self.parts[0].names for part in self.parts):
            raise ValueError("the parts of a mixture must be over the same names in one order")
        if not (np.isfinite(weights).all() and weights.min() >= 0.0 and weights.sum() > 0.0):
            raise ValueError("weights must be 0 or more and not all 0")
        weights /= weights.sum()
        weights.setflags(write=False)
        object.__setattr__(self, "weights", weights)

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the quantities."""
        return self.parts[0].names

    @property
    def mean(self) -> Floats:
        """Overall means, shape `(d,)`."""
        return np.asarray(self.weights @ np.stack([part.mean for part in self.parts]))

    @property
    def covariance(self) -> Floats:
        """Overall covariances, shape `(d, d)`: within the parts and between them."""
        within = np.einsum("k,kij->ij", self.weights, [part.covariance for part in self.parts])
        off = np.stack([part.mean for part in self.parts]) - self.mean
        return np.asarray(within + np.einsum("k,ki,kj->ij", self.weights, off, off))

    def weight_of(self, label: str) -> float:
        """Probability of the part with that label; 0 where there is none."""
        return self.weight_where(lambda each: each == label)

    def weight_where(self, holds: Callable[[str], bool]) -> float:
        """Probability of all the parts whose label is of a kind."""
        pairs = zip(self.weights, self.labels, strict=True)
        return float(sum(weight for weight, label in pairs if holds(label)))

    def marginal(self, names: Sequence[str]) -> "Mixture":
        """Belief over some of the quantities."""
        parts = tuple(part.marginal(names) for part in self.parts)
        return Mixture(self.weights, parts, self.labels)

    def extended(
        self, name: str, weights: Mapping[str, float], *, offset: float, variance: float
    ) -> "Mixture":
        """Each part with one more quantity; see `Normal.extended`."""
        parts = tuple(
            part.extended(name, weights, offset=offset, variance=variance) for part in self.parts
        )
        return Mixture(self.weights, parts, self.labels)

    def given(self, observations: Sequence[Observation]) -> "Mixture":
        """Belief after linear observations: each part conditioned, weights moved by evidence.

        Notes
        -----
        Bayes over the parts: `w_k' = w_k p(y | k) / sum_j w_j p(y | j)`, worked in logarithms so
        that evidence far out in the tails cannot make all weights vanish.
        """
        evidence = np.array([part.log_evidence(observations) for part in self.parts])
        with np.errstate(divide="ignore"):
            log_weights = np.log(self.weights) + evidence
        weights = np.exp(log_weights - logsumexp(log_weights))
        return Mixture(weights, tuple(part.given(observations) for part in self.parts), self.labels)

    def tails(
        self, weights: Mapping[str, float], value: float, variance: float
    ) -> tuple[float, float]:
        """Chance that a noisy weighted sum falls below, and above, a value."""
        below = above = 0.0
        for weight, part in zip(self.weights, self.parts, strict=True):
            mean, spread = part.predicted(weights)
            standard = (value - mean) / max(sqrt(max(spread, 0.0) + variance), _LEAST_SD)
            below += float(weight * ndtr(standard))
            above += float(weight * ndtr(-standard))
        return below, above

    def quantile(self, name: str, level: float) -> float:
        """Value below which one quantity lies with the chance `level`, between 0 and 1."""
        if not 0.0 < level < 1.0:
            raise ValueError(f"level {level} must lie between 0 and 1")
        at = self.parts[0].index(name)
        means = np.array([part.mean[at] for part in self.parts])
        sds = np.array([max(part.sd[at], _LEAST_SD) for part in self.parts])
        low, high = float((means - 40.0 * sds).min()), float((means + 40.0 * sds).max())
        return float(brentq(lambda x: self.weights @ ndtr((x - means) / sds) - level, low, high))

    def interval(self, name: str, level: float) -> tuple[float, float]:
        """Central interval that holds one quantity with the chance `level`."""
        edge = 0.5 * (1.0 - level)
        return self.quantile(name, edge), self.quantile(name, 1.0 - edge)

    def draw(self, count: int, rng: np.random.Generator) -> Floats:
        """Draws, shape `(count, d)`."""
        return self.draw_by_part(count, rng)[0]

    def draw_by_part(
        self, count: int, rng: np.random.Generator
    ) -> tuple[Floats, npt.NDArray[np.intp]]:
        """Draws, shape `(count, d)`, and the part that each came from, shape `(count,)`."""
        part_of = self.draw_parts(count, rng)
        return self.placed(rng.standard_normal((count, len(self.names))), part_of), part_of

    def draw_parts(self, count: int, rng: np.random.Generator) -> npt.NDArray[np.intp]:
        """Draws of which part holds, shape `(count,)`."""
        return np.searchsorted(np.cumsum(self.weights)[:-1], rng.random(count), side="right")

    def placed(self, standard: Floats, part_of: npt.NDArray[np.intp]) -> Floats:
        """Standard normal numbers `(n, d)` turned into draws, each of its own part."""
        values = np.empty_like(standard)
        for place, part in enumerate(self.parts):
            mine = part_of == place
            values[mine] = part.placed(standard[mine])
        return values

    def completed(
        self, known: Floats, part_of: npt.NDArray[np.intp], rng: np.random.Generator
    ) -> Floats:
        """Draws of the quantities after the first k, given draws of these and their parts.

        Parameters
        ----------
        known
            Draws of the first k quantities, shape `(n, k)`.
        part_of
            The part that each came from, shape `(n,)`.

        Returns
        -------
        Shape `(n, d - k)`.
        """
        standard = rng.standard_normal((known.shape[0], len(self.names) - known.shape[1]))
        for place, part in enumerate(self.parts):
            mine = part_of == place
            standard[mine] = part.completed(known[mine], standard[mine])
        return standard
