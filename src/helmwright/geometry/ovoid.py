"""A smooth closed surface from few numbers: a dome over a level section, and a skirt below it."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.geometry.hull import hull_perimeter
from helmwright.geometry.kernels import rays
from helmwright.geometry.kernels.level import level

Floats = npt.NDArray[np.float64]

COLUMNS = (
    "half_length",
    "half_breadth",
    "section_exponent",
    "dome_height",
    "dome_exponent",
    "middle_x",
    "middle_z",
    "pitch_sine",
    "pitch_cosine",
    "skirt_depth",
    "front_taper",
    "rear_taper",
    "side_taper",
    "front_slope",
)


@dataclass(frozen=True)
class Ovoids:
    """A stack of ovoids, one row each.

    Parameters
    ----------
    rows
        Shape (n, 14), columns as in COLUMNS; lengths in [mm], exponents in [1].

    Notes
    -----
    With u forward, v left and w up in the frame of the level plane, which is pitched about the y
    axis and passes through the middle point:

    * section, w = 0:  |u/a|^n + |v/b|^n = 1;
    * dome, w >= 0:    (|u/(a s)|^n + |v/b|^n)^(m/n) + (w/c)^m = 1, where s leans the front
      back: s = 1 - e t^2 / (t + 0.1) for u > 0, t = w/c, and 1 elsewhere;
    * skirt, w < 0:    |u/(a f)|^n + |v/(b g)|^n = 1, f and g = sqrt(1 - t^k), t = -w/d,
      with k one exponent for the front, one for the rear and one for the sides.

    Both halves meet with the same tangent where m and k are greater than 1, and the skirt closes
    at w = -d.
    """

    rows: Floats

    def __post_init__(self) -> None:
        """Refuse rows that are no closed smooth surface."""
        rows = np.ascontiguousarray(self.rows, dtype=np.float64)
        if rows.ndim != 2 or rows.shape[1] != len(COLUMNS):
            raise ValueError(f"ovoids need rows of {len(COLUMNS)} numbers, not shape {rows.shape}")
        for name in ("half_length", "half_breadth", "dome_height", "skirt_depth"):
            if np.any(rows[:, COLUMNS.index(name)] <= 0):
                raise ValueError(f"{name} of an ovoid must be greater than 0 mm")
        for name in ("dome_exponent", "front_taper", "rear_taper", "side_taper"):
            if np.any(rows[:, COLUMNS.index(name)] <= 1):
                raise ValueError(f"{name} of an ovoid must be greater than 1 to be smooth")
        object.__setattr__(self, "rows", rows)

    def __len__(self) -> int:
        return int(self.rows.shape[0])

    def column(self, name: str) -> Floats:
        """One of COLUMNS, shape (n,)."""
        return np.asarray(self.rows[:, COLUMNS.index(name)])

    def section(self, index: int, origin: Floats, forward: Floats, count: int = 720) -> Floats:
        """Points of one ovoid's section by the plane of `forward` and the y axis.

        Parameters
        ----------
        index
            Which ovoid.
        origin
            A point of the plane inside the surface, shape (3,) [mm].
        forward
            A unit vector of the plane, in the middle plane of the ovoid, shape (3,) [1].
        count
            How many points.

        Returns
        -------
        Shape (count, 2), along `forward` and along y, from the origin [mm].
        """
        angle = np.linspace(0.0, 2.0 * np.pi, count, endpoint=False)
        left = np.array([0.0, 1.0, 0.0])
        directions = np.cos(angle)[:, None] * forward + np.sin(angle)[:, None] * left
        found = rays.surface_points(self.rows[index], origin, directions) - origin
        return np.column_stack([found @ forward, found @ left])

    def girth(self, index: int, origin: Floats, forward: Floats, count: int = 720) -> float:
        """Length of a taut tape around that section: its hull's perimeter [mm]."""
        return hull_perimeter(self.section(index, origin, forward, count))

    def level_at(self, index: int, point: Floats) -> float:
        """Level of one ovoid at a point: negative inside, 0 on the surface [1]."""
        return float(level(self.rows[index], *point)[0])

    def ray(self, index: int, origin: Floats, direction: Floats) -> Floats:
        """The point where a ray from inside leaves the surface, shape (3,) [mm]."""
        unit = np.asarray(direction, dtype=np.float64)[None, :] / np.linalg.norm(direction)
        return np.asarray(rays.surface_points(self.rows[index], origin, unit)[0])

    def surface_points(self, index: int, origin: Floats, directions: Floats) -> Floats:
        """The points where rays from inside leave the surface, shape (n, 3) [mm].

        Parameters
        ----------
        index
            Which ovoid.
        origin
            A point inside it, shape (3,) [mm].
        directions
            Unit vectors, shape (n, 3) [1].
        """
        units = np.ascontiguousarray(directions, dtype=np.float64)
        return np.asarray(rays.surface_points(self.rows[index], np.asarray(origin), units))

    def clearances(self, index: int, points: Floats, directions: Floats) -> Floats:
        """Distance from points outside to the surface along unit directions, shape (n,) [mm].

        Negative from inside; `helmwright.geometry.kernels.rays.MISSED_MM` where a ray meets
        nothing.
        """
        gaps, normals = np.empty((1, 1, len(points))), np.empty((1, 1, len(points), 3))
        row, level_at = self.rows[index : index + 1], np.zeros((1, 1))
        out, along = (np.ascontiguousarray(each, dtype=np.float64) for each in (points, directions))
        rays.clearances(row, out, along, level_at, gaps, normals)
        return np.asarray(gaps[0, 0])

    def outward_normal(self, index: int, point: Floats) -> Floats:
        """Unit normal of the surface at a point of it, pointing out, shape (3,) [1]."""
        slope = np.array(level(self.rows[index], *point)[1:])
        return np.asarray(slope / np.linalg.norm(slope))
