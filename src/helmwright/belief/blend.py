"""One belief that stands for several that do not agree."""

from collections.abc import Sequence

import numpy as np

from helmwright.belief.normal import Normal


def blended(beliefs: Sequence[Normal]) -> Normal:
    """The normal with the mean and covariance of an equal mixture of beliefs.

    Parameters
    ----------
    beliefs
        At least one, all over the same names; the order of the first is kept.

    Returns
    -------
    Normal

    Raises
    ------
    ValueError
        If there are none, or their names differ.

    Notes
    -----
    With means m_i and covariances C_i: m = mean(m_i),
    C = mean(C_i) + mean((m_i - m)(m_i - m)'). What the beliefs differ by widens the blend.
    """
    if not beliefs:
        raise ValueError("a blend needs at least one belief")
    names = beliefs[0].names
    if any(set(belief.names) != set(names) for belief in beliefs):
        raise ValueError("a blend needs beliefs over the same names")
    same = [belief.marginal(names) for belief in beliefs]
    means = np.array([belief.mean for belief in same])
    mean = means.mean(axis=0)
    apart = means - mean
    within = np.mean([belief.covariance for belief in same], axis=0)
    return Normal(names, mean, within + apart.T @ apart / len(same))
