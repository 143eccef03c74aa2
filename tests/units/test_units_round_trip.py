"""What is written can be read again."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.units import (
    DENOMINATORS,
    MM_PER_INCH,
    UnitsError,
    feet_and_inches,
    inches,
    millimeters,
    parse_length,
    parse_stature,
    parse_weight,
    pounds,
)

LENGTHS = st.floats(min_value=2.0, max_value=3000.0)


@given(LENGTHS, st.sampled_from(DENOMINATORS))
def test_inches_read_back_within_half_a_part(length_mm, denominator):
    written = inches(length_mm, denominator=denominator)
    if written != "0":
        half = 0.5 * 25.4 / denominator
        assert parse_length(written, "in") == pytest.approx(length_mm, abs=half + 1e-9)


@given(st.integers(1, 60), st.integers(0, 15))
def test_every_sixteenth_comes_back_exactly(whole, part):
    length = (whole + part / 16) * 25.4
    assert parse_length(inches(length, denominator=16, mark=" in")) == pytest.approx(length)


@given(LENGTHS)
def test_millimeters_read_back_within_half(length_mm):
    assert parse_length(millimeters(length_mm)) == pytest.approx(length_mm, abs=0.5)


@given(st.floats(min_value=1220.0, max_value=2280.0))
def test_statures_read_back_within_half_an_inch(stature_mm):
    assert parse_stature(feet_and_inches(stature_mm)) == pytest.approx(stature_mm, abs=12.7001)


@given(st.floats(min_value=31.0, max_value=229.0))
def test_weights_read_back_within_half_a_pound(weight_kg):
    assert parse_weight(pounds(weight_kg)) == pytest.approx(weight_kg, abs=0.2268)


@given(LENGTHS)
def test_the_negative_of_a_length_is_written_with_a_minus(length_mm):
    written = inches(length_mm)
    assert inches(-length_mm) == (f"-{written}" if written != "0" else "0")


@given(st.text(max_size=30))
def test_any_text_is_either_a_positive_length_or_a_named_refusal(text):
    for read in (lambda: parse_length(text, "in"), lambda: parse_stature(text, "in")):
        try:
            value = read()
        except UnitsError:
            pass
        else:
            assert value > 0.0


@given(st.from_regex(r"[0-9]{1,3}[ \-/.,][0-9]{1,2}[ /\-.][0-9]{1,2}\"?", fullmatch=True))
def test_texts_that_look_like_fractions_never_fail_in_another_way(text):
    try:
        value = parse_length(text, "in")
    except UnitsError:
        return
    whole = float(text.replace("-", " ").split()[0])
    assert whole * 25.4 < value < (whole + 1.0) * 25.4


def test_inches_are_written_as_a_tape_shows_them():
    assert inches(574.675) == "22 5/8"
    assert inches(22.225, mark=" in") == "7/8 in"
    assert inches(25.4) == "1"
    assert inches(0.2) == "0"
    assert inches(572.0, denominator=16) == "22 1/2"
    assert inches(-3.2) == "-1/8"


def test_a_part_of_an_inch_that_no_tape_has_is_refused():
    with pytest.raises(ValueError, match="not into 10"):
        inches(25.4, denominator=10)


def test_weights_and_statures_are_written_in_customary_units():
    assert pounds(93.0) == "205 lb"
    assert feet_and_inches(1803.4) == "5-11"
    assert millimeters(-0.2) == "0 mm"
    assert millimeters(574.675, digits=1) == "574.7 mm"


@given(
    st.integers(1, 60),
    st.sampled_from(DENOMINATORS),
    st.integers(1, 63),
    st.sampled_from([" ", "-", " - ", "–"]),
)
def test_a_mixed_number_is_read_however_whole_and_fraction_are_joined(whole, below, above, joint):
    # 22-11/16 looks like a date, day-month/year; a date keeps one mark throughout.
    above = above % below or 1
    read = parse_length(f"{whole}{joint}{above}/{below}", unit="in")
    assert read == pytest.approx((whole + above / below) * MM_PER_INCH)
