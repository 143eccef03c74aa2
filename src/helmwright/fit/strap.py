"""A chin strap on the faces of a trial: lengths to begin with, size of cup, and what it holds."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.anatomy.face import Faces
from helmwright.catalogue.face_places import CUP_WIDTH, WALL
from helmwright.catalogue.parts import ChinStrap
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.contact import GRAVITY
from helmwright.fit.face_outlook import HoldOutlook, PointOutlook, StrapOutlook
from helmwright.fit.outlook import Spread
from helmwright.fit.worn import Worn
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]

CUP_ASIDE = Figure(0.7, "1", ASSUMED, note="edge of a cup aside of the chin, over half its width")
CUP_BEHIND = Figure(0.5, "1", ASSUMED, note="and behind the foremost of the chin, likewise")
FULLEST = Figure(1.5, "1", ASSUMED, note="most that a path along the face exceeds a straight one")
PULL = Figure(44.5, "N", ASSUMED, note="pull by which straps are compared: 10 pounds")

LEAST_ARM_MM = 20.0
"""A strap whose points all together have a shorter lever than this is said not to hold."""


@dataclass(frozen=True)
class _Run:
    """Where the points of one side run from, on n heads.

    Snaps and cup edges ahead, aside and above, shapes (n, p, 3) and (n, 3) [mm]; `fullness` is how
    much longer a path along the face is than a straight one, shape (n,).
    """

    snaps: Floats
    cup: Floats
    chin: Floats
    fullness: Floats


def strap_outlook(worn: Worn, faces: Faces, strap: ChinStrap, front_mm: Floats) -> StrapOutlook:
    """What is to be expected of one strap.

    Parameters
    ----------
    worn
        The build at rest.
    faces
        The faces of the same heads.
    strap
        The part.
    front_mm
        How far ahead the foremost bar is, shape (n,) [mm].

    Notes
    -----
    The strap lies on the face. How much longer that way is than a straight line is known from the
    chin arc: f = (arc / 2) / |chin - ear notch|. A point begins at f |chin - snap| less half the
    cup. All points pull alike, as hard as makes the sheet's strap pull.
    """
    sizes = _sizes(strap, faces.chin_arc_mm)
    if not strap.snaps:
        return StrapOutlook(strap, (), None, sizes, None, None)
    run = _run(worn, faces, strap)
    half_cup = (strap.cup_mm or CUP_WIDTH.value) / 2.0
    starts = start_lengths_mm(run.chin, run.snaps, run.fullness, half_cup)
    ways = unit_ways(run.snaps, run.cup)
    tension = _tension(worn, ways)
    middle = run.snaps[..., [0, 2]]
    front, rear = front_pivot(worn), rear_pivot(worn)
    shares = moment_arms_mm(middle, ways, front).mean(axis=0)
    all_shares = max(float(shares.sum()), LEAST_ARM_MM)
    return StrapOutlook(
        strap=strap,
        points=tuple(
            PointOutlook(
                Spread.of(starts[:, place]),
                float(
                    (
                        (starts[:, place] >= snap.shortest_mm)
                        & (starts[:, place] <= snap.longest_mm)
                    ).mean()
                ),
                float(shares[place]) / all_shares,
            )
            for place, snap in enumerate(strap.snaps)
        ),
        pull_n=Spread.of(tension),
        sizes=sizes,
        off_forward=_hold(worn, middle, ways, tension, front, rear[:, 0]),
        off_backward=_hold(worn, middle, ways, tension, rear, front_mm),
    )


def start_lengths_mm(chin: Floats, snaps: Floats, fullness: Floats, half_cup_mm: float) -> Floats:
    """Length of each point from the edge of the cup, along the face, shape (n, p) [mm]."""
    straight = np.linalg.norm(snaps - chin[:, None, :], axis=-1)
    return np.asarray(np.maximum(fullness[:, None] * straight - half_cup_mm, 0.0))


def face_fullness(chin_arc: Floats, chin: Floats, half_breadth: Floats) -> Floats:
    """How much longer a path along the face is than a straight line, shape (n,) [1].

    Parameters
    ----------
    chin_arc
        Ear notch, chin, ear notch, shape (n,) [mm].
    chin
        Foremost of the chin, ahead of and above the ear notches, shape (n, 2) [mm].
    half_breadth
        Half the breadth between the ear notches, shape (n,) [mm].
    """
    straight = np.sqrt((chin**2).sum(axis=1) + half_breadth**2)
    return np.asarray(np.clip(chin_arc / 2.0 / straight, 1.0, FULLEST.value))


def unit_ways(snaps: Floats, cup: Floats) -> Floats:
    """The way that each point of one side pulls its snap, shape (n, p, 3) [1]."""
    way = cup[:, None, :] - snaps
    return np.asarray(way / np.linalg.norm(way, axis=-1, keepdims=True))


def moment_arms_mm(snaps: Floats, ways: Floats, pivot: Floats) -> Floats:
    """Nose-up moment about a level axis that one newton makes at both snaps of a pair [mm].

    Parameters
    ----------
    snaps
        Ahead and above, shape (n, p, 2) [mm].
    ways
        Unit vectors, shape (n, p, 3).
    pivot
        The axis, ahead and above, shape (n, 2) [mm].

    Notes
    -----
    2 (r_x F_z - r_z F_x), r from the axis to the snap; the two sides' sideways pulls cancel.
    """
    arm = snaps - pivot[:, None, :]
    return np.asarray(2.0 * (arm[..., 0] * ways[..., 2] - arm[..., 1] * ways[..., 0]))


def _sizes(strap: ChinStrap, arcs: Floats) -> tuple[tuple[str, float], ...]:
    names = strap.sizes or ("one size",)
    return tuple(
        (name, float(((arcs >= low) & (arcs < high)).mean()))
        for name, (low, high) in zip(names, strap.chin_arcs_mm, strict=False)
    )


def _run(worn: Worn, faces: Faces, strap: ChinStrap) -> _Run:
    shell = worn.trial.shell
    aside = (strap.across_mm or shell.jaw_width_mm + 2.0 * WALL.value) / 2.0
    ahead = np.array([snap.ahead_mm for snap in strap.snaps])
    above = np.array([snap.above_mm for snap in strap.snaps])
    flat = worn.place(ahead, above)
    snaps = np.stack([flat[..., 0], np.full(flat.shape[:2], aside), flat[..., 1]], axis=-1)
    half = (strap.cup_mm or CUP_WIDTH.value) / 2.0
    chin = np.column_stack([faces.chin_mm[:, 0], np.zeros(len(faces)), faces.chin_mm[:, 1]])
    cup = chin + np.array([-CUP_BEHIND.value * half, CUP_ASIDE.value * half, 0.0])
    fullness = face_fullness(faces.chin_arc_mm, faces.chin_mm, faces.half_breadth_mm)
    return _Run(snaps, cup, chin, fullness)


def _tension(worn: Worn, ways: Floats) -> Floats:
    """Pull at every point that comes nearest to the sheet's pull of the strap, shape (n,) [N]."""
    forward, down = worn.trial.sheet.strap_pull_n
    sums = 2.0 * ways.sum(axis=1)[:, [0, 2]]
    along = sums @ np.array([forward, -down]) / (sums**2).sum(axis=1)
    return np.asarray(np.maximum(along, 0.0) * worn.trial.unknowns.pull[: len(worn)])


