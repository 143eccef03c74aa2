"""Which observation does not go with the others."""

from collections.abc import Sequence
from dataclasses import dataclass

from scipy.special import ndtri

from helmwright.belief.mixture import Mixture
from helmwright.belief.observation import Observation

_SMALLEST = 1e-300


@dataclass(frozen=True, slots=True)
class Residual:
    """One observation against what the others lead one to expect.

    Parameters
    ----------
    observation
        The one left out.
    expected
        Its predicted mean, given the others.
    score
        How many standard deviations it lies away, on the normal scale; positive is too large.
    """

    observation: Observation
    expected: float
    score: float


def score(belief: Mixture, observation: Observation) -> float:
    """Standardized predictive residual of one observation under a belief.

    Notes
    -----
    The observation's place in its predictive distribution, put on the scale of the standard
    normal: for a single normal part this is `(y - mean) / sd`.
    """
    below, above = belief.tails(observation.weights, observation.value, observation.variance)
    if below < above:
        return float(ndtri(max(below, _SMALLEST)))
    return float(-ndtri(max(above, _SMALLEST)))


def leave_one_out(prior: Mixture, observations: Sequence[Observation]) -> tuple[Residual, ...]:
    """Residual of each observation given all the others, in their order."""
    residuals = []
    for place, left_out in enumerate(observations):
        belief = prior.given([*observations[:place], *observations[place + 1 :]])
        expected = sum(
            weight * part.predicted(left_out.weights)[0]
            for weight, part in zip(belief.weights, belief.parts, strict=True)
        )
        residuals.append(Residual(left_out, float(expected), score(belief, left_out)))
    return tuple(residuals)
