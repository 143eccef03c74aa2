"""Lengths as they are read at a check."""

import pytest

from helmwright.visit.check import Length
from helmwright.visit.span import SpanError, read_span

BROW = Length((19.05, 31.75), 0.0, 101.6)
INCH = 25.4


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1", INCH),
        ("1 1/8", 1.125 * INCH),
        ("1 1/8 in", 1.125 * INCH),
        ('7/8"', 0.875 * INCH),
        ("28 mm", 28.0),
        ("2.5 cm", 25.0),
        ("0", 0.0),
        ("0 mm", 0.0),
        ("1 finger", 0.75 * INCH),
        ("1 1/2 fingers", 1.125 * INCH),
        ("2 finger widths", 1.5 * INCH),
    ],
)
def test_inches_millimeters_and_finger_widths_are_read(text, mm):
    assert read_span(text, BROW) == pytest.approx(mm)


@pytest.mark.parametrize("text", ["", "an inch", "5 in", "200 mm", "7 fingers", "1 lb", "-1"])
def test_what_is_no_such_length_is_refused_with_what_would_be_right(text):
    with pytest.raises(SpanError, match="Write"):
        read_span(text, BROW)


def test_fingers_are_refused_where_a_ruler_is_asked_for():
    with pytest.raises(SpanError, match="ruler"):
        read_span("1 finger", Length((19.05, 31.75), 0.0, 101.6, fingers=False))
