"""All heads at once by Newton's method in plain NumPy, written with care."""

import numpy as np
import numpy.typing as npt

from bench.phases import PHASES, Heads, Phase, next_phase

Floats = npt.NDArray[np.float64]

TOLERANCE_N = 1e-2
MOST_STEPS = 60


def rest_all(heads: Heads) -> Floats:
    """Scaled poses of all heads after the last phase, shape (h, 6)."""
    pose = np.zeros((len(heads), 6))
    drag = np.zeros((*heads.base.shape, 3))
    for number in range(PHASES):
        pose, drag = _settle(next_phase(heads, number, pose, drag), pose)
    return pose


def _settle(phase: Phase, start: Floats) -> tuple[Floats, Floats]:
    """Newton's method; heads that have settled are left out of the next steps."""
    pose, drag = start.copy(), np.zeros((*phase.heads.base.shape, 3))
    active = np.arange(len(phase.heads))
    part = phase
    gradient, hessian, _, held = part.slopes(pose, None)
    drag[active] = held
    for count in range(MOST_STEPS):
        left = np.abs(gradient).max(axis=1) > TOLERANCE_N
        if not left.any():
            break
        active, gradient, hessian = active[left], gradient[left], hessian[left]
        part = _of(phase, active)
        step = -np.linalg.solve(hessian, gradient[..., None])[..., 0]
        pose[active], gradient, hessian, drag[active] = _walked(
            part, pose[active], step, gradient, hurried=count <= 25
        )
    return pose, drag


def _walked(
    phase: Phase, pose: Floats, step: Floats, gradient: Floats, *, hurried: bool
) -> tuple[Floats, Floats, Floats, Floats]:
    """One step, shortened per head until the slope along it no longer turns."""
    before = np.abs((gradient * step).sum(axis=1))
    share = np.minimum(1.0, 8.0 / np.maximum(np.abs(step).max(axis=1), 1e-12))
    share *= 1.0 if hurried else 0.5
    for _ in range(8):
        there = pose + share[:, None] * step
        slope, hessian, _, drag = phase.slopes(there, None)
        after = (slope * step).sum(axis=1)
        far = after > 0.6 * before
        if not far.any():
            break
        share = np.where(far, share * np.maximum(before / (before + np.abs(after)), 0.1), share)
    return there, slope, hessian, drag


def _of(phase: Phase, chosen: npt.NDArray[np.int64]) -> Phase:
    heads = phase.heads
    part = Heads(
        heads.jacobian[chosen], heads.normals[chosen], heads.base[chosen], heads.knots,
        heads.weights[chosen], heads.grip, heads.friction[chosen], heads.loads[:, chosen],
        heads.kept, heads.brow[chosen], heads.brow_slope,
    )  # fmt: skip
    return Phase(part, phase.anchors[chosen], phase.load[chosen])
