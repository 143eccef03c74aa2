"""The level function of an ovoid and its slope, point by point.

An ovoid is one row of fourteen numbers, in the order of `helmwright.geometry.ovoid.COLUMNS`.
"""

import math

import numpy as np
import numpy.typing as npt
from numba import njit

Floats = npt.NDArray[np.float64]

A, B, N, C, M, CX, CZ, SIN, COS, D, FRONT, REAR, SIDE, SLOPE = range(14)

SLOPE_ONSET = 0.1
"""Share of the dome's height over which the front's slope sets in [1]."""


@njit(cache=True, error_model="numpy", nogil=True)
def level(row: Floats, x: float, y: float, z: float) -> tuple[float, float, float, float]:
    """Level of one ovoid at a point, with its slope; 0 on the surface, positive outside.

    Parameters
    ----------
    row
        The ovoid, shape (14,).
    x, y, z
        The point [mm].

    Returns
    -------
    (level, slope in x, slope in y, slope in z), [1] and [1/mm].
    """
    px, pz = x - row[CX], z - row[CZ]
    u = row[COS] * px + row[SIN] * pz
    w = -row[SIN] * px + row[COS] * pz
    if w >= 0.0:
        value, gu, gv, gw = _dome(row, u, y, w)
    else:
        value, gu, gv, gw = _skirt(row, u, y, w)
    return value, row[COS] * gu - row[SIN] * gw, gv, row[SIN] * gu + row[COS] * gw


@njit(cache=True, error_model="numpy", nogil=True)
def _dome(row: Floats, u: float, v: float, w: float) -> tuple[float, float, float, float]:
    n, m = row[N], row[M]
    fv, fw = abs(v) / row[B], w / row[C]
    left, left_slope = 1.0, 0.0
    if u > 0.0:
        left = 1.0 - row[SLOPE] * fw * fw / (fw + SLOPE_ONSET)
        left_slope = -row[SLOPE] * fw * (fw + 2.0 * SLOPE_ONSET) / (fw + SLOPE_ONSET) ** 2
    fu = abs(u) / (row[A] * left)
    rho = (fu**n + fv**n) ** (1.0 / n)
    r = (rho**m + fw**m) ** (1.0 / m)
    if r < 1e-12:
        return -1.0, 0.0, 0.0, 0.0
    gw = (fw / r) ** (m - 1.0) / row[C]
    if rho < 1e-12:
        return r - 1.0, 0.0, 0.0, gw
    outer = (rho / r) ** (m - 1.0)
    gu = outer * (fu / rho) ** (n - 1.0) / (row[A] * left)
    gw -= outer * (fu / rho) ** (n - 1.0) * fu * left_slope / (left * row[C])
    gv = outer * (fv / rho) ** (n - 1.0) / row[B]
    return r - 1.0, math.copysign(gu, u), math.copysign(gv, v), gw


@njit(cache=True, error_model="numpy", nogil=True)
def _skirt(row: Floats, u: float, v: float, w: float) -> tuple[float, float, float, float]:
    n = row[N]
    below = -w / row[D] - 1.0
    fall = min(1.0 + below, 0.9999)
    along_power = row[FRONT] if u >= 0.0 else row[REAR]
    along, along_slope = _narrowing(fall, along_power)
    across, across_slope = _narrowing(fall, row[SIDE])
    fu, fv = abs(u) / (row[A] * along), abs(v) / (row[B] * across)
    rho = (fu**n + fv**n) ** (1.0 / n)
    if below >= 0.0 and below > rho - 1.0:  # else a needle would hang from the closed tip
        return below, 0.0, 0.0, -1.0 / row[D]
    if rho < 1e-12:
        return -1.0, 0.0, 0.0, 0.0
    gu = (fu / rho) ** (n - 1.0) / (row[A] * along)
    gv = (fv / rho) ** (n - 1.0) / (row[B] * across)
    gfall = -(fu * (fu / rho) ** (n - 1.0) * along_slope / along)
    gfall -= fv * (fv / rho) ** (n - 1.0) * across_slope / across
    return rho - 1.0, math.copysign(gu, u), math.copysign(gv, v), -gfall / row[D]


@njit(cache=True, error_model="numpy", nogil=True)
def _narrowing(fall: float, power: float) -> tuple[float, float]:
    """Share of the section left at a depth, sqrt(1 - fall^power), and its slope in fall."""
    left = math.sqrt(1.0 - fall**power)
    slope = -0.5 * power * fall ** (power - 1.0) / left if fall > 0.0 else 0.0
    return left, slope