def _hold(
    worn: Worn, snaps: Floats, ways: Floats, tension: Floats, pivot: Floats, end_mm: Floats
) -> HoldOutlook | None:
    """What weight and strap hold about a pad, against a pull straight up at a far end.

    None where the snaps lie so that the strap does not hold at all.
    """
    shell = worn.trial.shell
    ahead, above = (np.array([each]) for each in shell.center_of_mass_mm)
    center = worn.place(ahead, above)[:, 0, 0]
    side = np.sign(pivot[:, 0] - end_mm)
    weight = shell.mass_kg * GRAVITY * (pivot[:, 0] - center) * side
    arms = moment_arms_mm(snaps, ways, pivot).sum(axis=1) * side
    if arms.mean() < LEAST_ARM_MM:
        return None
    reach = np.abs(pivot[:, 0] - end_mm)
    held = np.maximum(weight + tension * arms, 0.0)
    carried = np.maximum(PULL.value * reach - weight, 0.0) / np.maximum(arms, LEAST_ARM_MM)
    return HoldOutlook(
        moment_nm=Spread.of(held * 1e-3),
        pull_n=Spread.of(held / reach),
        strap_n=Spread.of(carried),
    )


def front_pivot(worn: Worn) -> Floats:
    """Where a helmet rolls off forward about: the front pad, or the front edge, (n, 2) [mm]."""
    padded = worn.trial.sheet.pad(Zone.FRONT).seats
    return worn.pad_middle(ZONES.index(Zone.FRONT)) if padded else worn.front_edge()


def rear_pivot(worn: Worn) -> Floats:
    """Where it rolls off backward about: the lowest pad behind, or the shell, (n, 2) [mm]."""
    for zone in (Zone.NAPE, Zone.REAR):
        if worn.trial.sheet.pad(zone).seats:
            return worn.pad_middle(ZONES.index(zone))
    behind = -worn.trial.shell.inside_length_mm / 2.0
    return worn.place(np.array([behind]), np.array([0.0]))[:, 0]
