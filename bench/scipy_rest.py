"""One head at a time by SciPy's general solvers, on the documented energy or its balance."""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt
from scipy.optimize import minimize, root

from bench.phases import PHASES, Heads, Phase, next_phase

Floats = npt.NDArray[np.float64]

TOLERANCE_N = 1e-2
CAPS_SETTLED_N = 1e-2
MOST_CAPS = 60
MINIMIZERS = ("trust-exact", "Newton-CG", "BFGS")


def rest_by_minimizing(heads: Heads, method: str) -> Floats:
    """Scaled pose of a single head: each phase's energy minimized, its caps found by repetition.

    The caps are held while the energy, convex then, is minimized, and follow the normal forces
    found; that is repeated until they stand.
    """
    pose, drag = np.zeros((1, 6)), np.zeros((*heads.base.shape, 3))
    for number in range(PHASES):
        phase = next_phase(heads, number, pose, drag)
        pose, drag = _minimized(phase, pose, method)
    return pose


def _minimized(phase: Phase, pose: Floats, method: str) -> tuple[Floats, Floats]:
    force = phase.slopes(pose, None)[2]
    friction = phase.heads.friction[:, None]
    for _ in range(MOST_CAPS):
        caps = friction * force
        found = minimize(
            lambda q, caps=caps: float(phase.energy(q[None], caps)[0]),
            pose[0],
            jac=lambda q, caps=caps: phase.slopes(q[None], caps)[0][0],
            hess=None if method == "BFGS" else _hessian(phase, caps),
            method=method,
            options=_options(method),
        )
        pose = found.x[None]
        before, force = force, phase.slopes(pose, caps)[2]
        if friction[0, 0] * np.abs(force - before).max() < CAPS_SETTLED_N:
            break
    return pose, phase.slopes(pose, None)[3]


def _hessian(phase: Phase, caps: Floats) -> Callable[[Floats], Floats]:
    return lambda q: phase.slopes(q[None], caps)[1][0]


def _options(method: str) -> dict[str, float]:
    return {"xtol": 1e-6} if method == "Newton-CG" else {"gtol": TOLERANCE_N}


def rest_by_root(heads: Heads) -> Floats:
    """Scaled pose of a single head: each phase's balance of forces solved with its Jacobian."""
    pose, drag = np.zeros((1, 6)), np.zeros((*heads.base.shape, 3))
    for number in range(PHASES):
        phase = next_phase(heads, number, pose, drag)
        found = root(
            lambda q, phase=phase: phase.slopes(q[None], None)[0][0],
            pose[0],
            jac=lambda q, phase=phase: phase.slopes(q[None], None)[1][0],
            method="hybr",
            options={"xtol": 1e-6},
        )
        pose = found.x[None]
        drag = phase.slopes(pose, None)[3]
    return pose
