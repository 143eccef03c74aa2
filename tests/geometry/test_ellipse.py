"""The ellipse's perimeter keeps the laws of lengths."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.geometry import ellipse_perimeter

HALF_AXES = st.floats(1.0, 500.0)


def test_a_circle_is_two_pi_r_around():
    assert ellipse_perimeter(90.0, 90.0) == pytest.approx(2.0 * np.pi * 90.0, rel=1e-14)


@given(HALF_AXES, HALF_AXES)
def test_the_order_of_the_half_axes_does_not_matter(first, second):
    assert ellipse_perimeter(first, second) == ellipse_perimeter(second, first)


@given(HALF_AXES, HALF_AXES, st.floats(0.01, 100.0))
def test_twice_as_large_is_twice_as_long(first, second, scale):
    scaled = ellipse_perimeter(scale * first, scale * second)
    assert scaled == pytest.approx(scale * ellipse_perimeter(first, second), rel=1e-12)


@given(HALF_AXES, HALF_AXES)
def test_it_is_longer_than_its_rhombus_and_shorter_than_its_rectangle(first, second):
    around = float(ellipse_perimeter(first, second))
    assert 4.0 * np.hypot(first, second) <= around * (1.0 + 1e-12)
    assert around <= 4.0 * (first + second)


def test_arrays_are_broadcast():
    assert ellipse_perimeter(np.array([[90.0], [100.0]]), [70.0, 75.0, 80.0]).shape == (2, 3)


@pytest.mark.parametrize("axes", [(0.0, 70.0), (90.0, -1.0)])
def test_a_half_axis_that_is_no_length_is_refused(axes):
    with pytest.raises(ValueError, match="greater than 0 mm"):
        ellipse_perimeter(*axes)
