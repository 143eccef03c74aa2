"""Hatches and dots fill exactly what they should."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.drawing.fill import dots, hatches

SQUARE = np.array([[0.3, 0.2], [40.3, 0.2], [40.3, 30.2], [0.3, 30.2]])
HOOK = np.array([[0, 0], [50, 0], [50, 10], [12, 10], [12, 40], [0, 40]], dtype=float) + 0.37


def shoelace(outline):
    x, y = outline.T
    return 0.5 * abs(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))


@pytest.mark.parametrize("outline", [SQUARE, HOOK])
@pytest.mark.parametrize("angle", [0.0, 45.0, 130.0])
def test_the_hatches_lengths_times_their_distance_are_the_area(outline, angle):
    strokes = hatches(outline, 0.2, angle)
    length = np.linalg.norm(strokes[:, 1] - strokes[:, 0], axis=1).sum()
    assert 0.2 * length == pytest.approx(shoelace(outline), rel=0.02)


@pytest.mark.parametrize("outline", [SQUARE, HOOK])
def test_each_dot_stands_for_its_square(outline):
    assert len(dots(outline, 0.5)) * 0.25 == pytest.approx(shoelace(outline), rel=0.02)


def test_hatches_run_at_their_angle_and_keep_their_distance():
    strokes = hatches(SQUARE, 3.0, 45.0)
    along = strokes[:, 1] - strokes[:, 0]
    assert np.allclose(along[:, 0], along[:, 1])
    depth = np.sort((strokes[:, 0] @ np.array([-1.0, 1.0])) / np.sqrt(2.0))
    assert np.allclose(np.diff(depth), 3.0)


def test_a_notch_is_left_white():
    ends = hatches(HOOK, 1.0, 0.0).reshape(-1, 2)
    inside_notch = (ends[:, 0] > 13.0) & (ends[:, 1] > 11.0)
    assert len(ends) > 0
    assert not inside_notch.any()


@given(st.floats(0.5, 8.0), st.floats(-20.0, 20.0))
def test_dots_lie_inside_wherever_the_outline_is(spacing, shift):
    found = dots(SQUARE + shift, spacing) - shift
    assert len(found) > 0
    assert found[:, 0].min() >= 0.3 - 1e-9
    assert found[:, 0].max() <= 40.3 + 1e-9
    assert found[:, 1].min() >= 0.2 - 1e-9
    assert found[:, 1].max() <= 30.2 + 1e-9
