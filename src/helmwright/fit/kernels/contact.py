"""The rest of a helmet on a head: four phases, each a convex problem in six degrees of freedom.

See `helmwright.fit.contact` for the energy that each phase minimizes. Lengths in mm, forces in N,
pressures in kPa, areas in cm2 (1 kPa on 1 cm2 is 0.1 N), rotations in rad.
"""

import math

import numpy as np
import numpy.typing as npt
from numba import njit

from helmwright.fit.kernels.law import pressure

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

PHASES = 4
RIDGE_N_PER_MM = 1e-3
RIDGE_NMM_PER_RAD = 10.0
FORCE_TOLERANCE_N = 1e-2
MOST_STEPS = 60
AT_THE_CAP = 1.0 + 1e-9
"""A contact that held exactly its cap starts the next phase there: rounding must not choose
whether it sticks, or mirrored heads would take other steps."""


@njit(cache=True, error_model="numpy", nogil=True, fastmath={"contract", "nsz", "arcp"})
def _gather(
    points: Floats, normals: Floats, base: Floats, zones: Integers, areas: Floats, knots: Floats,
    weights: Floats, foam: Floats, drag_n_per_mm: Floats, friction: float, anchors: Floats,
    load: Floats, moment: Floats, q: Floats, gradient: Floats, hessian: Floats,
    normal_force: Floats, drag: Floats,
) -> None:  # fmt: skip
    """Gradient and Hessian of a phase's energy at q, with caps from the normal forces there."""
    for r in range(6):
        ridge = RIDGE_N_PER_MM if r < 3 else RIDGE_NMM_PER_RAD
        gradient[r] = ridge * q[r] - (load[r] if r < 3 else moment[r - 3])
        for c in range(6):
            hessian[r, c] = ridge if r == c else 0.0
    tx, ty, tz, wx, wy, wz = q[0], q[1], q[2], q[3], q[4], q[5]
    for i in range(points.shape[0]):
        px, py, pz = points[i, 0], points[i, 1], points[i, 2]
        nx, ny, nz = normals[i, 0], normals[i, 1], normals[i, 2]
        ux, uy, uz = tx + wy * pz - wz * py, ty + wz * px - wx * pz, tz + wx * py - wy * px
        along = nx * ux + ny * uy + nz * uz
        z = zones[i]
        value, slope = pressure(knots[z], weights[z], base[i] - along)
        force = 0.1 * areas[i] * foam[z] * value
        normal_force[i] = force
        if force <= 0.0:
            drag[i, 0], drag[i, 1], drag[i, 2] = 0.0, 0.0, 0.0
            continue
        stiff = 0.1 * areas[i] * foam[z] * slope
        dx = ux - along * nx - anchors[i, 0]
        dy = uy - along * ny - anchors[i, 1]
        dz = uz - along * nz - anchors[i, 2]
        far = math.sqrt(dx * dx + dy * dy + dz * dz)
        cap = friction * force
        grip, slip = drag_n_per_mm[i], 0.0
        if grip * far > cap * AT_THE_CAP:
            grip = cap / far
            slip = grip / (far * far)
        fx, fy, fz = grip * dx, grip * dy, grip * dz
        drag[i, 0], drag[i, 1], drag[i, 2] = fx, fy, fz
        gx, gy, gz = fx - force * nx, fy - force * ny, fz - force * nz
        gradient[0] += gx
        gradient[1] += gy
        gradient[2] += gz
        gradient[3] += py * gz - pz * gy
        gradient[4] += pz * gx - px * gz
        gradient[5] += px * gy - py * gx
        both = stiff - grip
        k00 = grip + both * nx * nx - slip * dx * dx
        k11 = grip + both * ny * ny - slip * dy * dy
        k22 = grip + both * nz * nz - slip * dz * dz
        k01 = both * nx * ny - slip * dx * dy
        k02 = both * nx * nz - slip * dx * dz
        k12 = both * ny * nz - slip * dy * dz
        m00, m01, m02 = k01 * pz - k02 * py, k02 * px - k00 * pz, k00 * py - k01 * px
        m10, m11, m12 = k11 * pz - k12 * py, k12 * px - k01 * pz, k01 * py - k11 * px
        m20, m21, m22 = k12 * pz - k22 * py, k22 * px - k02 * pz, k02 * py - k12 * px
        hessian[0, 0] += k00
        hessian[1, 0] += k01
        hessian[1, 1] += k11
        hessian[2, 0] += k02
        hessian[2, 1] += k12
        hessian[2, 2] += k22
        hessian[3, 0] -= m00
        hessian[3, 1] -= m10
        hessian[3, 2] -= m20
        hessian[4, 0] -= m01
        hessian[4, 1] -= m11
        hessian[4, 2] -= m21
        hessian[5, 0] -= m02
        hessian[5, 1] -= m12
        hessian[5, 2] -= m22
        hessian[3, 3] += pz * m10 - py * m20
        hessian[4, 3] += px * m20 - pz * m00
        hessian[4, 4] += px * m21 - pz * m01
        hessian[5, 3] += py * m00 - px * m10
        hessian[5, 4] += py * m01 - px * m11
        hessian[5, 5] += py * m02 - px * m12


