"""The taut tape: the perimeter of the convex hull of a plane section."""

import numpy as np
import numpy.typing as npt
from scipy.spatial import ConvexHull

Floats = npt.NDArray[np.float64]


def hull_perimeter(points: Floats) -> float:
    """Perimeter of the convex hull of points in a plane.

    Parameters
    ----------
    points
        Shape (n, 2), n at least 3, not all on a line [mm].

    Returns
    -------
    Perimeter [mm]. A tape spans hollows, so it reads this and not the length of the outline.

    Raises
    ------
    ValueError
        Where the points are not plane points.
    """
    if points.ndim != 2 or points.shape[1] != 2 or points.shape[0] < 3:
        raise ValueError(f"a hull needs at least 3 points of 2 numbers, not shape {points.shape}")
    corners = points[ConvexHull(points).vertices]
    return float(np.hypot(*(np.roll(corners, -1, axis=0) - corners).T).sum())
