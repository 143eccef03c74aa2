"""The perimeter of an ellipse."""

import numpy as np
import numpy.typing as npt
from scipy.special import ellipe

Floats = npt.NDArray[np.float64]


def ellipse_perimeter(semi_major: npt.ArrayLike, semi_minor: npt.ArrayLike) -> Floats:
    """Perimeter of an ellipse, from the complete elliptic integral of the second kind.

    Parameters
    ----------
    semi_major, semi_minor
        Half axes, in either order [mm], broadcast together.

    Returns
    -------
    Perimeter [mm], of the broadcast shape.

    Raises
    ------
    ValueError
        Where a half axis is not positive.

    Notes
    -----
    P = 4 a E(m) with m = 1 - (b/a)^2 and a the larger half axis.

    References
    ----------
    NIST Digital Library of Mathematical Functions, 19.9.9 and 19.30.5.
    """
    first, second = np.broadcast_arrays(
        np.asarray(semi_major, dtype=np.float64), np.asarray(semi_minor, dtype=np.float64)
    )
    if np.any(first <= 0) or np.any(second <= 0):
        raise ValueError("both half axes of an ellipse must be greater than 0 mm")
    large, small = np.maximum(first, second), np.minimum(first, second)
    return np.asarray(4.0 * large * ellipe(1.0 - (small / large) ** 2), dtype=np.float64)