@njit(cache=True, error_model="numpy", nogil=True, fastmath={"contract", "nsz", "arcp"})
def _solve(hessian: Floats, gradient: Floats, step: Floats) -> None:
    """Step = -hessian^-1 gradient by LDL^T in place; only the lower triangle is read."""
    for c in range(6):
        for k in range(c):
            hessian[c, c] -= hessian[c, k] * hessian[c, k] * hessian[k, k]
        for r in range(c + 1, 6):
            total = hessian[r, c]
            for k in range(c):
                total -= hessian[r, k] * hessian[c, k] * hessian[k, k]
            hessian[r, c] = total / hessian[c, c]
    for r in range(6):
        total = -gradient[r]
        for k in range(r):
            total -= hessian[r, k] * step[k]
        step[r] = total
    for r in range(6):
        step[r] /= hessian[r, r]
    for r in range(5, -1, -1):
        for k in range(r + 1, 6):
            step[r] -= hessian[k, r] * step[k]


@njit(cache=True, error_model="numpy", nogil=True, fastmath={"contract", "nsz", "arcp"})
def _settled(gradient: Floats) -> bool:
    """Whether no force is left over: N, and N on a 100 mm arm for moments."""
    for r in range(6):
        left = abs(gradient[r]) if r < 3 else abs(gradient[r]) * 0.01
        if left > FORCE_TOLERANCE_N:
            return False
    return True


@njit(cache=True, error_model="numpy", nogil=True, fastmath={"contract", "nsz", "arcp"})
def settle_phase(
    points: Floats, normals: Floats, base: Floats, zones: Integers, areas: Floats, knots: Floats,
    weights: Floats, foam: Floats, drag_n_per_mm: Floats, friction: float, anchors: Floats,
    load: Floats, moment: Floats, q: Floats, normal_force: Floats, drag: Floats, work: Floats,
) -> int:  # fmt: skip
    """Newton's method for one phase, from q and into q; returns the steps taken, or -1.

    Caps follow the normal forces of the same phase. A step that turns the slope along itself is
    shortened to where a straight line between the two slopes is level.
    """
    gradient, hessian, step, trial = work[0], work[1:7], work[7], work[8]
    _gather(
        points, normals, base, zones, areas, knots, weights, foam, drag_n_per_mm, friction,
        anchors, load, moment, q, gradient, hessian, normal_force, drag
    )  # fmt: skip
    for count in range(MOST_STEPS):
        if _settled(gradient):
            return count
        _solve(hessian, gradient, step)
        before, size = 0.0, 0.0
        for r in range(6):
            before += gradient[r] * step[r]
            size = max(size, abs(step[r]) if r < 3 else abs(step[r]) * 100.0)
        share = min(1.0, 8.0 / size)
        if count > 25:
            share *= 0.5
        for _ in range(8):
            for r in range(6):
                trial[r] = q[r] + share * step[r]
            _gather(
                points, normals, base, zones, areas, knots, weights, foam, drag_n_per_mm,
                friction, anchors, load, moment, trial, gradient, hessian, normal_force, drag
            )  # fmt: skip
            after = 0.0
            for r in range(6):
                after += gradient[r] * step[r]
            if after <= 0.6 * abs(before):
                break
            share *= max(abs(before) / (abs(before) + after), 0.1)
        for r in range(6):
            q[r] = trial[r]
    return MOST_STEPS if _settled(gradient) else -1


