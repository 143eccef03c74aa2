"""The planes that head and helmet are cut by."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.zone import Zone
from helmwright.fit.middle import MiddleRest

Floats = npt.NDArray[np.float64]

LEFT = np.array([0.0, 1.0, 0.0])
UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, eq=False)
class Plane:
    """A plane in the head frame, with its own right and up.

    Parameters
    ----------
    origin
        A point inside the head, from which the sections are drawn, shape (3,) [mm].
    right, up
        Unit vectors, square to each other, shape (3,) [1].
    """

    origin: Floats
    right: Floats
    up: Floats

    @property
    def normal(self) -> Floats:
        """Toward the viewer, shape (3,) [1]."""
        return np.cross(self.right, self.up)

    def flat(self, points: Floats) -> Floats:
        """Points of the head frame as right and up, counted from the head frame's own origin."""
        return np.column_stack([points @ self.right, points @ self.up])

    def directions(self, angles: Floats) -> Floats:
        """Unit vectors at angles from right toward up [rad], shape (n, 3)."""
        return np.cos(angles)[:, None] * self.right + np.sin(angles)[:, None] * self.up

    def angles(self, points: Floats) -> Floats:
        """Angles of points of the head frame, seen from the plane's origin [rad]."""
        away = points - self.origin
        return np.arctan2(away @ self.up, away @ self.right)


def side_plane(rest: MiddleRest) -> Plane:
    """The middle plane of the head, seen from its right side: face to the right."""
    middle = _shell_middle(rest)
    return Plane(np.array([middle[0], 0.0, middle[2]]), np.array([1.0, 0.0, 0.0]), UP)


def level_plane(rest: MiddleRest) -> Plane:
    """The plane A-A through front and rear pads, seen from above: nose up, left at the left.

    Where the helmet has no pad in front or behind, it is level with the shell's middle.
    """
    middle = _shell_middle(rest)
    front, rear = (rest.contacts(zone) for zone in (Zone.FRONT, Zone.REAR))
    forward = np.array([1.0, 0.0, 0.0])
    if len(front) and len(rear):
        step = front.mean(axis=0) - rear.mean(axis=0)
        forward = np.array([step[0], 0.0, step[2]]) / np.hypot(step[0], step[2])
        share = (middle[0] - rear[:, 0].mean()) / step[0]
        middle = rear.mean(axis=0) + share * step
    return Plane(np.array([middle[0], 0.0, middle[2]]), -LEFT, forward)


def jaw_plane(rest: MiddleRest) -> Plane:
    """The upright plane through the jaw pads, seen from behind: left at the left.

    Where the helmet has no jaw pads it passes through the ear openings.
    """
    jaws = np.concatenate([rest.contacts(zone) for zone in (Zone.JAW_LEFT, Zone.JAW_RIGHT)])
    ahead = float(jaws[:, 0].mean()) if len(jaws) else 0.0
    return Plane(np.array([ahead, 0.0, _shell_middle(rest)[2]]), -LEFT, UP)


def _shell_middle(rest: MiddleRest) -> Floats:
    """The middle of the shell at its level, on the head, shape (3,) [mm]."""
    return np.asarray(rest.placed(np.array([[0.0, 0.0, rest.sheet.form.level_mm]]))[0])
