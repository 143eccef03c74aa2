"""The ovoid is closed and smooth, its slope is its slope, and rays find it from both sides."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from helmwright.geometry import Ovoids, superellipse_perimeter
from helmwright.geometry.kernels.level import level
from helmwright.geometry.kernels.rays import MISSED_MM, inward, outward
from helmwright.geometry.ovoid import COLUMNS

PITCH = np.radians(3.5)
HEAD = np.array(
    [100.0, 77.0, 2.34, 101.0, 2.25, 0.0, 30.0, np.sin(PITCH), np.cos(PITCH), 135.0, 3.5, 1.45,
     1.8, 0.22]
)  # fmt: skip
MIDDLE = np.array([0.0, 0.0, 30.0])

angles = st.floats(0.0, 2.0 * np.pi)
# The skirt's tip and the seam, where the surface has no second derivative, are tried on their own.
heights = st.floats(-1.25, 1.5)


def direction(azimuth: float, elevation: float) -> np.ndarray:
    flat = np.cos(elevation)
    return np.array([flat * np.cos(azimuth), flat * np.sin(azimuth), np.sin(elevation)])


def level_at(point: np.ndarray) -> float:
    return float(level(HEAD, *point)[0])


@given(angles, heights, st.floats(0.8, 1.4))
def test_the_slope_agrees_with_finite_differences(azimuth, elevation, far):
    ray = direction(azimuth, elevation)
    point = MIDDLE + far * outward(HEAD, *MIDDLE, *ray) * ray
    w = -HEAD[7] * point[0] + HEAD[8] * (point[2] - HEAD[6])
    u = HEAD[8] * point[0] + HEAD[7] * (point[2] - HEAD[6])
    # Across a seam a finite difference mixes two formulas; past the tip the skirt has ended.
    assume(abs(w) > 0.01 and abs(u) > 0.01 and w > -0.97 * HEAD[9])
    step = 1e-4
    for axis in range(3):
        move = np.eye(3)[axis] * step
        slope = (level_at(point + move) - level_at(point - move)) / (2.0 * step)
        assert level(HEAD, *point)[1 + axis] == pytest.approx(slope, abs=2e-6, rel=1e-4)


@given(angles, heights)
def test_from_inside_every_ray_meets_the_surface_once(azimuth, elevation):
    ray = direction(azimuth, elevation)
    far = outward(HEAD, *MIDDLE, *ray)
    along = [level_at(MIDDLE + share * far * ray) for share in (0.5, 0.98, 1.0, 1.02, 1.5)]
    assert along[2] == pytest.approx(0.0, abs=1e-7)
    assert max(along[:2]) < 0
    assert min(along[3:]) > 0


@given(angles, st.floats(-0.45, 1.5), st.floats(2.0, 40.0))
def test_a_ray_from_outside_and_one_from_inside_meet_in_one_point(azimuth, elevation, off):
    ray = direction(azimuth, elevation)
    far = outward(HEAD, *MIDDLE, *ray)
    back = inward(HEAD, *(MIDDLE + (far + off) * ray), *-ray)
    assert back == pytest.approx(off, abs=1e-5)


@given(angles, st.floats(-0.45, 1.5), st.floats(0.5, 20.0))
def test_from_a_point_under_the_surface_the_way_in_is_negative(azimuth, elevation, depth):
    ray = direction(azimuth, elevation)
    far = outward(HEAD, *MIDDLE, *ray)
    back = inward(HEAD, *(MIDDLE + (far - depth) * ray), *-ray)
    assert back == pytest.approx(-depth, abs=1e-5)


def test_a_ray_that_passes_the_head_is_missed():
    assert inward(HEAD, 300.0, 0.0, 30.0, 0.0, 1.0, 0.0) == MISSED_MM
    assert inward(HEAD, 150.0, 0.0, 30.0, 1.0, 0.0, 0.0) == MISSED_MM


@given(angles, heights)
def test_the_left_is_the_mirror_of_the_right(azimuth, elevation):
    ray = direction(azimuth, elevation)
    mirrored = ray * [1.0, -1.0, 1.0]
    assert outward(HEAD, *MIDDLE, *mirrored) == pytest.approx(
        outward(HEAD, *MIDDLE, *ray), abs=1e-9
    )


@given(angles, heights, st.floats(0.5, 2.0))
def test_a_head_twice_as_large_is_met_twice_as_far(azimuth, elevation, scale):
    ray = direction(azimuth, elevation)
    grown = HEAD.copy()
    for name in ("half_length", "half_breadth", "dome_height", "skirt_depth", "middle_z"):
        grown[COLUMNS.index(name)] *= scale
    there = outward(grown, *(scale * MIDDLE), *ray)
    assert there == pytest.approx(scale * outward(HEAD, *MIDDLE, *ray), rel=1e-8)


@given(angles)
def test_dome_and_skirt_meet_without_an_edge(azimuth):
    head = Ovoids(HEAD[None, :])
    normals = [
        head.outward_normal(0, head.ray(0, MIDDLE, np.array([u, v, 0.0]) + w))
        for w in _just_above_and_below()
        for u, v in [(np.cos(azimuth), np.sin(azimuth))]
    ]
    assert normals[0] @ normals[1] > np.cos(np.radians(0.5))


def _just_above_and_below() -> list[np.ndarray]:
    # A ray in the pitched plane would graze the seam: one is tilted up, one down.
    return [np.array([0.0, 0.0, z]) for z in (1e-4, -1e-4)]


def test_the_skirt_closes_under_the_chin():
    down = np.array([HEAD[7], 0.0, -HEAD[8]])
    assert outward(HEAD, *MIDDLE, *down) == pytest.approx(HEAD[9], rel=2e-4)


def test_the_tape_around_its_level_plane_is_the_superellipse():
    head = Ovoids(HEAD[None, :])
    forward = np.array([HEAD[8], 0.0, HEAD[7]])
    around = head.girth(0, MIDDLE, forward)
    assert around == pytest.approx(float(superellipse_perimeter(100.0, 77.0, 2.34)), abs=0.02)


def test_a_sphere_is_a_sphere():
    row = np.array([90, 90, 2, 90, 2, 0, 0, 0, 1, 90, 2, 2, 2, 0], dtype=float)
    ball = Ovoids(row[None, :])
    for azimuth, elevation in [(0.3, 0.9), (2.0, -0.9), (4.0, 0.0), (5.5, -1.4)]:
        ray = direction(azimuth, elevation)
        point = ball.ray(0, np.zeros(3), 3.0 * ray)
        assert np.linalg.norm(point) == pytest.approx(90.0, abs=1e-6)
        assert ball.outward_normal(0, point) == pytest.approx(ray, abs=1e-6)


def test_the_level_tells_inside_from_outside():
    head = Ovoids(HEAD[None, :])
    assert head.level_at(0, MIDDLE) < 0 < head.level_at(0, np.array([120.0, 0.0, 30.0]))


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("half_length", 0.0, "half_length of an ovoid must be greater than 0 mm"),
        ("skirt_depth", -1.0, "skirt_depth of an ovoid must be greater than 0 mm"),
        ("dome_exponent", 1.0, "dome_exponent of an ovoid must be greater than 1"),
        ("side_taper", 0.9, "side_taper of an ovoid must be greater than 1"),
    ],
)
def test_rows_of_no_smooth_closed_surface_are_refused(name, value, words):
    row = HEAD.copy()
    row[COLUMNS.index(name)] = value
    with pytest.raises(ValueError, match=words):
        Ovoids(row[None, :])


def test_rows_of_another_shape_are_refused():
    with pytest.raises(ValueError, match="rows of 14 numbers"):
        Ovoids(np.ones((2, 13)))