@njit(cache=True, error_model="numpy", nogil=True, fastmath={"contract", "nsz", "arcp"})
def set_anchors(
    points: Floats, normals: Floats, drag_n_per_mm: Floats, q: Floats, drag: Floats, kept: float,
    anchors: Floats,
) -> None:  # fmt: skip
    """Anchor each contact so that at q it holds that share of its drag."""
    for i in range(points.shape[0]):
        px, py, pz = points[i, 0], points[i, 1], points[i, 2]
        ux = q[0] + q[4] * pz - q[5] * py
        uy = q[1] + q[5] * px - q[3] * pz
        uz = q[2] + q[3] * py - q[4] * px
        along = normals[i, 0] * ux + normals[i, 1] * uy + normals[i, 2] * uz
        share = kept / drag_n_per_mm[i]
        anchors[i, 0] = ux - along * normals[i, 0] - share * drag[i, 0]
        anchors[i, 1] = uy - along * normals[i, 1] - share * drag[i, 1]
        anchors[i, 2] = uz - along * normals[i, 2] - share * drag[i, 2]


@njit(cache=True, error_model="numpy", nogil=True, fastmath={"contract", "nsz", "arcp"})
def set_slide_anchors(normals: Floats, slide_mm: float, anchors: Floats) -> None:
    """Anchor each contact where it first touched, the slide above: the drag of coming down."""
    for i in range(normals.shape[0]):
        nx, ny, nz = normals[i, 0], normals[i, 1], normals[i, 2]
        anchors[i, 0] = -nz * nx * slide_mm
        anchors[i, 1] = -nz * ny * slide_mm
        anchors[i, 2] = (1.0 - nz * nz) * slide_mm


@njit(cache=True, error_model="numpy", nogil=True, fastmath={"contract", "nsz", "arcp"})
def rest(
    points: Floats, normals: Floats, base: Floats, zones: Integers, areas: Floats, knots: Floats,
    weights: Floats, foam: Floats, drag_n_per_mm: Floats, friction: float, slide_mm: float,
    loads: Floats, moments: Floats, kept: Floats, poses: Floats, normal_force: Floats,
    drag: Floats, anchors: Floats, work: Floats,
) -> bool:  # fmt: skip
    """All four phases of one helmet on one head; returns False where one did not settle.

    Parameters
    ----------
    points, normals
        Contacts and the head's outward normals there, shape (s, 3) [mm], [1].
    base
        Stroke of each contact at the pose of the drawing, shape (s,) [mm].
    zones, areas
        Zone index and area of each contact, shape (s,) [1], [cm2].
    knots, weights, foam
        Each zone's pad law, shape (z, k), and its stiffness factor, shape (z,).
    drag_n_per_mm, friction, slide_mm
        Tangential stiffness, shape (s,) [N/mm]; coefficient [1]; slide-in [mm].
    loads, moments
        Of each phase, shape (4, 3) [N], [N mm].
    kept
        Share of the drag that each phase starts with, shape (4,); the first is not read.
    poses
        In: where to start the first phase; out: the rest of each, shape (4, 6) [mm], [rad].
    normal_force, drag
        Out, of the last phase, shape (s,) and (s, 3) [N].
    anchors, work
        Scratch, shape (s, 3) and (9, 6).
    """
    good = True
    for phase in range(PHASES):
        if phase == 0:
            set_slide_anchors(normals, slide_mm, anchors)
        else:
            poses[phase] = poses[phase - 1]
            set_anchors(
                points, normals, drag_n_per_mm, poses[phase - 1], drag, kept[phase], anchors
            )
        count = settle_phase(
            points, normals, base, zones, areas, knots, weights, foam, drag_n_per_mm, friction,
            anchors, loads[phase], moments[phase], poses[phase], normal_force, drag, work
        )  # fmt: skip
        good = good and count >= 0
    return good
