"""Weighted draws: how many they are worth, how they are made equal, how far to weigh at once."""

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]

_HALVINGS = 40


def normalized(log_weights: Floats) -> Floats:
    """Weights that sum to 1 from their logarithms, shape `(n,)`."""
    weights = np.exp(log_weights - log_weights.max())
    return np.asarray(weights / weights.sum())


def effective_size(log_weights: Floats) -> float:
    """How many equally likely draws n weighted ones are worth.

    Notes
    -----
    (sum w)^2 / sum w^2: n for equal weights, 1 where one draw has all the weight.

    References
    ----------
    Kong, Liu and Wong 1994, J. Am. Stat. Assoc. 89:278, from memory.
    """
    return float(1.0 / (normalized(log_weights) ** 2).sum())


def resampled(log_weights: Floats, rng: np.random.Generator) -> Places:
    """Places of n draws, each as often as its weight asks, by systematic resampling.

    Notes
    -----
    One uniform number u; draw i is the first place where the cumulated weight exceeds (i + u) / n.
    A draw of weight w is taken floor(n w) or ceil(n w) times.

    References
    ----------
    Kitagawa 1996, J. Comput. Graph. Stat. 5:1, from memory.
    """
    count = log_weights.size
    steps = (np.arange(count) + rng.random()) / count
    cumulated = np.cumsum(normalized(log_weights))
    return np.minimum(np.searchsorted(cumulated, steps, side="right"), count - 1)


def next_step(log_likelihoods: Floats, most: float, least_size: float) -> float:
    """How much of a likelihood can be taken in at once.

    Parameters
    ----------
    log_likelihoods
        Of each of n equally likely draws, shape `(n,)`.
    most
        What is left of it to take in, up to 1.
    least_size
        The effective size that the draws must keep.

    Returns
    -------
    The largest power, up to `most`, that leaves an effective size of `least_size`, by bisection.
    """
    if effective_size(most * log_likelihoods) >= least_size:
        return most
    low, high = 0.0, most
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if effective_size(middle * log_likelihoods) >= least_size:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
