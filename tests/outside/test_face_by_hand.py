"""Sight lines, moments and straps against figures worked by hand and by another way of counting."""

import numpy as np
import pytest

from helmwright.anatomy.face import PUPILS_APART, draw_faces
from helmwright.fit.contact import GRAVITY
from helmwright.fit.guard import HEAD_CENTER, HEAD_MASS, NECK_JOINT, gravity_moment_nm
from helmwright.fit.sight import EDGE_THICKNESS, NOTHING, nose_clearance, side_sight_deg, sight_past
from helmwright.fit.strap import (
    PULL,
    face_fullness,
    front_pivot,
    moment_arms_mm,
    rear_pivot,
    start_lengths_mm,
    strap_outlook,
    unit_ways,
)
from helmwright.fit.worn import Worn
from tests.fit.ordinary import OUZEL, delivered, men, trial_of

EYE = np.array([[85.0, 13.0]])
EDGE = np.array([[118.0, 55.0]])
BARS = np.array([[[172.0, -33.0], [174.0, -57.0], [170.0, -87.0]]])
RADIUS = 3.0


@pytest.mark.outside("plane_geometry")
def test_the_sight_lines_of_one_case_by_hand():
    """Up: the lip lies 33 + 5 out and 42 up, tan 47.862 deg = 42 / 38.

    Down: the first bar lies 87 out and 46 down, 98.41 away: 27.867 deg less asin(3 / 98.41) =
    1.747 deg.
    """
    seen = sight_past(EYE, EDGE, BARS, RADIUS)
    assert EDGE_THICKNESS.value == 5.0
    assert seen.up_deg[0] == pytest.approx(47.862, abs=0.001)
    assert seen.down_deg[0] == pytest.approx(26.120, abs=0.001)
    assert seen.barred_by[0] == NOTHING


def looked_along(eye, edge, bars, radius, angles_deg):
    """Whether a ray at each angle meets a bar or passes above the lip: by its distance from them.

    A ray from the eye meets a circle where the foot of the perpendicular from its middle lies
    ahead and no further than the radius from it.
    """
    ways = np.column_stack([np.cos(np.radians(angles_deg)), np.sin(np.radians(angles_deg))])
    met = np.zeros(len(ways), dtype=bool)
    for bar in bars:
        along = ways @ (bar - eye)
        foot = eye + along[:, None] * ways
        met |= (along > 0) & (np.linalg.norm(foot - bar, axis=1) < radius)
    out = edge[0] + EDGE_THICKNESS.value - eye[0]
    over = eye[1] + out * np.tan(np.radians(angles_deg)) > edge[1]
    return met | over


@pytest.mark.outside("plane_geometry")
@pytest.mark.parametrize("seed", range(6))
def test_free_angles_are_those_that_rays_find(seed):
    rng = np.random.default_rng(seed)
    bars = np.sort(rng.uniform(-110.0, 45.0, 4))[::-1]
    places = np.column_stack([rng.uniform(150.0, 190.0, 4), bars])
    eye, edge = EYE[0] + rng.normal(0, 5, 2), EDGE[0] + rng.normal(0, 5, 2)
    step = 0.01
    up, down = np.arange(0.0, 89.0, step), np.arange(0.0, -89.0, -step)
    seen = sight_past(eye[None], edge[None], places[None], RADIUS)
    hit = looked_along(eye, edge, places, RADIUS, up)
    assert seen.up_deg[0] == pytest.approx(up[hit.argmax()], abs=2 * step)
    hit = looked_along(eye, edge, places, RADIUS, down)
    first = -down[hit.argmax()] if hit.any() else 90.0
    assert seen.down_deg[0] == pytest.approx(first, abs=2 * step)
    assert (seen.barred_by[0] == NOTHING) == (not looked_along(eye, edge, places, RADIUS, [0.0])[0])


@pytest.mark.outside("plane_geometry")
def test_the_nose_of_one_case_by_hand():
    """The nearest bar lies 51 out and 8 down from the tip: sqrt(2665) = 51.624, less 3."""
    nose = np.array([[121.0, -25.0]])
    apart, which = nose_clearance(nose, EDGE, BARS, RADIUS, upright=False)
    assert apart[0] == pytest.approx(48.624, abs=0.001)
    assert which[0] == 1


