"""Hat sizes of the United States against their table."""

import pytest

from helmwright.units import parse_length

TABLE = {
    "6 1/2": 518.7,
    "6 5/8": 528.7,
    "6 3/4": 538.6,
    "6 7/8": 548.6,
    "7": 558.6,
    "7 1/8": 568.5,
    "7 1/4": 578.5,
    "7 3/8": 588.5,
    "7 1/2": 598.5,
    "7 5/8": 608.4,
    "7 3/4": 618.4,
    "8": 638.4,
}


@pytest.mark.outside("us_hat_size")
@pytest.mark.parametrize("size", TABLE)
def test_a_hat_size_is_the_circumference_of_the_table(size):
    # The table has one digit.
    assert parse_length(f"{size} US hat") == pytest.approx(TABLE[size], abs=0.051)


@pytest.mark.outside("us_hat_size")
def test_an_eighth_of_a_hat_size_is_ten_millimeters_around():
    step = parse_length("7 1/8 US hat") - parse_length("7 US hat")
    assert step == pytest.approx(9.97, abs=0.01)
