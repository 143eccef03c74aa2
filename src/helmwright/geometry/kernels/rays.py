"""Rays against ovoids: how far it is from a point to the surface, and which way it faces."""

import math

import numpy as np
import numpy.typing as npt
from numba import njit

from helmwright.geometry.kernels.level import level

Floats = npt.NDArray[np.float64]

FARTHEST_MM = 1000.0
"""Farther than any surface from a point inside it [mm]."""

MISSED_MM = 200.0
"""Distance given for a ray that meets no surface [mm]."""


@njit(cache=True, error_model="numpy", nogil=True)
def outward(row: Floats, ox: float, oy: float, oz: float, dx: float, dy: float, dz: float) -> float:
    """Distance from a point inside an ovoid to its surface along a unit direction [mm]."""
    low, high = 0.0, FARTHEST_MM
    for _ in range(26):
        mid = 0.5 * (low + high)
        if level(row, ox + mid * dx, oy + mid * dy, oz + mid * dz)[0] < 0.0:
            low = mid
        else:
            high = mid
    t = 0.5 * (low + high)
    for _ in range(4):
        value, gx, gy, gz = level(row, ox + t * dx, oy + t * dy, oz + t * dz)
        slope = gx * dx + gy * dy + gz * dz
        if slope > 1e-9:
            t = min(max(t - value / slope, low), high)
    return t


@njit(cache=True, error_model="numpy", nogil=True)
def inward(row: Floats, ox: float, oy: float, oz: float, dx: float, dy: float, dz: float) -> float:
    """Signed distance from a point to an ovoid's surface along a unit direction [mm].

    Newton's method from the point itself. From outside it cannot step past the near surface of a
    dome, whose level is a norm and so convex along the ray.
    """
    t = 0.0
    for _ in range(30):
        value, gx, gy, gz = level(row, ox + t * dx, oy + t * dy, oz + t * dz)
        slope = gx * dx + gy * dy + gz * dz
        if slope >= -1e-6:
            return MISSED_MM
        step = -value / slope
        t += step
        if abs(step) < 1e-5:
            return t
        if abs(t) > MISSED_MM:
            return MISSED_MM
    return MISSED_MM


@njit(cache=True, error_model="numpy", nogil=True)
def clearances(
    rows: Floats, points: Floats, directions: Floats, lifts: Floats, gaps: Floats,
    normals: Floats,
) -> None:  # fmt: skip
    """Bare gap between seats and heads, for each head and each height of the shell.

    Parameters
    ----------
    rows
        Heads, shape (h, 14).
    points, directions
        Seats on the shell and the way they face, toward the head, shape (s, 3) [mm], [1].
    lifts
        Heights at which the shell is held above its own drawing, shape (h, k) [mm].
    gaps
        Out: distance along the seat's direction, shape (h, k, s) [mm].
    normals
        Out: outward normal of the head there, shape (h, k, s, 3) [1].
    """
    for h in range(rows.shape[0]):
        row = rows[h]
        for k in range(lifts.shape[1]):
            for s in range(points.shape[0]):
                px, py, pz = points[s, 0], points[s, 1], points[s, 2] + lifts[h, k]
                dx, dy, dz = directions[s, 0], directions[s, 1], directions[s, 2]
                t = inward(row, px, py, pz, dx, dy, dz)
                gaps[h, k, s] = t
                if t >= MISSED_MM:
                    normals[h, k, s, 0], normals[h, k, s, 1], normals[h, k, s, 2] = -dx, -dy, -dz
                    continue
                _, gx, gy, gz = level(row, px + t * dx, py + t * dy, pz + t * dz)
                size = math.sqrt(gx * gx + gy * gy + gz * gz)
                normals[h, k, s, 0] = gx / size
                normals[h, k, s, 1] = gy / size
                normals[h, k, s, 2] = gz / size


@njit(cache=True, error_model="numpy", nogil=True)
def surface_points(row: Floats, origin: Floats, directions: Floats) -> Floats:
    """Points where rays from inside an ovoid leave it, shape (r, 3) [mm]."""
    found = np.empty((directions.shape[0], 3))
    for i in range(directions.shape[0]):
        dx, dy, dz = directions[i, 0], directions[i, 1], directions[i, 2]
        t = outward(row, origin[0], origin[1], origin[2], dx, dy, dz)
        found[i, 0] = origin[0] + t * dx
        found[i, 1] = origin[1] + t * dy
        found[i, 2] = origin[2] + t * dz
    return found
