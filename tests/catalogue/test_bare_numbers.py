"""Numbers without a unit in a sheet."""

import pytest

from helmwright.catalogue.reading.length import bare_number


@pytest.mark.parametrize(
    ("typed", "low_mm", "high_mm", "told"),
    [
        ("22.5", 400.0, 760.0, "22.5 has no unit; 22.5 in?"),
        ("57", 400.0, 760.0, "57 has no unit; 57 cm?"),
        ("570", 400.0, 760.0, "570 has no unit; 570 mm?"),
        ("7", 10.0, 300.0, "7 has no unit; 7 in or 7 cm?"),
        ("9000", 10.0, 300.0, "9000 has no unit"),
        ("-35", -90.0, 20.0, "-35 has no unit"),
        ("7/8", 1.0, 80.0, "7/8 has no unit; 7/8 in?"),
        ("n", 1.0, 80.0, "'n' is no number; write it like 22 5/8 or 22.625"),
    ],
)
def test_only_units_in_which_a_bare_number_would_do_are_asked_about(typed, low_mm, high_mm, told):
    assert bare_number(typed, low_mm, high_mm) == told
