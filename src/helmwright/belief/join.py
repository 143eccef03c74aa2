"""One belief out of two surveys that share only some of their quantities."""

import numpy as np

from helmwright.belief.normal import Normal


def joined(main: Normal, donor: Normal) -> Normal:
    """The main survey's belief, with the quantities that only the donor measured.

    Parameters
    ----------
    main
        Belief whose means, spreads and correlations are kept as they are.
    donor
        Belief that brings further quantities; shares at least one with `main`.

    Returns
    -------
    Normal
        Over the names of `main`, then the donor's further names.

    Raises
    ------
    ValueError
        If the two share no quantity, or a shared one does not vary.

    Notes
    -----
    Shared quantities S are rescaled: each is counted in its own survey's standard deviations from
    its own survey's mean. In these units the donor gives the regression of a new quantity B,
    `z_B = beta z_S + e`, and `e` is taken as independent of everything that only the main survey
    measured (conditional independence given S). The result is

    `cov(B, X) = D_B beta cov(z_S, X)`, `var(B) = D_B (beta M_SS beta' + E) D_B`,

    with M the main survey's correlations, D_B the donor's standard deviations and E the covariance
    of e. It is the covariance of variables that can be built, hence positive semi-definite. The
    new quantity keeps the donor's mean; what shared means differ by is put down to the protocols.
    """
    shared = [name for name in main.names if name in donor.names]
    new = [name for name in donor.names if name not in main.names]
    if not shared:
        raise ValueError("two surveys can be joined only through quantities that both measured")
    if not new:
        return main
    base, gift = main.marginal(shared), donor.marginal([*shared, *new])
    if not (base.sd.min() > 0.0 and gift.sd[: len(shared)].min() > 0.0):
        raise ValueError("a shared quantity must vary in both surveys")
    count = len(shared)
    C = gift.covariance / np.outer(gift.sd, gift.sd)
    beta = np.linalg.solve(C[:count, :count], C[:count, count:]).T
    error = C[count:, count:] - beta @ C[:count, count:]
    # One matrix carries the main survey's vector to the new quantities.
    carry = np.zeros((len(new), len(main.names)))
    carry[:, [main.index(name) for name in shared]] = (
        gift.sd[count:, None] * beta / base.sd[None, :]
    )
    scale = np.outer(gift.sd[count:], gift.sd[count:])
    cross = carry @ main.covariance
    covariance = np.block([[main.covariance, cross.T], [cross, cross @ carry.T + scale * error]])
    return Normal((*main.names, *new), np.append(main.mean, gift.mean[count:]), covariance)
