"""Pressure of a pad from its stroke, as a sum of hinges that never falls."""

import numpy as np
import numpy.typing as npt
from numba import njit

Floats = npt.NDArray[np.float64]


@njit(cache=True, error_model="numpy", nogil=True, inline="always")
def pressure(knots: Floats, weights: Floats, stroke: float) -> tuple[float, float]:
    """Pressure and its slope at one stroke: sum of w max(s - x, 0)^2.

    Parameters
    ----------
    knots, weights
        Shape (k,), knots rising [mm], [kPa/mm2].
    stroke
        Compression [mm]; nothing presses at or below 0.

    Returns
    -------
    (pressure [kPa], slope [kPa/mm]).
    """
    value, slope = 0.0, 0.0
    for k in range(knots.shape[0]):
        past = stroke - knots[k]
        if past <= 0.0:
            break
        value += weights[k] * past * past
        slope += 2.0 * weights[k] * past
    return value, slope
