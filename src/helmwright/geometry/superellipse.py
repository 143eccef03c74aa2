"""The superellipse: a level section that is squarer than an ellipse, and its perimeter."""

from functools import cache

import numpy as np
import numpy.typing as npt
from scipy.interpolate import RectBivariateSpline

Floats = npt.NDArray[np.float64]

EXPONENT_LOW, EXPONENT_HIGH = 1.5, 8.0
"""The exponents that a section may take [1]; 2 is an ellipse."""

_RATIO_LOW = 0.55


def superellipse_perimeter(
    half_length: npt.ArrayLike, half_breadth: npt.ArrayLike, exponent: npt.ArrayLike
) -> Floats:
    """Perimeter of |x/a|^n + |y/b|^n = 1 by chords of equal angle.

    Parameters
    ----------
    half_length, half_breadth
        Half axes a and b [mm], broadcast with the exponent.
    exponent
        n, at least 1 [1].

    Returns
    -------
    Perimeter [mm], of the broadcast shape; within 1e-6 (relative) of its value for n up to 8.
    """
    a, b, n = np.broadcast_arrays(
        *(np.asarray(v, dtype=np.float64) for v in (half_length, half_breadth, exponent))
    )
    if np.any(a <= 0) or np.any(b <= 0) or np.any(n < 1):
        raise ValueError("a section needs half axes above 0 mm and an exponent of at least 1")
    angle = np.linspace(0.0, np.pi / 2, 801)
    across = np.abs(np.cos(angle) / a[..., None]) ** n[..., None]
    along = np.abs(np.sin(angle) / b[..., None]) ** n[..., None]
    radius = (across + along) ** (-1.0 / n[..., None])
    x, y = radius * np.cos(angle), radius * np.sin(angle)
    return np.asarray(4.0 * np.hypot(np.diff(x), np.diff(y)).sum(axis=-1), dtype=np.float64)


def section_exponent(
    circumference: npt.ArrayLike, length: npt.ArrayLike, breadth: npt.ArrayLike
) -> Floats:
    """The exponent of the superellipse with a given perimeter, length and breadth.

    Parameters
    ----------
    circumference, length, breadth
        Whole measures [mm], broadcast together.

    Returns
    -------
    Exponent [1], of the broadcast shape, held within EXPONENT_LOW and EXPONENT_HIGH; where it is
    held, the section does not reach the circumference.

    Notes
    -----
    Newton steps on a spline of P / a over (b / a, 1 / n). Solving by quadrature for every draw
    was more than half of the time of a whole answer.
    """
    around, long, broad = np.broadcast_arrays(
        *(np.asarray(v, dtype=np.float64) for v in (circumference, length, breadth))
    )
    large = np.maximum(long, broad) / 2.0
    ratio = np.clip(np.minimum(long, broad) / 2.0 / large, _RATIO_LOW, 1.0).ravel()
    target = (around / large).ravel()
    spline = _perimeter_spline()
    inverse = np.full_like(ratio, 1.0 / 2.3)
    for _ in range(12):
        miss = spline.ev(ratio, inverse) - target
        slope = spline.ev(ratio, inverse, dy=1)
        inverse = np.clip(inverse - miss / slope, 1.0 / EXPONENT_HIGH, 1.0 / EXPONENT_LOW)
    return np.asarray((1.0 / inverse).reshape(around.shape), dtype=np.float64)


@cache
def _perimeter_spline() -> RectBivariateSpline:
    ratio = np.linspace(_RATIO_LOW, 1.0, 31)
    inverse = np.linspace(1.0 / EXPONENT_HIGH, 1.0 / EXPONENT_LOW, 61)
    grid = superellipse_perimeter(1.0, ratio[:, None], 1.0 / inverse[None, :])
    return RectBivariateSpline(ratio, inverse, grid, kx=5, ky=5, s=0)
