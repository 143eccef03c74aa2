"""The superellipse's perimeter, and the exponent that a perimeter asks for."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.geometry import ellipse_perimeter, section_exponent, superellipse_perimeter
from helmwright.geometry.superellipse import EXPONENT_HIGH, EXPONENT_LOW

LENGTHS = st.floats(160.0, 240.0)
RATIOS = st.floats(0.6, 1.0)


@given(LENGTHS, RATIOS)
def test_exponent_two_is_the_ellipse(length, ratio):
    half = length / 2.0
    around = superellipse_perimeter(half, ratio * half, 2.0)
    assert around == pytest.approx(float(ellipse_perimeter(half, ratio * half)), rel=1e-6)


@pytest.mark.parametrize(
    ("exponent", "around"), [(1.0, 4.0 * np.sqrt(2.0)), (400.0, 8.0)], ids=["rhombus", "square"]
)
def test_the_ends_are_a_rhombus_and_a_square(exponent, around):
    assert superellipse_perimeter(1.0, 1.0, exponent) == pytest.approx(around, rel=0.005)


@given(LENGTHS, RATIOS, st.floats(1.0, 8.0), st.floats(0.05, 2.0))
def test_a_squarer_section_is_longer_around(length, ratio, exponent, more):
    half = length / 2.0
    less, longer = superellipse_perimeter(half, ratio * half, [exponent, exponent + more])
    assert longer > less


@given(LENGTHS, RATIOS, st.floats(1.55, 7.5))
def test_the_exponent_comes_back_from_its_own_perimeter(length, ratio, exponent):
    half = length / 2.0
    around = superellipse_perimeter(half, ratio * half, exponent)
    found = section_exponent(around, length, ratio * length)
    back = superellipse_perimeter(half, ratio * half, found)
    assert back == pytest.approx(float(around), abs=0.01)
    assert found == pytest.approx(exponent, rel=0.003)


@given(st.floats(520.0, 640.0), LENGTHS, RATIOS)
def test_length_and_breadth_may_change_places(around, length, ratio):
    one = section_exponent(around, length, ratio * length)
    assert one == section_exponent(around, ratio * length, length)


def test_what_no_section_reaches_is_held_at_the_bound():
    found = section_exponent([300.0, 900.0], 200.0, 154.0)
    assert found == pytest.approx([EXPONENT_LOW, EXPONENT_HIGH])


@pytest.mark.parametrize("numbers", [(0.0, 77.0, 2.0), (100.0, 0.0, 2.0), (100.0, 77.0, 0.5)])
def test_numbers_of_no_section_are_refused(numbers):
    with pytest.raises(ValueError, match="half axes above 0 mm"):
        superellipse_perimeter(*numbers)
