"""Every phase's rest against SciPy's minimum of the same energy, written anew in NumPy."""

from functools import cache

import numpy as np
import pytest

from helmwright.fit import Build
from helmwright.fit.contact import SLIDE_IN, Trial
from helmwright.fit.kernels import contact as kernel
from helmwright.fit.unknowns import draw_unknowns
from tests.fit.ordinary import OUZEL, delivered, men, moved, nothing_unknown, trial_of
from tests.outside.contact_energy import Contact, contact_of, phases_of

HEADS = 4
BUILDS = [
    delivered(),
    moved(delivered(), crown=-1, left=1, right=1),
    moved(delivered(), crown=1, jaw_left=-2, jaw_right=1, nape=2, rear=-1),
]


@cache
def trial(friction: float | None = None) -> Trial:
    if friction is None:
        unknowns = draw_unknowns(OUZEL, HEADS, np.random.default_rng(3))
    else:
        unknowns = nothing_unknown(HEADS, friction=friction)
    return trial_of(men(HEADS), unknowns=unknowns)


@cache
def solved(build: Build, head: int) -> list[tuple[np.ndarray, Contact]]:
    return phases_of(trial(), build, head)


def stopped_after(phase: int) -> Trial:
    """A trial whose later phases bring no new load and let nothing go."""
    force, point, strap, strap_point, on, kept = trial().loads
    held = np.minimum(np.arange(4), phase)
    again = trial_of(men(HEADS), unknowns=trial().unknowns)
    loads = (force[held], point[held], strap, strap_point, on[held],
             np.where(np.arange(4) > phase, 1.0, kept))  # fmt: skip
    again.__dict__["loads"] = loads
    return again


@pytest.mark.outside("scipy_optimize")
@pytest.mark.parametrize("head", range(HEADS))
@pytest.mark.parametrize("build", BUILDS)
def test_the_last_rest_is_scipys_minimum(build, head):
    """Tolerance: 0.01 mm of stroke, 0.01 N of force. Seen: 0.001 mm, 0.003 N."""
    rest = trial().rest(build)
    pose, contact = solved(build, head)[-1]
    assert rest.unsettled == 0
    assert rest.stroke_mm[head] == pytest.approx(contact.stroke(pose), abs=0.01)
    assert rest.force_n[head] == pytest.approx(contact.normal_force(pose), abs=0.01)
    assert rest.pose[head, :3] == pytest.approx(pose[:3], abs=0.01)
    assert rest.pose[head, 3:] == pytest.approx(pose[3:], abs=1e-4)


@pytest.mark.outside("scipy_optimize")
@pytest.mark.parametrize("phase", range(4), ids=["push", "let go", "strap", "shake"])
def test_the_rest_of_each_phase_is_scipys_minimum(phase):
    rest = stopped_after(phase).rest(BUILDS[1])
    for head in range(HEADS):
        pose, contact = solved(BUILDS[1], head)[phase]
        assert rest.stroke_mm[head] == pytest.approx(contact.stroke(pose), abs=0.01)
        assert rest.force_n[head] == pytest.approx(contact.normal_force(pose), abs=0.02)


@pytest.mark.outside("coulomb_friction")
@pytest.mark.parametrize("build", BUILDS)
def test_pads_and_friction_carry_the_load(build):
    """Forces balance to 0.03 N, moments to 0.06 N on an arm of 100 mm.

    The drag is reckoned from SciPy's anchors, which are not ours to the last micrometer.
    """
    rest = trial().rest(build)
    for head in range(HEADS):
        _, contact = solved(build, head)[-1]
        contact.caps = contact.friction * rest.force_n[head]
        left = contact.gradient(rest.pose[head], *load_of(trial(), build, head))
        assert np.abs(left[:3]).max() < 0.03
        assert np.abs(left[3:]).max() < 6.0


def load_of(some: Trial, build: Build, head: int) -> tuple[np.ndarray, np.ndarray]:
    """Force and moment of weight and strap."""
    force, point, strap, strap_point, _, _ = some.loads
    up = np.array([0.0, 0.0, some.lift_mm(build)[head]])
    tug = some.unknowns.pull[head] * strap
    moment = np.cross(point[3] + up, force[3]) + np.cross(strap_point + up, tug)
    return force[3] + tug, moment


@pytest.mark.outside("coulomb_friction")
@pytest.mark.parametrize("build", BUILDS)
def test_no_contact_drags_more_than_friction_allows(build):
    for head in range(HEADS):
        contact = contact_of(trial(), build, head)
        normal, drag = compiled(trial(), build, head, contact)
        assert np.all(np.linalg.norm(drag, axis=1) <= contact.friction * normal + 1e-9)
        assert np.abs((drag * contact.normals).sum(axis=1)).max() < 1e-6
        assert normal == pytest.approx(trial().rest(build).force_n[head], abs=0.02)


def compiled(
    some: Trial, build: Build, head: int, contact: Contact
) -> tuple[np.ndarray, np.ndarray]:
    """Normal forces and drags of the compiled last phase."""
    force, point, strap, strap_point, on, kept = some.loads
    up = np.array([0.0, 0.0, some.lift_mm(build)[head]])
    tug = (on * some.unknowns.pull[head])[:, None] * strap
    moments = np.cross(point + up, force) + np.cross(strap_point + up, tug)
    _, knots, weights = some.pads(build)
    count = contact.base.size
    normal, drag = np.empty(count), np.empty((count, 3))
    good = kernel.rest(
        contact.points, contact.normals, contact.base, some.seating.zones, contact.areas, knots,
        weights, some.unknowns.foam[head], contact.grip, contact.friction, SLIDE_IN.value,
        force + tug, moments, kept, np.zeros((4, 6)), normal, drag, np.empty((count, 3)),
        np.empty((9, 6)),
    )  # fmt: skip
    assert good
    return normal, drag


@pytest.mark.outside("scipy_optimize")
@pytest.mark.parametrize("head", range(HEADS))
def test_without_friction_the_phases_end_at_the_one_minimum_whatever_the_path(head):
    """Tilt is almost free then: pads agree to 0.05 mm, energies to a hundredth of a N mm."""
    smooth, build = trial(0.0), delivered()
    rest = smooth.rest(build)
    contact = contact_of(smooth, build, head)
    contact.anchors, contact.caps = np.zeros_like(contact.points), np.zeros(contact.base.size)
    load = load_of(smooth, build, head)
    for start in (np.zeros(6), np.array([2.0, -3.0, 8.0, 0.02, 0.05, -0.03])):
        pose = contact.minimum(start, *load)
        assert rest.stroke_mm[head] == pytest.approx(contact.stroke(pose), abs=0.05)
        apart = contact.energy(rest.pose[head], *load) - contact.energy(pose, *load)
        assert apart == pytest.approx(0.0, abs=0.01)
