"""Smooth curves of age through noisy cells."""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import nnls
from scipy.special import comb

from helmwright.belief.normal import Floats

DEGREE = 5
"""Degree of the rising curve: enough for a spurt of growth, too little to follow single cells."""


@dataclass(frozen=True, eq=False)
class Rising:
    """A curve that never falls.

    Parameters
    ----------
    low, high
        Ages of the first and the last cell [years].
    heights
        Coefficients in the Bernstein basis, none smaller than the one before it.
    """

    low: float
    high: float
    heights: Floats

    def at(self, age_years: float) -> float:
        """Value at an age; past the last cell as there, before the first on a straight line.

        Notes
        -----
        The line before the first cell has the slope that the curve begins with.
        """
        place = (age_years - self.low) / (self.high - self.low)
        if place < 0.0:
            slope = (self.heights.size - 1) * (self.heights[1] - self.heights[0])
            return float(self.heights[0] + place * slope)
        return float(_basis(np.array([min(place, 1.0)]), self.heights.size - 1)[0] @ self.heights)


def rising_fit(age_years: Floats, values: Floats, weights: Floats) -> Rising:
    """The rising curve nearest to cells, by weighted least squares.

    Parameters
    ----------
    age_years, values, weights
        Middles of the cells in rising order [years], their values, and what each counts (one over
        its error variance), each of shape `(k,)`.

    Notes
    -----
    A polynomial in Bernstein's form, `sum_j b_j C(n, j) s^j (1 - s)^(n - j)` with s from 0 to 1
    over the cells, rises where its coefficients do. With `b_j = b_0 + d_1 + ... + d_j` the least
    squares over d_j >= 0 is a problem of non-negative least squares.

    References
    ----------
    Lawson and Hanson 1974, Solving Least Squares Problems, chapter 23, by SciPy.
    """
    low, high = float(age_years[0]), float(age_years[-1])
    basis = _basis((age_years - low) / (high - low), DEGREE)
    # Column j of the sums is the share of every coefficient from j on; the first is always 1.
    sums = np.cumsum(basis[:, ::-1], axis=1)[:, ::-1]
    floor = float(values.min()) - 1.0
    root = np.sqrt(weights)
    steps, _ = nnls(sums * root[:, None], (values - floor) * root)
    return Rising(low, high, floor + np.cumsum(steps))


def even_fit(age_years: Floats, values: Floats, weights: Floats) -> Floats:
    """Coefficients, lowest power first, of the quadratic nearest to cells."""
    fit = np.polynomial.polynomial.polyfit(age_years, values, 2, w=np.sqrt(weights))
    return np.asarray(fit, dtype=np.float64)


def _basis(place: Floats, degree: int) -> Floats:
    power = np.arange(degree + 1)
    up, down = place[:, None] ** power, (1.0 - place[:, None]) ** (degree - power)
    return np.asarray(comb(degree, power) * up * down)
