"""One belief that stands for several that do not agree."""

from collections.abc import Sequence

import numpy as np

from helmwright.belief.normal import Normal


def blended(beliefs: Sequence[Normal], weights: Sequence[float] | None = None) -> Normal:
    """The normal with the mean and covariance of a mixture of beliefs.

    Parameters
    ----------
    beliefs
        At least one, all over the same names; the order of the first is kept.
    weights
        What each counts, none below 0; all alike where not given.

    Returns
    -------
    Normal

    Raises
    ------
    ValueError
        If there are none, their names differ, or the weights are none.

    Notes
    -----
    With weights w_i that sum to 1, means m_i and covariances C_i: m = sum(w_i m_i),
    C = sum(w_i C_i) + sum(w_i (m_i - m)(m_i - m)'). What the beliefs differ by widens the blend.
    """
    if not beliefs:
        raise ValueError("a blend needs at least one belief")
    names = beliefs[0].names
    if any(set(belief.names) != set(names) for belief in beliefs):
        raise ValueError("a blend needs beliefs over the same names")
    shares = np.ones(len(beliefs)) if weights is None else np.array(weights, dtype=np.float64)
    if shares.shape != (len(beliefs),) or shares.min() < 0.0 or not shares.sum() > 0.0:
        raise ValueError("a blend needs a weight of 0 or more for each belief, not all 0")
    shares /= shares.sum()
    same = [belief.marginal(names) for belief in beliefs]
    means = np.array([belief.mean for belief in same])
    mean = shares @ means
    apart = means - mean
    within = np.einsum("k,kij->ij", shares, [belief.covariance for belief in same])
    return Normal(names, mean, within + (apart.T * shares) @ apart)
