"""The linear motion of the contact model against the exact gap to the head."""

from functools import cache

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from helmwright.fit.contact import Trial
from helmwright.fit.unknowns import draw_unknowns
from helmwright.geometry.kernels.rays import MISSED_MM, clearances
from tests.fit.ordinary import OUZEL, delivered, men, trial_of

HEADS = 60


@cache
def trial() -> Trial:
    unknowns = draw_unknowns(OUZEL, HEADS, np.random.default_rng(5))
    return trial_of(men(HEADS), unknowns=unknowns)


def gaps(points: np.ndarray, inward: np.ndarray, head: int) -> tuple[np.ndarray, np.ndarray]:
    """Bare gap and the head's normal at each contact."""
    count = len(points)
    gap, normal = np.empty((1, 1, count)), np.empty((1, 1, count, 3))
    row = trial().heads.ovoids.rows[head : head + 1]
    clearances(row, points, inward, np.zeros((1, 1)), gap, normal)
    return gap[0, 0], normal[0, 0]


def misses(head: int, move: np.ndarray, turn: np.ndarray) -> np.ndarray:
    """Linear less exact gap of every contact that meets the head [mm]."""
    seat = trial().seating
    points = seat.points + np.array([0.0, 0.0, trial().lift_mm(delivered())[head]])
    before, normal = gaps(points, seat.inward, head)
    linear = before + (normal * (move + np.cross(turn, points))).sum(axis=1)
    spin = Rotation.from_rotvec(turn).as_matrix()
    exact, _ = gaps(points @ spin.T + move, seat.inward @ spin.T, head)
    met = (before < MISSED_MM) & (exact < MISSED_MM)
    return np.asarray((linear - exact)[met])


def root_mean_square(millimeters: float, degrees: float) -> float:
    rng, found = np.random.default_rng(4), []
    for head in range(HEADS):
        move, turn = rng.standard_normal((2, 3))
        move *= millimeters / np.linalg.norm(move)
        turn *= np.radians(degrees) / np.linalg.norm(turn)
        found.append(misses(head, move, turn))
    return float(np.sqrt(np.mean(np.concatenate(found) ** 2)))


@pytest.mark.parametrize(
    ("millimeters", "degrees", "most"),
    [
        (2, 0, 0.03),
        (6, 0, 0.2),
        (10, 0, 0.5),
        (0, 2, 0.06),
        (0, 5, 0.25),
        (0, 10, 0.8),
        (6, 5, 0.5),
    ],
)
def test_linear_motion_misses_little_near_the_drawing(millimeters, degrees, most):
    assert root_mean_square(millimeters, degrees) < most


def test_the_miss_grows_with_the_square_of_the_motion():
    assert root_mean_square(8, 0) == pytest.approx(4.0 * root_mean_square(4, 0), rel=0.3)
    assert root_mean_square(0, 6) == pytest.approx(4.0 * root_mean_square(0, 3), rel=0.3)


def test_at_the_rests_themselves_the_miss_is_small():
    """The height is linearized about where crown pad and head put it: motions stay small."""
    rest = trial().rest(delivered())
    found = [misses(head, pose[:3], pose[3:]) for head, pose in enumerate(rest.pose)]
    every = np.concatenate(found)
    assert np.sqrt(np.mean(every**2)) < 0.15
    assert np.quantile(np.abs(every), 0.99) < 0.8
