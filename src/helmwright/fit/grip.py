"""How much twisting by hand a helmet at rest holds out against."""

import numpy as np
import numpy.typing as npt

from helmwright.fit.contact import Rest, Trial
from helmwright.fit.outlook import Build

Floats = npt.NDArray[np.float64]

UPRIGHT = (0.0, 0.0, 1.0)
FORE_AND_AFT = (1.0, 0.0, 0.0)
SIDE_TO_SIDE = (0.0, 1.0, 0.0)


def held_moment_nm(
    trial: Trial, build: Build, rest: Rest, axis: tuple[float, float, float]
) -> Floats:
    """Moment about an axis through the middle between the ears that friction resists at most.

    Parameters
    ----------
    trial, build, rest
        The helmet, and how it rests on n heads.
    axis
        Unit vector in the head frame: turning is about UPRIGHT, nodding about SIDE_TO_SIDE.

    Returns
    -------
    Shape (n,) [N m].

    Notes
    -----
    Sum over contacts of mu N |P (e x p)|, P being the projection on the head's tangent plane
    there. An upper bound: drag that the helmet's own rest has used up is not taken off.
    """
    points, normals = trial.contacts(build)
    grip = trial.unknowns.friction[:, None] * rest.force_n
    return np.asarray((grip * _tangent_arm(points, normals, axis)).sum(axis=1) * 1e-3)


def _tangent_arm(points: Floats, normals: Floats, axis: tuple[float, float, float]) -> Floats:
    motion = np.cross(np.array(axis), points)
    along = (motion * normals).sum(axis=-1, keepdims=True)
    return np.asarray(np.linalg.norm(motion - along * normals, axis=-1))
