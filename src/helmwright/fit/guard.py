"""One face guard before the faces of a trial: sight, nose, and what its mass does to the neck."""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from helmwright.anatomy.face import Faces
from helmwright.catalogue.face_places import BAR_THICKNESS, USUAL_AHEAD, USUAL_LOWEST, usual_places
from helmwright.catalogue.parts import FaceGuard
from helmwright.catalogue.sheet import Shell
from helmwright.fit.contact import GRAVITY, Trial
from helmwright.fit.face_outlook import GuardOutlook, LoadOutlook
from helmwright.fit.outlook import Build, Spread
from helmwright.fit.sight import (
    LEAST_UP,
    NOTHING,
    nose_clearance,
    side_sight_deg,
    sight_past,
)
from helmwright.fit.worn import Worn
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, BEIER_1979, CHANCEY_2007

Floats = npt.NDArray[np.float64]

HEAD_CENTER = (
    Figure(8.0, "mm", BEIER_1979, note="head's center of mass ahead of the ear canals"),
    Figure(31.0, "mm", BEIER_1979, note="and above the Frankfurt plane"),
)
HEAD_MASS = Figure(
    4.3, "kg", BEIER_1979, spread=0.4, note="head alone; 3.7 to 5.8, mean from memory"
)
NECK_JOINT = (
    Figure(-18.4, "mm", CHANCEY_2007, note="joint of skull and neck, ahead of the ear canals"),
    Figure(-31.0, "mm", CHANCEY_2007, note="and above them"),
)
SIDES_AHEAD = Figure(45.0, "mm", ASSUMED, note="where a guard meets the sides, ahead of the ears")
ARC_SHARE = Figure(
    0.64,
    "1",
    ASSUMED,
    note="center of mass of a guard between sides and front; 2/pi for a half arc",
)
CENTER_DOUBT = Figure(0.0, "mm", ASSUMED, spread=10.0, note="doubt about that center of mass")


@dataclass(frozen=True)
class Guarded:
    """A guard on a shell: where its bars and its center of mass are in the shell.

    Parameters
    ----------
    guard
        The part.
    ahead_mm, below_mm
        Of the front edge, shape (n, b) [mm]; drawn where the sheet is silent.
    center_mm
        Center of mass ahead of and above the ear openings, shape (n, 2) [mm].
    """

    guard: FaceGuard
    ahead_mm: Floats
    below_mm: Floats
    center_mm: Floats

    @property
    def radius_mm(self) -> float:
        """Half the thickness of a bar [mm]."""
        return (self.guard.bar_mm or BAR_THICKNESS.value) / 2.0


def draw_guard(guard: FaceGuard, edge: Floats, count: int, rng: np.random.Generator) -> Guarded:
    """A guard's bars and center of mass, with what the sheet leaves open drawn.

    Parameters
    ----------
    guard
        The part.
    edge
        Middle of the shell's front edge, ahead of and above the ear openings, shape (2,) [mm].
    count
        How many draws.
    rng
        The random generator.
    """
    places = guard.places or usual_places(guard.covers, guard.bars)
    doubt = 0.0 if guard.places else 1.0
    shift = rng.standard_normal((count, 2)) * doubt
    ahead = np.array([place.ahead_mm for place in places]) + shift[:, :1] * _sd(USUAL_AHEAD)
    below = np.array([place.below_mm for place in places]) + shift[:, 1:] * _sd(USUAL_LOWEST)
    if guard.mass_center is not None:
        at = (edge[0] + guard.mass_center.ahead_mm, edge[1] - guard.mass_center.below_mm)
        return Guarded(guard, ahead, below, np.tile(at, (count, 1)))
    front = edge[0] + ahead.mean(axis=1)
    x = SIDES_AHEAD.value + ARC_SHARE.value * (front - SIDES_AHEAD.value)
    x = x + rng.standard_normal(count) * _sd(CENTER_DOUBT)
    return Guarded(guard, ahead, below, np.column_stack([x, edge[1] - below.mean(axis=1)]))


def _sd(figure: Figure) -> float:
    return figure.spread or 0.0


def with_guard(shell: Shell, guarded: Guarded, first: Guarded | None) -> Shell:
    """A shell whose mass and center are those with another guard than the first listed.

    The shell as it stands where either mass is not known.
    """
    if first is None or first.guard.mass_kg is None or guarded.guard.mass_kg is None:
        return shell
    out, put = first.guard.mass_kg, guarded.guard.mass_kg
    mass = shell.mass_kg - out + put
    moment = (
        shell.mass_kg * np.array(shell.center_of_mass_mm)
        - out * first.center_mm.mean(axis=0)
        + put * guarded.center_mm.mean(axis=0)
    )
    ahead, above = (float(each) for each in moment / mass)
    return replace(shell, mass_kg=mass, center_of_mass_mm=(ahead, above))


