"""Readings and how repeats of them combine."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.anatomy import (
    Over,
    Reading,
    Touch,
    UnknownMeasureError,
    combined,
    error_variance,
    measure_of,
    repeat_limit,
    technical_error,
)
from helmwright.anatomy.reading import stands_apart

LENGTH = "head_length"


@given(st.lists(st.floats(150.0, 230.0), min_size=1, max_size=6))
def test_repeats_combine_to_their_mean(values):
    (group,) = combined([Reading(LENGTH, value) for value in values])
    kept = list(values)
    if group.set_aside_mm is not None:
        kept.remove(group.set_aside_mm)
    assert group.value_mm == pytest.approx(sum(kept) / len(kept))
    assert len(kept) >= min(len(values), 2)
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
    plain, cap, hair = (
        Reading(LENGTH, 198.0, Over.BARE),
        Reading(LENGTH, 202.0, Over.SKULL_CAP),
        Reading(LENGTH, 203.0, Over.SKULL_CAP, beneath=Over.BRAIDS),
    )
    groups = combined([plain, cap, plain, hair])
    assert [(group.kinds, group.count) for group in groups] == [
        ((Over.BARE,), 2),
        ((Over.UNSTATED, Over.SKULL_CAP), 1),
        ((Over.BRAIDS, Over.SKULL_CAP), 1),
    ]


def test_readings_by_different_people_and_of_different_touch_are_kept_apart():
    tape = "tape_circumference"
    groups = combined(
        [
            Reading(tape, 570.0, by="Ada"),
            Reading(tape, 572.0, by="Bo"),
            Reading(tape, 580.0, by="Ada", touch=Touch.LIGHT),
            Reading(tape, 571.0, by="Ada"),
        ]
    )
    assert [(group.by, group.touch, group.count) for group in groups] == [
        ("Ada", Touch.DRAWN_IN, 2),
        ("Bo", Touch.DRAWN_IN, 1),
        ("Ada", Touch.LIGHT, 1),
    ]


@given(st.permutations([200.0, 201.0, 199.5, 212.0]))
def test_the_one_that_stands_apart_is_set_aside_in_any_order(values):
    (group,) = combined([Reading(LENGTH, value) for value in values])
    assert group.set_aside_mm == 212.0
    assert group.value_mm == pytest.approx(600.5 / 3)
    assert group.variance_mm2 == pytest.approx(error_variance(LENGTH, 3))


@pytest.mark.parametrize(
    "values", [(200.0, 212.0), (200.0, 206.0, 212.0), (200.0, 201.0, 212.0, 213.0), (200.0,) * 3]
)
def test_nothing_is_set_aside_where_no_single_one_stands_apart(values):
    (group,) = combined([Reading(LENGTH, value) for value in values])
    assert group.set_aside_mm is None
    assert group.value_mm == pytest.approx(sum(values) / len(values))


def test_a_clean_triple_is_set_apart_about_as_rarely_as_a_clean_pair_asks_for_a_third():
    rng = np.random.default_rng(8)
    limit = repeat_limit(LENGTH)
    triples = rng.normal(200.0, measure_of(LENGTH).reading_error.value, size=(20_000, 3))
    share = np.mean([stands_apart(list(triple), limit) is not None for triple in triples])
    assert 0.02 < share < 0.06


def test_a_persons_own_error_sets_the_limit_and_the_weight():
    careful, plain = (
        combined([Reading(LENGTH, 198.0, tem_mm=tem), Reading(LENGTH, 201.0, tem_mm=tem)])[0]
        for tem in (0.8, None)
    )
    assert careful.wants_third
    assert not plain.wants_third
    assert careful.variance_mm2 == pytest.approx(0.8**2 / 2 + measure_of(LENGTH).bias.value ** 2)
    assert careful.variance_mm2 < plain.variance_mm2


def test_the_covering_may_be_given_as_a_word():
    worded = Reading(LENGTH, 198.0, "thick hair")  # type: ignore[arg-type]
    assert worded.over is Over.THICK_HAIR
    assert Reading(LENGTH, 198.0, "cap").over is Over.SKULL_CAP  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="beneath a cap"):
        Reading(LENGTH, 198.0, Over.SKULL_CAP, beneath=Over.WINTER_CAP)
    with pytest.raises(ValueError, match="person's error"):
        Reading(LENGTH, 198.0, tem_mm=0.0)
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
