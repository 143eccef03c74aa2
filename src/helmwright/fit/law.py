"""One pad's pressure against its stroke: layers in series, as a sum of hinges that never falls."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.optimize import nnls

from helmwright.catalogue.foam import Foam

Floats = npt.NDArray[np.float64]

HINGES = 16
MOST_KPA = 60.0
"""Pressure up to which the sum follows the layers [kPa]; far above any bearable one."""

CLOSE = 0.01
"""How near to a bend of the curve its knots stand, as a share of the pressure [1]."""

LEAST_KPA = 0.2
"""Pressure of the first knot above none where a curve has bends [kPa]."""


@dataclass(frozen=True)
class PadLaw:
    """Pressure of one pad: p(s) = sum of w_k max(s - x_k, 0)^2 [kPa].

    Parameters
    ----------
    knots
        x, rising from -0.01, shape (HINGES,) [mm].
    weights
        w, shape (HINGES,) [kPa/mm2].
    """

    knots: Floats
    weights: Floats

    def pressure(self, stroke_mm: npt.ArrayLike) -> Floats:
        """Pressure [kPa] at strokes [mm], same shape; 0 below -0.01."""
        past = np.maximum(np.asarray(stroke_mm)[..., None] - self.knots, 0.0)
        return np.asarray((self.weights * past**2).sum(axis=-1))

    def slope(self, stroke_mm: npt.ArrayLike) -> Floats:
        """Slope of the pressure [kPa/mm] at strokes [mm], same shape."""
        past = np.maximum(np.asarray(stroke_mm)[..., None] - self.knots, 0.0)
        return np.asarray((2.0 * self.weights * past).sum(axis=-1))

    def work(self, stroke_mm: npt.ArrayLike) -> Floats:
        """Integral of the pressure from 0 [kPa mm] at strokes [mm], same shape."""
        past = np.maximum(np.asarray(stroke_mm)[..., None] - self.knots, 0.0)
        return np.asarray((self.weights * past**3).sum(axis=-1) / 3.0)

    def stroke(self, pressure_kpa: float) -> float:
        """The stroke [mm] at which the pad presses so hard [kPa], by bisection."""
        low, high = 0.0, float(self.knots[-1]) + 50.0
        for _ in range(60):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if self.pressure(middle) < pressure_kpa else (low, middle)
        return 0.5 * (low + high)


NO_LAW = PadLaw(np.arange(HINGES, dtype=np.float64), np.zeros(HINGES))
"""The law of a zone that holds no pad: nothing presses."""


def series_stroke(layers: tuple[tuple[Foam, float], ...], pressure_kpa: npt.ArrayLike) -> Floats:
    """Stroke of foam layers in series [mm] under a pressure [kPa], same shape.

    Parameters
    ----------
    layers
        Foam and free thickness [mm] of each; every layer carries the same pressure.
    """
    pressure = np.asarray(pressure_kpa, dtype=np.float64)
    total = np.zeros_like(pressure)
    for foam, thickness in layers:
        total = total + thickness * foam.strain_at(pressure)
    return total


def fit_law(layers: tuple[tuple[Foam, float], ...], *, bends_kpa: tuple[float, ...] = ()) -> PadLaw:
    """The sum of hinges that follows the layers' series curve.

    Parameters
    ----------
    layers
        Foam and free thickness [mm] of each.
    bends_kpa
        Pressures at which a layer begins or ends to give, rising, where there are such: knots
        stand close about them, fewer elsewhere [kPa].

    Returns
    -------
    PadLaw, rising at every stroke.

    Raises
    ------
    ValueError
        Where no layer is thicker than 0 mm.

    Notes
    -----
    Between knots the slope is linear, so p is a sum of quadratic hinges, and p rises everywhere
    if the slope at every knot is positive. Those slopes are found by non-negative least squares
    on the relative error of p. A look-up table would do as well for one pad, but a sum has no
    branches and is smooth enough for Newton's method.
    """
    if sum(thickness for _, thickness in layers) <= 0:
        raise ValueError("a pad's law needs a layer thicker than 0 mm")
    knots = series_stroke(layers, _knot_pressures(bends_kpa))
    pressure = np.geomspace(0.05, MOST_KPA, 500)
    if bends_kpa:
        about = np.linspace(0.95 * bends_kpa[0], 1.05 * bends_kpa[-1], 200)
        pressure = np.sort(np.concatenate([pressure, about]))
    basis = _slope_basis(knots, series_stroke(layers, pressure)) / pressure[:, None]
    slopes, _ = nnls(basis, np.ones_like(pressure))
    slopes = np.maximum(slopes, 1e-6)
    bends = np.diff(slopes) / np.diff(knots)
    turns = np.concatenate([[bends[0]], np.diff(bends), [-bends[-1]]])
    return _opened(knots, turns / 2.0, float(slopes[0]))


def _knot_pressures(bends_kpa: tuple[float, ...]) -> Floats:
    if bends_kpa:
        return _knots_about(np.array(bends_kpa))
    low = np.array([0.0, 0.35, 0.9, 1.4, 1.8, 2.15])
    return np.concatenate([low, np.geomspace(2.5, MOST_KPA, HINGES - 2 - low.size)])


def _knots_about(bends: Floats) -> Floats:
    """Knots beside each bend, the others spread over what the bends leave."""
    close = np.concatenate([bends * (1.0 - CLOSE), bends * (1.0 + CLOSE)])
    many = HINGES - 3 - close.size
    ends = np.array([close.min(), close.max()])
    wide = np.log([ends[0] / LEAST_KPA, max(MOST_KPA / ends[1], 1.0)])
    below = int(np.clip(np.rint(many * wide[0] / wide.sum()), 2, many - 3))
    low = np.geomspace(min(LEAST_KPA, 0.5 * ends[0]), ends[0], below + 1)[:-1]
    high = np.geomspace(ends[1], max(MOST_KPA, 2.0 * ends[1]), many - below + 1)[1:]
    return np.concatenate([[0.0], low, np.sort(close), high])


def _slope_basis(knots: Floats, stroke: Floats) -> Floats:
    """Pressure at each stroke of a unit slope at each knot, linear in between: (n, k) [mm]."""
    grid = np.maximum(stroke[:, None] - knots[None, :], 0.0) ** 2 / 2.0
    width = np.diff(knots)
    rise = (grid[:, :-1] - grid[:, 1:]) / width
    basis = np.zeros((stroke.size, knots.size))
    basis[:, 1:] += rise
    basis[:, :-1] -= rise
    basis[:, 0] += np.maximum(stroke, 0.0)
    return basis


def _opened(knots: Floats, weights: Floats, first_slope: float) -> PadLaw:
    """Give the law its slope at nothing, by a pair of hinges a fiftieth of a millimeter apart."""
    half = 0.01
    head = first_slope / (4.0 * half)
    opened = np.concatenate([[-half, 0.0, half], knots[1:]])
    hinges = np.concatenate([[head, weights[0], -head], weights[1:]])
    return PadLaw(opened, hinges)
