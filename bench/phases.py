"""The rest's own problem, written out in NumPy: what general solvers are given.

The equations are those of `helmwright.fit.contact`, and nothing here calls the compiled code.
Poses are three translations [mm] and three rotations times ARM_MM, so that all six have one size.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.fit.contact import SLIDE_IN, Trial
from helmwright.fit.outlook import Build
from helmwright.geometry.kernels.rays import clearances

Floats = npt.NDArray[np.float64]

ARM_MM = 100.0
RIDGE = np.array([1e-3] * 3 + [1e-3] * 3)
"""Whisper of stiffness in the scaled pose [N/mm]: 10 N mm/rad over ARM_MM squared."""


@dataclass(frozen=True)
class Heads:
    """One build on h heads, ready to be solved.

    Parameters
    ----------
    jacobian
        Displacement of each contact by the scaled pose, shape (h, s, 3, 6).
    normals, base
        Of the head at each contact, shapes (h, s, 3), (h, s).
    knots, weights
        Force law of each contact: N = sum of w max(s - x, 0)^2, shapes (s, k), (h, s, k) [N].
    grip
        Tangential stiffness, shape (s,) [N/mm].
    friction
        Shape (h,).
    loads
        Load of each phase on the scaled pose, shape (4, h, 6) [N].
    kept
        Share of the drag that each phase starts with, shape (4,).
    edge
        Brow height at pose zero and its slope, shapes (h,), (6,).
    """

    jacobian: Floats
    normals: Floats
    base: Floats
    knots: Floats
    weights: Floats
    grip: Floats
    friction: Floats
    loads: Floats
    kept: Floats
    brow: Floats
    brow_slope: Floats

    def __len__(self) -> int:
        return int(self.base.shape[0])

    def one(self, index: int) -> "Heads":
        """A single head of them."""
        part = slice(index, index + 1)
        return Heads(
            self.jacobian[part], self.normals[part], self.base[part], self.knots,
            self.weights[part], self.grip, self.friction[part], self.loads[:, part], self.kept,
            self.brow[part], self.brow_slope,
        )  # fmt: skip

    def brow_mm(self, pose: Floats) -> Floats:
        """Brow height at scaled poses (h, 6), shape (h,) [mm]."""
        return np.asarray(self.brow + pose @ self.brow_slope)

    def slide_anchors(self) -> Floats:
        """Anchors of the first phase: the slide-in above, along the head, shape (h, s, 3)."""
        up = np.array([0.0, 0.0, SLIDE_IN.value])
        along = self.normals @ up
        return np.asarray(up - along[..., None] * self.normals)


def heads_of(trial: Trial, build: Build) -> Heads:
    """The problem of one build on a trial's heads, from the trial's public parts alone."""
    seat, unknown, count = trial.seating, trial.unknowns, len(trial)
    lift = trial.lift_mm(build)
    gaps, normals = np.empty((count, 1, seat.zones.size)), np.empty((count, 1, seat.zones.size, 3))
    clearances(trial.heads.ovoids.rows, seat.points, seat.inward, lift[:, None], gaps, normals)
    raised = seat.points + lift[:, None, None] * np.array([0.0, 0.0, 1.0])
    thickness, knots, weights = trial.pads(build)
    zones = seat.zones
    stiff = 0.1 * seat.areas_cm2[None, :, None] * unknown.foam[:, zones, None] * weights[zones]
    slope = _displacement(seat.front_edge[None])[0, 2]
    return Heads(
        jacobian=_displacement(raised),
        normals=normals[:, 0],
        base=thickness[zones] + unknown.zone_mm[:, zones] + unknown.contact_mm - gaps[:, 0],
        knots=knots[zones],
        weights=stiff,
        grip=seat.drag_n_per_mm,
        friction=unknown.friction,
        loads=_loads(trial, lift),
        kept=trial.loads[5],
        brow=seat.front_edge[2] + lift - trial.heads.brow_mm + unknown.brow_mm,
        brow_slope=slope,
    )


def _displacement(points: Floats) -> Floats:
    """Slope of u = t + w x p in the scaled pose, shape (..., 3, 6)."""
    found = np.zeros((*points.shape[:-1], 3, 6))
    x, y, z = points[..., 0], points[..., 1], points[..., 2]
    found[..., 0, 0] = found[..., 1, 1] = found[..., 2, 2] = 1.0
    found[..., 0, 4], found[..., 0, 5] = z / ARM_MM, -y / ARM_MM
    found[..., 1, 3], found[..., 1, 5] = -z / ARM_MM, x / ARM_MM
    found[..., 2, 3], found[..., 2, 4] = y / ARM_MM, -x / ARM_MM
    return found


def _loads(trial: Trial, lift: Floats) -> Floats:
    force, point, strap, strap_point, on, _ = trial.loads
    up = lift[:, None] * np.array([0.0, 0.0, 1.0])
    found = np.empty((force.shape[0], lift.size, 6))
    for phase in range(force.shape[0]):
        pull = on[phase] * trial.unknowns.pull[:, None] * strap
        moment = np.cross(point[phase] + up, force[phase]) + np.cross(strap_point + up, pull)
        found[phase] = np.concatenate([force[phase] + pull, moment / ARM_MM], axis=1)
    return found


@dataclass(frozen=True)
class Phase:
    """One phase on h heads: its energy, with given caps, and its balance with caps that follow."""

    heads: Heads
    anchors: Floats
    load: Floats

    def contact(self, pose: Floats) -> tuple[Floats, Floats, Floats]:
        """Stroke (h, s), drag displacement (h, s, 3) and displacement (h, s, 3) at poses."""
        heads = self.heads
        moved = (heads.jacobian @ pose[:, None, :, None])[..., 0]
        along = (moved * heads.normals).sum(axis=-1)
        tangential = moved - along[..., None] * heads.normals
        return heads.base - along, tangential - self.anchors, tangential

    def pressing(self, stroke: Floats) -> tuple[Floats, Floats, Floats]:
        """Work, force and stiffness of each contact, each (h, s) [N mm], [N], [N/mm]."""
        past = np.maximum(stroke[..., None] - self.heads.knots, 0.0)
        weights = self.heads.weights
        force = (weights * past**2).sum(axis=-1)
        return (weights * past**3).sum(axis=-1) / 3.0, force, 2.0 * (weights * past).sum(axis=-1)

    def energy(self, pose: Floats, caps: Floats) -> Floats:
        """Energy at poses (h, 6) with given caps (h, s), shape (h,) [N mm]."""
        stroke, drag, _ = self.contact(pose)
        work = self.pressing(stroke)[0].sum(axis=1)
        far, grip = np.linalg.norm(drag, axis=-1), self.heads.grip
        held = 0.5 * grip * far**2
        slipped = caps * far - caps**2 / (2.0 * grip)
        work = work + np.where(grip * far <= caps, held, slipped).sum(axis=1)
        outside = (self.load * pose).sum(axis=1) - 0.5 * (RIDGE * pose**2).sum(axis=1)
        return np.asarray(work - outside)

    def slopes(self, pose: Floats, caps: Floats | None) -> tuple[Floats, Floats, Floats, Floats]:
        """Gradient (h, 6), Hessian (h, 6, 6), normal force (h, s), drag force (h, s, 3).

        With `caps` None, caps follow the normal forces at the pose, and the Hessian leaves out
        how they change.
        """
        heads = self.heads
        stroke, drag, _ = self.contact(pose)
        _, force, stiff = self.pressing(stroke)
        cap = heads.friction[:, None] * force if caps is None else caps
        far = np.maximum(np.linalg.norm(drag, axis=-1), 1e-12)
        slips = heads.grip * far > cap
        grip = np.where(slips, cap / far, heads.grip)
        holding = grip[..., None] * drag
        pushed = holding - force[..., None] * heads.normals
        flat = heads.jacobian.reshape(len(heads), -1, 6)
        turned = flat.transpose(0, 2, 1)
        gradient = (turned @ pushed.reshape(len(heads), -1, 1))[..., 0] - self.load + RIDGE * pose
        block = _blocks(heads.normals, drag, stiff, grip, np.where(slips, grip / far**2, 0.0))
        bent = (block @ heads.jacobian).reshape(len(heads), -1, 6)
        return gradient, turned @ bent + np.diag(RIDGE), force, holding


def _blocks(normals: Floats, drag: Floats, stiff: Floats, grip: Floats, slip: Floats) -> Floats:
    """Stiffness of each contact, shape (h, s, 3, 3)."""
    outer = normals[..., :, None] * normals[..., None, :]
    found = (stiff - grip)[..., None, None] * outer
    found -= slip[..., None, None] * (drag[..., :, None] * drag[..., None, :])
    return np.asarray(found + grip[..., None, None] * np.eye(3))


def next_phase(heads: Heads, number: int, pose: Floats, drag: Floats) -> Phase:
    """The phase of that number after a rest at `pose` that held `drag` forces."""
    if number == 0:
        return Phase(heads, heads.slide_anchors(), heads.loads[0])
    moved = (heads.jacobian @ pose[:, None, :, None])[..., 0]
    along = (moved * heads.normals).sum(axis=-1)
    tangential = moved - along[..., None] * heads.normals
    kept = heads.kept[number] / heads.grip
    return Phase(heads, tangential - kept[None, :, None] * drag, heads.loads[number])


PHASES = 4
