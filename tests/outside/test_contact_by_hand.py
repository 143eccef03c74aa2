"""Contacts that can be solved by hand."""

import numpy as np
import pytest
from scipy.optimize import brentq

from helmwright.catalogue import CUSHION, VINYL_NITRILE
from helmwright.fit.kernels import contact as kernel
from helmwright.fit.law import fit_law

LAW = fit_law(((CUSHION, 8.0), (VINYL_NITRILE, 14.0)))
AREA = 20.0
DOWN = np.array([0.0, 0.0, -1.0])
WHISPER = kernel.RIDGE_N_PER_MM

FLOOR = [((x, y, 100.0), (0.0, 0.0, 1.0)) for x in (-30.0, 30.0) for y in (-30.0, 30.0)]
"""Four contacts under a level crown: place and outward normal of the head."""

WALLS = [((0.0, side * 75.0, 0.0), (0.0, side, 0.0)) for side in (-1.0, 1.0)]
"""Two contacts on upright sides."""


def rested(contacts, base, loads, *, friction=0.0, slide=0.0, kept=1.0):
    """Pose, normal forces and drags after four phases with those downward loads [N]."""
    points, normals = (np.array(each) for each in zip(*contacts, strict=True))
    count = len(contacts)
    normal, drag, poses = np.empty(count), np.empty((count, 3)), np.zeros((4, 6))
    good = kernel.rest(
        points, normals, np.asarray(base, dtype=float), np.zeros(count, dtype=np.int64),
        np.full(count, AREA), LAW.knots[None, :], LAW.weights[None, :], np.ones(1),
        np.full(count, 2.4), friction, slide, np.array(loads)[:, None] * DOWN, np.zeros((4, 3)),
        np.full(4, kept), poses, normal, drag, np.empty((count, 3)), np.empty((9, 6)),
    )  # fmt: skip
    assert good
    return poses[-1], normal, drag


@pytest.mark.outside("coulomb_friction")
@pytest.mark.parametrize("load", [8.0, 20.0, 30.0, 60.0, 120.0])
@pytest.mark.parametrize("friction", [0.0, 0.3])
def test_a_level_stack_sinks_until_its_pressure_is_load_over_area(load, friction):
    pose, normal, drag = rested(
        FLOOR, [0.0] * 4, [load + 50.0, load, load, load], friction=friction
    )
    kpa = load / (0.1 * AREA * 4)
    # The whisper of stiffness that keeps a helmet in the air carries a few hundredths of a newton.
    assert -pose[2] == pytest.approx(LAW.stroke(kpa), abs=0.02)
    assert normal == pytest.approx(np.full(4, load / 4), abs=0.02)
    assert np.abs(drag).max() < 1e-6
    assert pose[3:] == pytest.approx(np.zeros(3), abs=1e-9)


def wall_force(stroke: float) -> float:
    return 0.1 * AREA * float(LAW.pressure(stroke))


@pytest.mark.outside("coulomb_friction")
@pytest.mark.parametrize("share", [0.2, 0.6, 0.95])
def test_between_two_walls_it_hangs_on_friction_while_the_load_is_less(share):
    held = 2.0 * 0.3 * wall_force(4.0)
    pose, normal, drag = rested(WALLS, [4.0, 4.0], [share * held] * 4, friction=0.3)
    assert -pose[2] == pytest.approx(share * held / (2.0 * 2.4), abs=0.02)
    assert drag[:, 2] == pytest.approx(np.full(2, -share * held / 2.0), abs=0.02)
    assert normal == pytest.approx(np.full(2, wall_force(4.0)), rel=1e-6)


@pytest.mark.outside("coulomb_friction")
@pytest.mark.parametrize("beyond", [0.02, 0.05, 0.1])
def test_between_two_walls_it_slips_at_mu_n(beyond):
    """What friction cannot carry falls to the whisper: 0.02 N lets it fall by 20 mm."""
    held = 2.0 * 0.3 * wall_force(4.0)
    pose, _, drag = rested(WALLS, [4.0, 4.0], [held + beyond] * 4, friction=0.3)
    assert np.linalg.norm(drag, axis=1) == pytest.approx(np.full(2, held / 2.0), rel=1e-6)
    assert -pose[2] * WHISPER == pytest.approx(beyond, abs=0.011)


@pytest.mark.outside("coulomb_friction")
def test_a_helmet_pushed_down_between_walls_stays_where_friction_lets_it():
    """One equation: crown + drag = weight, the drag having turned from up toward down."""
    weight, push, friction = 20.0, 50.0, 0.3
    slip = 2.0 * friction * wall_force(4.0)
    contacts, base = FLOOR + WALLS, [0.0] * 4 + [4.0, 4.0]
    low = LAW.stroke((weight + push - slip) / (0.1 * AREA * 4))

    def left_over(rise: float) -> float:
        crown = 0.1 * AREA * 4 * float(LAW.pressure(low - rise))
        return crown + max(slip - 2.0 * 2.4 * rise, -slip) - weight

    rise = brentq(left_over, 0.0, low)
    pose, _, _ = rested(
        contacts, base, [weight + push, weight, weight, weight], friction=friction, slide=23.0
    )
    assert -pose[2] == pytest.approx(low - rise, abs=0.02)
    unpushed, _, _ = rested(contacts, base, [weight] * 4, friction=friction, slide=23.0)
    assert -pose[2] > -unpushed[2] + 0.5


@pytest.mark.outside("coulomb_friction")
def test_all_drag_let_go_leaves_the_crown_alone_with_the_weight():
    """Friction memory gone, only what the walls take up on the last settling remains."""
    contacts, base = FLOOR + WALLS, [0.0] * 4 + [4.0, 4.0]
    pose, normal, drag = rested(contacts, base, [20.0] * 4, friction=0.3, kept=0.0)
    assert normal[:4].sum() - drag[:, 2].sum() == pytest.approx(20.0, abs=0.03)
    assert np.abs(drag[4:, 2]).max() < 0.3 * wall_force(4.0)
    assert pose[2] < 0


@pytest.mark.outside("coulomb_friction")
def test_a_helmet_that_touches_nothing_has_a_pose_and_no_force():
    pose, normal, drag = rested(WALLS, [-10.0, -10.0], [0.02] * 4, friction=0.3)
    assert normal.max() == 0.0
    assert np.abs(drag).max() == 0.0
    assert np.all(np.isfinite(pose))
