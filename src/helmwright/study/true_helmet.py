"""A helmet on a true head: the phases of contact on exact geometry and the truth's numbers."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.anatomy.surface import HeadShapes
from helmwright.catalogue import ZONES, ModelSheet, Zone
from helmwright.fit import Bands, Build, Rater
from helmwright.fit.contact import CROWN_STROKE, GRAVITY, MOST_LIFT_MM, Rest, Trial
from helmwright.fit.kernels import batch
from helmwright.fit.seating import PadLaws, Seating
from helmwright.fit.unknowns import Unknowns
from helmwright.geometry import Ovoids
from helmwright.geometry.kernels.rays import clearances
from helmwright.study.truth import TrueHead

Floats = npt.NDArray[np.float64]

ROUNDS = 2
"""How often the geometry is taken: at the drawing, and anew at the pose first found."""

_CROWN = ZONES.index(Zone.CROWN)


@dataclass(frozen=True)
class Played:
    """How a build did on a true head: whether it truly fits, and the chance of being found so."""

    fits: bool
    found_right: float
    brow_mm: float


def play(
    head: TrueHead, sheet: ModelSheet, laws: tuple[PadLaws, ...], build: Build, rater: Rater
) -> Played:
    """Put a build on a true head and let the rater check it."""
    trial = true_trial(head, sheet, laws, build.shell)
    rest = true_rest(head, trial, build)
    found = float(rater.found_right(trial, build, rest)[0])
    return Played(bool(rest.right[0]), found, float(rest.brow_mm[0]))


def true_trial(
    head: TrueHead,
    sheet: ModelSheet,
    laws: tuple[PadLaws, ...],
    shell: int,
    bands: Bands | None = None,
) -> Trial:
    """One shell and one true head as a trial, for its judging; its rest is `true_rest`."""
    shapes = HeadShapes(Ovoids(head.surface[None]), np.array([head.brow_mm]))
    unknown = Unknowns(
        zone_mm=np.zeros((1, len(ZONES))),
        contact_mm=np.zeros((1, sum(len(pad.seats) for pad in sheet.pads))),
        brow_mm=np.zeros(1),
        foam=head.foam[None],
        friction=np.array([head.friction]),
        pull=np.array([head.pull]),
    )
    return Trial(sheet, sheet.shell(shell), laws[head.hair_mm], shapes, unknown, bands or Bands())


def true_rest(head: TrueHead, trial: Trial, build: Build) -> Rest:
    """The rest of a build on the true head.

    Notes
    -----
    Gaps and normals are taken anew on the bumpy surface at the pose first found, turned as far as
    it is, and the phases solved again: the geometry is exact near where the helmet comes to rest.
    A contact's stroke at pose q is T - g(q0) + b + n . u(q0) - n . u(q), with gap g, normal n and
    bump b at the pose q0. More rounds move the brow by 0.06 mm (median) and 2 mm (one head in
    twenty); with little friction and a strong strap the rounds need not come to an end, for such
    a helmet slides.
    """
    seat, lift = trial.seating, _lift(head, trial, build)
    pose, poses = np.zeros(6), np.zeros((1, 4, 6))
    stroke, force = np.empty((2, 1, seat.zones.size))
    for _ in range(ROUNDS):
        gaps, normals = _seen_from(head, seat, lift, pose)
        poses[:] = 0.0
        _solve(head, trial, build, lift, gaps, normals, poses, stroke, force)
        pose = poses[0, -1].copy()
    edge = _placed(seat.front_edge[None], lift, pose)[0, 2]
    brow = np.array([edge - head.brow_mm])
    return trial.judge(build, stroke, force, pose[None], brow, slice(0, 1))


def _lift(head: TrueHead, trial: Trial, build: Build) -> float:
    """Height at which the crown pad would be pressed a little, to start from [mm]."""
    seat = trial.seating
    gaps, normals = _seen_from(head, seat, 0.0, np.zeros(6))
    crown = seat.zones == _CROWN
    wanted = trial.laws.thickness_mm[_CROWN, build.pads[_CROWN]] - CROWN_STROKE.value
    rise = normals[crown, 2].mean()
    return float(np.clip((wanted - gaps[crown].mean()) / rise, -MOST_LIFT_MM, MOST_LIFT_MM))


def _seen_from(head: TrueHead, seat: Seating, lift: float, pose: Floats) -> tuple[Floats, Floats]:
    """Gaps, as at the drawing, and normals of the contacts of a shell at a pose: (s,), (s, 3)."""
    points = _placed(seat.points, lift, pose)
    facing = seat.inward @ _turn(pose[3:]).T
    gaps, normals = np.empty((1, 1, len(points))), np.empty((1, 1, len(points), 3))
    clearances(head.surface[None], points, facing, np.zeros((1, 1)), gaps, normals)
    touched = points + gaps[0, 0][:, None] * facing
    raised = seat.points + np.array([0.0, 0.0, lift])
    moved = pose[:3] + np.cross(pose[3:], raised)
    along = (normals[0, 0] * moved).sum(axis=1)
    return gaps[0, 0] - head.bumps.at(touched) - along, normals[0, 0]


def _placed(points: Floats, lift: float, pose: Floats) -> Floats:
    raised = points + np.array([0.0, 0.0, lift])
    return np.asarray(raised @ _turn(pose[3:]).T + pose[:3])


def _turn(rotation: Floats) -> Floats:
    """Rotation matrix of a rotation vector [rad] (Rodrigues)."""
    angle = float(np.linalg.norm(rotation))
    x, y, z = rotation
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    if angle < 1e-9:
        return np.asarray(np.eye(3) + cross)
    bend = (1.0 - np.cos(angle)) / angle**2
    return np.asarray(np.eye(3) + np.sin(angle) / angle * cross + bend * cross @ cross)


def _solve(
    head: TrueHead, trial: Trial, build: Build, lift: float, gaps: Floats, normals: Floats,
    poses: Floats, stroke: Floats, force: Floats,
) -> None:  # fmt: skip
    seat, (thickness, knots, weights) = trial.seating, trial.pads(build)
    load, point, strap, strap_point, on, kept = trial.loads
    load, point, kept = load.copy(), point.copy(), kept.copy()
    weight = trial.shell.mass_kg * GRAVITY
    load[0, 2] = -weight - head.push_n
    point[0, 0] = point[1, 0] * weight / (weight + head.push_n)
    kept[3] = head.kept
    batch.rest_on_heads(
        0, 1, seat.points, seat.areas_cm2, seat.zones, seat.drag_n_per_mm * head.grip,
        gaps[None], normals[None], np.array([lift]), np.zeros((1, len(ZONES))),
        head.foam[None], np.array([head.friction]), np.array([head.pull]),
        thickness + head.thickness_mm, knots, weights, head.slide_mm, load, point, strap,
        strap_point, on, kept, poses, stroke, force,
    )  # fmt: skip
