"""The tape is taut: it spans hollows."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.geometry import hull_perimeter

ANGLES = np.linspace(0.0, 2.0 * np.pi, 2000, endpoint=False)
CIRCLE = 90.0 * np.column_stack([np.cos(ANGLES), np.sin(ANGLES)])


def test_around_a_square_with_a_dent_it_is_the_square():
    dented = np.array([[0, 0], [4, 0], [4, 4], [2, 1], [0, 4]], dtype=float)
    assert hull_perimeter(dented) == pytest.approx(16.0)


def test_around_a_circle_it_is_two_pi_r():
    assert hull_perimeter(CIRCLE) == pytest.approx(2.0 * np.pi * 90.0, rel=1e-5)


@given(st.floats(0.0, 0.9))
def test_a_hollow_adds_nothing(depth):
    hollow = np.abs(ANGLES - np.pi) < 0.5
    pushed = np.where(hollow, 1.0 - depth * np.cos(np.pi * (ANGLES - np.pi)), 1.0)
    chord = hull_perimeter(CIRCLE[~hollow])
    assert hull_perimeter(CIRCLE * pushed[:, None]) <= hull_perimeter(CIRCLE) + 1e-9
    assert hull_perimeter(CIRCLE * pushed[:, None]) >= chord - 1e-9


@given(st.floats(-np.pi, np.pi), st.floats(-300, 300), st.floats(-300, 300))
def test_it_does_not_matter_where_the_section_lies(turn, right, up):
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    there = CIRCLE[::20] @ spin.T + [right, up]
    assert hull_perimeter(there) == pytest.approx(hull_perimeter(CIRCLE[::20]), rel=1e-9)


@pytest.mark.parametrize("shape", [(2, 2), (5, 3), (6,)])
def test_what_is_no_plane_section_is_refused(shape):
    with pytest.raises(ValueError, match="at least 3 points of 2 numbers"):
        hull_perimeter(np.zeros(shape))
