"""The contact of one helmet on one head once more, in plain NumPy and SciPy.

Written from the energy that `helmwright.fit.contact` states, without its compiled code.
"""

from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import minimize

from helmwright.catalogue import ZONES
from helmwright.fit import Build
from helmwright.fit.contact import SLIDE_IN, Trial
from helmwright.fit.law import PadLaw
from helmwright.geometry.kernels.rays import clearances

RADIANS = 100.0
"""Rotations are counted as displacements on an arm of 100 mm, so that all six are of one size."""


@dataclass
class Contact:
    """One helmet on one head.

    Parameters
    ----------
    points, normals, base
        Contacts, outward normals of the head, and strokes in the drawn pose.
    areas, laws, foam, grip
        Area [cm2], law, foam factor and tangential stiffness [N/mm] of each contact.
    friction
        Coefficient.
    anchors, caps
        What the phases change.
    """

    points: np.ndarray
    normals: np.ndarray
    base: np.ndarray
    areas: np.ndarray
    laws: list[PadLaw]
    foam: np.ndarray
    grip: np.ndarray
    friction: float
    anchors: np.ndarray = field(default_factory=lambda: np.zeros((0, 3)))
    caps: np.ndarray = field(default_factory=lambda: np.zeros(0))

    def displacement(self, q: np.ndarray) -> np.ndarray:
        return q[:3] + np.cross(q[3:], self.points)

    def stroke(self, q: np.ndarray) -> np.ndarray:
        return self.base - (self.normals * self.displacement(q)).sum(axis=1)

    def tangential(self, q: np.ndarray) -> np.ndarray:
        u = self.displacement(q)
        return u - self.normals * (self.normals * u).sum(axis=1, keepdims=True)

    def normal_force(self, q: np.ndarray) -> np.ndarray:
        pressure = [law.pressure(s) for law, s in zip(self.laws, self.stroke(q), strict=True)]
        return 0.1 * self.areas * self.foam * np.array(pressure)

    def drag(self, q: np.ndarray) -> np.ndarray:
        pull = self.grip[:, None] * (self.tangential(q) - self.anchors)
        size = np.linalg.norm(pull, axis=1)
        return pull * np.minimum(1.0, self.caps / np.maximum(size, 1e-12))[:, None]

    def energy(self, q: np.ndarray, force: np.ndarray, moment: np.ndarray) -> float:
        squeezed = [law.work(s) for law, s in zip(self.laws, self.stroke(q), strict=True)]
        far = np.linalg.norm(self.tangential(q) - self.anchors, axis=1)
        sticks = self.grip * far <= self.caps
        slipped = self.caps * far - self.caps**2 / (2.0 * self.grip)
        dragged = np.where(sticks, self.grip * far**2 / 2.0, slipped)
        whisper = 0.5e-3 * q[:3] @ q[:3] + 5.0 * q[3:] @ q[3:]
        pressed = (0.1 * self.areas * self.foam * np.array(squeezed)).sum()
        return float(pressed + dragged.sum() + whisper - force @ q[:3] - moment @ q[3:])

    def gradient(self, q: np.ndarray, force: np.ndarray, moment: np.ndarray) -> np.ndarray:
        on_head = self.drag(q) - self.normals * self.normal_force(q)[:, None]
        turning = np.cross(self.points, on_head).sum(axis=0)
        push = 1e-3 * q[:3] + on_head.sum(axis=0) - force
        return np.concatenate([push, 10.0 * q[3:] + turning - moment])

    def minimum(self, start: np.ndarray, force: np.ndarray, moment: np.ndarray) -> np.ndarray:
        """The pose of least energy under the caps as they are."""
        scale = np.array([1.0, 1.0, 1.0, *[1.0 / RADIANS] * 3])
        found = minimize(
            lambda x: self.energy(scale * x, force, moment),
            start / scale,
            jac=lambda x: scale * self.gradient(scale * x, force, moment),
            method="BFGS",
            options={"gtol": 1e-5, "maxiter": 2000},
        )
        return scale * found.x

    def settled(self, start: np.ndarray, force: np.ndarray, moment: np.ndarray) -> np.ndarray:
        """The pose of least energy whose caps are its own normal forces, by repetition."""
        q = self.minimum(start, force, moment)
        for _ in range(200):
            self.caps = 0.5 * (self.caps + self.friction * self.normal_force(q))
            q, before = self.minimum(q, force, moment), q
            if np.abs(q - before)[:3].max() < 1e-7:
                break
        return q

    def keep(self, q: np.ndarray, share: float) -> None:
        """Anchor every contact so that it holds a share of its drag at a pose."""
        self.anchors = self.tangential(q) - share * self.drag(q) / self.grip[:, None]


def contact_of(trial: Trial, build: Build, head: int) -> Contact:
    """One head of a trial in one build."""
    seat, lift = trial.seating, trial.lift_mm(build)[head]
    row = trial.heads.ovoids.rows[head : head + 1]
    gaps, normals = np.empty((1, 1, seat.zones.size)), np.empty((1, 1, seat.zones.size, 3))
    clearances(row, seat.points, seat.inward, np.array([[lift]]), gaps, normals)
    zones = [ZONES[zone] for zone in seat.zones]
    thickness = np.array(
        [trial.laws.thickness_mm[zone, build.pads[zone]] for zone in seat.zones], dtype=float
    )
    unknown = trial.unknowns
    return Contact(
        points=seat.points + np.array([0.0, 0.0, lift]),
        normals=normals[0, 0],
        base=thickness + unknown.zone_mm[head][seat.zones] + unknown.contact_mm[head] - gaps[0, 0],
        areas=seat.areas_cm2,
        laws=[trial.laws.law(zone, build.pads[ZONES.index(zone)]) for zone in zones],
        foam=unknown.foam[head][seat.zones],
        grip=seat.drag_n_per_mm,
        friction=float(unknown.friction[head]),
    )


def phases_of(trial: Trial, build: Build, head: int) -> list[tuple[np.ndarray, Contact]]:
    """The four rests of one head, each with the contact in the state that it has there."""
    lift, pull = trial.lift_mm(build)[head], trial.unknowns.pull[head]
    force, point, strap, strap_point, on, kept = trial.loads
    up, q, found = np.array([0.0, 0.0, lift]), np.zeros(6), []
    contact = contact_of(trial, build, head)
    slide = np.array([0.0, 0.0, SLIDE_IN.value])
    contact.anchors = slide - contact.normals * (contact.normals @ slide)[:, None]
    contact.caps = contact.friction * contact.normal_force(q)
    for phase in range(4):
        if phase:
            contact.keep(q, kept[phase])
        tug = on[phase] * pull * strap
        moment = np.cross(point[phase] + up, force[phase]) + np.cross(strap_point + up, tug)
        q = contact.settled(q, force[phase] + tug, moment)
        found.append((q, Contact(**vars(contact))))
    return found