@pytest.mark.outside("plane_geometry")
@pytest.mark.parametrize(
    ("nose", "apart"), [((126.0, -5.0), 57.0), ((144.0, 19.0), 27.0), ((106.0, -5.0), 60.246)]
)
def test_an_upright_bar_of_one_case_by_hand(nose, apart):
    """From 5 + 3 ahead of the edge, (126, 55), to a bar at (186, -5): a quarter circle of 60.

    Its middle is (126, -5). The first nose lies in it: 60 less 3. The second lies 18 ahead and 24
    above, so 30 out: 60 - 30 less 3. The third lies 20 behind, where the upright's beginning is
    nearest: sqrt(20^2 + 60^2) = 63.246 less 3. Chords of 7.5 deg cut off up to 0.13.
    """
    bars = np.array([[[186.0, -5.0], [190.0, -90.0]]])
    found, which = nose_clearance(np.array([nose]), EDGE, bars, RADIUS, upright=True)
    assert apart - 0.13 <= found[0] <= apart + 0.001
    assert which[0] == 1


@pytest.mark.outside("plane_geometry", "eye_protrusion_1986")
def test_the_view_to_the_side_of_one_case_by_hand():
    """Pupils 65 apart, sides 160 apart and 10 ahead of them: tan 78.111 deg = 47.5 / 10."""
    assert 62.9 < PUPILS_APART.value < 65.9
    found = side_sight_deg(np.array([85.0]), np.array([95.0]), 160.0)
    assert found[0] == pytest.approx(78.111, abs=0.001)


@pytest.mark.outside("beier_1979", "chancey_2007")
def test_a_bare_head_weighs_on_the_neck_as_published_places_say():
    """4.3 kg of 9.80665 m/s2 at 8 + 18.4 mm ahead of the joint: 1.113 N m."""
    moment = gravity_moment_nm(HEAD_MASS.value, HEAD_CENTER[0].value, NECK_JOINT[0].value)
    assert float(moment) == pytest.approx(1.113, abs=0.001)
    assert 3.656 < HEAD_MASS.value < 5.757
    assert 22.0 < HEAD_CENTER[1].value < 43.0


@pytest.mark.outside("plane_geometry")
def test_a_guard_of_one_case_by_hand():
    """0.34 kg at 120 mm ahead: 0.4001 N m about the ears; 0.3734 at 112; 0.4615 at 138.4."""
    found = [float(gravity_moment_nm(0.34, 120.0, axis)) for axis in (0.0, 8.0, -18.4)]
    assert found == pytest.approx([0.4001, 0.3734, 0.4615], abs=1e-4)


SNAPS = np.array([[[36.0, 100.0, 30.0], [-20.0, 100.0, -36.0]]])
CUP = np.array([[68.0, 31.5, -87.0]])


@pytest.mark.outside("coulomb_friction", "plane_geometry")
def test_what_a_strap_carries_is_what_the_balance_of_forces_asks():
    """A helmet about to roll off forward: pivot at the front, weight, a pull up at the back.

    The three equations of a rigid body in a plane, for the two forces at the pivot and the pull of
    every point, moments taken about the ear openings.
    """
    pivot, center, back = (110.0, 60.0), (14.0, 55.0), (-95.0, -20.0)
    weight, pull = 2.0 * GRAVITY, 44.5
    flat, forces = [], []
    for snap in SNAPS[0]:
        way = CUP[0] - snap
        way = way / np.sqrt((way**2).sum())
        flat.append((snap[0], snap[2]))
        forces.append((2.0 * way[0], 2.0 * way[2]))  # two sides; sideways parts cancel

    def turn(place, force):
        return place[1] * force[0] - place[0] * force[1]

    sums = np.sum(forces, axis=0)
    turned = sum(turn(place, force) for place, force in zip(flat, forces, strict=True))
    left = np.array(
        [
            [1.0, 0.0, sums[0]],
            [0.0, 1.0, sums[1]],
            [turn(pivot, (1.0, 0.0)), turn(pivot, (0.0, 1.0)), turned],
        ]
    )
    right = -np.array([0.0, pull - weight, turn(center, (0.0, -weight)) + turn(back, (0.0, pull))])
    tension = np.linalg.solve(left, right)[2]

    arms = moment_arms_mm(SNAPS[..., [0, 2]], unit_ways(SNAPS, CUP), np.array([pivot]))
    by_arms = (pull * (pivot[0] - back[0]) - weight * (pivot[0] - center[0])) / arms.sum()
    assert tension > 0
    assert by_arms == pytest.approx(tension, rel=1e-9)


