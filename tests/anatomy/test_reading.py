"""Readings and how repeats of them combine."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.anatomy import (
    Over,
    Reading,
    UnknownMeasureError,
    combined,
    error_variance,
    measure_of,
    repeat_limit,
    technical_error,
)

LENGTH = "head_length"


@given(st.lists(st.floats(150.0, 230.0), min_size=1, max_size=6))
def test_repeats_combine_to_their_mean(values):
    (group,) = combined([Reading(LENGTH, value) for value in values])
    assert group.value_mm == pytest.approx(sum(values) / len(values))
    assert group.count == len(values)
    assert group.apart_mm == pytest.approx(max(values) - min(values))


def test_repeats_average_the_reading_error_but_not_the_bias():
    error, bias = measure_of(LENGTH).reading_error.value, measure_of(LENGTH).bias.value
    assert error_variance(LENGTH, 1) == pytest.approx(error**2 + bias**2)
    assert error_variance(LENGTH, 2) == pytest.approx(error**2 / 2 + bias**2)
    assert error_variance(LENGTH, 10_000) == pytest.approx(bias**2, rel=1e-2)


def test_clean_pairs_exceed_the_limit_one_time_in_twenty():
    rng = np.random.default_rng(5)
    error = measure_of("tape_circumference").reading_error.value
    pairs = rng.normal(570.0, error, size=(200_000, 2))
    share = np.mean(np.abs(pairs[:, 0] - pairs[:, 1]) > repeat_limit("tape_circumference"))
    # Three standard errors of the share.
    assert share == pytest.approx(0.05, abs=0.0015)


def test_two_readings_too_far_apart_want_a_third():
    limit = repeat_limit(LENGTH)
    near, far = (
        combined([Reading(LENGTH, 198.0), Reading(LENGTH, 198.0 + apart)])[0]
        for apart in (limit - 0.1, limit + 0.1)
    )
    assert not near.wants_third
    assert far.wants_third


def test_readings_over_different_things_are_kept_apart():
    groups = combined(
        [Reading(LENGTH, 198.0), Reading(LENGTH, 202.0, Over.CAP), Reading(LENGTH, 199.0)]
    )
    assert [(group.over, group.count) for group in groups] == [(Over.BARE, 2), (Over.CAP, 1)]


def test_the_covering_may_be_given_as_a_word():
    worded = Reading(LENGTH, 198.0, "thick hair")  # type: ignore[arg-type]
    assert worded.over is Over.THICK_HAIR
    with pytest.raises(ValueError, match="wig"):
        Reading(LENGTH, 198.0, "wig")  # type: ignore[arg-type]


@pytest.mark.parametrize("value", [0.0, -5.0, float("nan"), float("inf")])
def test_a_reading_that_is_no_length_is_refused(value):
    with pytest.raises(ValueError, match="more than 0 mm"):
        Reading(LENGTH, value)


def test_a_reading_of_no_measure_is_refused():
    with pytest.raises(UnknownMeasureError):
        Reading("hat", 198.0)


def test_the_technical_error_of_no_pair_is_refused():
    with pytest.raises(ValueError, match="at least one pair"):
        technical_error([])