def rested_with(trial: Trial, build: Build, shell: Shell, count: int) -> Worn:
    """The build at rest on the first heads, the shell weighing what it does with a guard."""
    weighed = trial if shell == trial.shell else replace(trial, shell=shell)
    return Worn(weighed, build, weighed.rest(build, 0, count))


@dataclass(frozen=True)
class First:
    """The guard that a sheet lists first for a shell, with which its shells are weighed.

    Parameters
    ----------
    guarded, worn
        The guard, and the build at rest with it.
    """

    guarded: Guarded
    worn: Worn


def guard_outlook(
    worn: Worn, faces: Faces, guarded: Guarded, first: First, accept_mm: tuple[float, float]
) -> GuardOutlook:
    """What is to be expected of one guard.

    Parameters
    ----------
    worn
        The build at rest with this guard.
    faces
        The faces of the same heads.
    guarded, first
        This guard, and the one that the sheet lists first for the shell.
    accept_mm
        Accepted distance from nose to bar [mm].
    """
    guard = guarded.guard
    edge = worn.front_edge()
    lip = worn.trial.seating.front_edge
    bars = worn.place(lip[0] + guarded.ahead_mm, lip[2] - guarded.below_mm)
    sight = sight_past(faces.eye_mm, edge, bars, guarded.radius_mm)
    nose, nearest = nose_clearance(
        faces.nose_tip_mm, edge, bars, guarded.radius_mm, upright=guard.upright
    )
    barring = sight.barred_by[sight.barred_by != NOTHING]
    return GuardOutlook(
        guard=guard,
        from_sheet=bool(guard.places),
        level_clear=float((sight.barred_by == NOTHING).mean()),
        level_bar=int(np.bincount(barring).argmax()) if barring.size else None,
        up_deg=Spread.of(sight.up_deg),
        down_deg=Spread.of(sight.down_deg),
        side_deg=_side(worn, faces, guard),
        sight=float((sight.up_deg >= LEAST_UP.value).mean()),
        nose_mm=Spread.of(nose),
        nose_right=float(((nose >= accept_mm[0]) & (nose <= accept_mm[1])).mean()),
        nearest_bar=int(np.bincount(nearest).argmax()),
        load=_load(worn, guarded, first),
    )


def _side(worn: Worn, faces: Faces, guard: FaceGuard) -> Spread | None:
    """Free angle to the side; None where the sheet does not say where the guard's sides are."""
    if guard.side_opening_mm is None:
        return None
    ahead, across = guard.side_opening_mm
    edge = worn.trial.seating.front_edge
    place = np.array([edge[0] + ahead]), np.array([edge[2]])
    return Spread.of(side_sight_deg(faces.eye_mm[:, 0], worn.place(*place)[:, 0, 0], across))


def gravity_moment_nm(mass_kg: float, ahead_mm: Floats | float, axis_ahead_mm: float) -> Floats:
    """Nose-down moment of a mass about a level axis through both sides [N m].

    Parameters
    ----------
    mass_kg
        The mass [kg].
    ahead_mm, axis_ahead_mm
        Of the ear canals: the mass, shape (n,), and the axis [mm].

    Notes
    -----
    M = m g (x - x_axis), the head held level.
    """
    return np.asarray(mass_kg * GRAVITY * (ahead_mm - axis_ahead_mm) * 1e-3)


def _load(worn: Worn, guarded: Guarded, first: First) -> LoadOutlook | None:
    """Moments of the guard and of the whole helmet; None where the guard's mass is not known."""
    mass = guarded.guard.mass_kg
    if mass is None:
        return None
    shell = worn.trial.shell
    center = worn.place(guarded.center_mm[:, :1], guarded.center_mm[:, 1:])[:, 0, 0]
    ahead, above = (np.array([each]) for each in shell.center_of_mass_mm)
    whole = worn.place(ahead, above)[:, 0, 0]
    neck = NECK_JOINT[0].value
    before = first.guarded.guard.mass_kg
    return LoadOutlook(
        mass_kg=mass,
        tragion_nm=Spread.of(gravity_moment_nm(mass, center, 0.0)),
        head_nm=Spread.of(gravity_moment_nm(mass, center, HEAD_CENTER[0].value)),
        neck_nm=Spread.of(gravity_moment_nm(mass, center, neck)),
        helmet_kg=shell.mass_kg,
        helmet_neck_nm=Spread.of(gravity_moment_nm(shell.mass_kg, whole, neck)),
        change_kg=0.0 if before is None else mass - before,
        change_nm=0.0 if before is None else _lever_change(guarded, first.guarded),
        change_brow_mm=float((worn.rest.brow_mm - first.worn.rest.brow_mm).mean()),
    )


def _lever_change(guarded: Guarded, first: Guarded) -> float:
    """Moment at the neck of one guard less that of the first listed [N m]."""
    neck = NECK_JOINT[0].value
    new, old = (
        float(gravity_moment_nm(each.guard.mass_kg or 0.0, each.center_mm[:, 0], neck).mean())
        for each in (guarded, first)
    )
    return new - old