def balanced_pull(pivot, center, weight, far, pull, snaps, ways):
    """What every point carries where pivot, weight, a pull at a far end and strap balance [N].

    The same three equations, solved as they stand; unknown are both forces at the pivot and the
    strap.
    """
    forces = 2.0 * ways[:, [0, 2]]

    def turn(place, force):
        return place[1] * force[0] - place[0] * force[1]

    turned = sum(turn(place, force) for place, force in zip(snaps, forces, strict=True))
    left = np.array(
        [
            [1.0, 0.0, forces[:, 0].sum()],
            [0.0, 1.0, forces[:, 1].sum()],
            [turn(pivot, (1.0, 0.0)), turn(pivot, (0.0, 1.0)), turned],
        ]
    )
    right = -np.array([0.0, pull - weight, turn(center, (0.0, -weight)) + turn(far, (0.0, pull))])
    return np.linalg.solve(left, right)[2]


@pytest.mark.outside("coulomb_friction", "plane_geometry")
@pytest.mark.parametrize("backward", [False, True])
def test_what_is_told_of_a_strap_on_a_head_is_what_the_balance_of_forces_asks(backward):
    heads, build = men(12), delivered()
    trial = trial_of(heads)
    worn = Worn(trial, build, trial.rest(build))
    strap, faces = OUZEL.chin_straps[0], draw_faces(heads, np.random.default_rng(1))
    front_mm = worn.front_edge()[:, 0] + 50.0
    told = strap_outlook(worn, faces, strap, front_mm)
    hold = told.off_backward if backward else told.off_forward

    snaps = worn.place(
        np.array([each.ahead_mm for each in strap.snaps]),
        np.array([each.above_mm for each in strap.snaps]),
    )
    assert strap.cup_mm is not None
    assert strap.across_mm is not None
    half = strap.cup_mm / 2.0
    center = worn.place(*(np.array([each]) for each in trial.shell.center_of_mass_mm))[:, 0]
    here, there = front_pivot(worn), rear_pivot(worn)
    needed, held = [], []
    for at in range(len(worn)):
        cup = np.array([faces.chin_mm[at, 0] - 0.5 * half, 0.7 * half, faces.chin_mm[at, 1]])
        places = [np.array([x, strap.across_mm / 2.0, z]) for x, z in snaps[at]]
        ways = np.array([(cup - place) / np.linalg.norm(cup - place) for place in places])
        pivot, far = (there, front_mm[at]) if backward else (here, there[at, 0])
        end = (far, -20.0)  # how high the pull goes in makes no difference: it is upright
        given = (pivot[at], center[at], trial.shell.mass_kg * GRAVITY, end)
        needed.append(balanced_pull(*given, PULL.value, snaps[at], ways))
        forward, down = OUZEL.strap_pull_n
        sums = 2.0 * ways.sum(axis=0)[[0, 2]]
        tension = sums @ [forward, -down] / (sums @ sums)
        # What the strap needs grows straight with the pull: between two pulls lies the one held.
        none = balanced_pull(*given, 0.0, snaps[at], ways)
        held.append(PULL.value * (tension - none) / (needed[-1] - none))
    assert hold is not None
    assert hold.strap_n.mean == pytest.approx(np.mean(needed), rel=1e-9)
    assert hold.pull_n.mean == pytest.approx(np.mean(held), rel=1e-9)


@pytest.mark.outside("us_army_2012")
@pytest.mark.parametrize(("arc", "half"), [(331.65, 165.8), (311.01, 155.5)])
def test_a_strap_to_the_ear_notch_is_half_the_published_chin_arc(arc, half):
    """Men 331.7 mm, women 311.0: a snap at the notch, a cup of no width."""
    breadth, chin = 71.0, np.array([[90.0, 0.0, -87.0]])
    notch = np.array([[[0.0, breadth, 0.0]]])
    fullness = face_fullness(np.array([arc]), chin[:, [0, 2]], np.array([breadth]))
    assert start_lengths_mm(chin, notch, fullness, 0.0)[0, 0] == pytest.approx(half, abs=0.05)
