"""What twisting by hand a helmet holds out against."""

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from helmwright.fit.grip import FORE_AND_AFT, SIDE_TO_SIDE, UPRIGHT, held_moment_nm
from tests.fit.clouds import cloud_of, good_build


def two_sides(friction: float, force_n: float) -> tuple[Any, Any]:
    """Two contacts on the axis through the ears, 80 mm out on either side."""
    points = np.array([[[0.0, 80.0, 0.0], [0.0, -80.0, 0.0]]])
    trial = SimpleNamespace(
        contacts=lambda _: (points, points / 80.0),
        unknowns=SimpleNamespace(friction=np.array([friction])),
    )
    return trial, SimpleNamespace(force_n=np.full((1, 2), force_n))


@pytest.mark.parametrize(
    ("axis", "arm_mm"), [(UPRIGHT, 80.0), (FORE_AND_AFT, 80.0), (SIDE_TO_SIDE, 0.0)]
)
def test_two_contacts_resist_by_friction_times_force_times_arm(axis, arm_mm):
    trial, rest = two_sides(0.3, 10.0)
    held = held_moment_nm(trial, good_build(), rest, axis)
    assert held == pytest.approx([2 * 0.3 * 10.0 * arm_mm * 1e-3])


def test_contacts_straight_ahead_and_behind_resist_a_nod_and_not_a_roll():
    trial, rest = two_sides(0.3, 10.0)
    points, normals = (each[..., [1, 0, 2]] for each in trial.contacts(None))
    trial.contacts = lambda _: (points, normals)
    nod, roll = (held_moment_nm(trial, good_build(), rest, e) for e in (SIDE_TO_SIDE, FORE_AND_AFT))
    assert nod == pytest.approx([0.48])
    assert roll == pytest.approx([0.0])


def test_a_helmet_resists_a_nod_more_than_a_turn():
    """The crown lies far from the axis of a nod, and near that of a turn."""
    cloud = cloud_of(100)
    trial, rest = cloud.trial(3), cloud.rest(good_build())
    turn, nod = (held_moment_nm(trial, good_build(), rest, e) for e in (UPRIGHT, SIDE_TO_SIDE))
    assert np.mean(nod > turn) > 0.9
