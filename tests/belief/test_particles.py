"""Weighted draws."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.belief.particles import effective_size, next_step, normalized, resampled

LOGS = st.lists(st.floats(-50.0, 50.0), min_size=2, max_size=60).map(np.array)


def test_equal_weights_are_worth_all_draws_and_one_weight_is_worth_one():
    assert effective_size(np.full(40, -3.0)) == pytest.approx(40.0)
    assert effective_size(np.array([0.0, -1e4, -1e4])) == pytest.approx(1.0)
    # Two in three with weights 1, 1 and 0.
    assert effective_size(np.array([0.0, 0.0, -1e4])) == pytest.approx(2.0)


@given(LOGS)
def test_the_worth_lies_between_one_and_all_and_does_not_see_a_common_factor(logs):
    size = effective_size(logs)
    assert 1.0 - 1e-9 <= size <= logs.size + 1e-9
    assert effective_size(logs + 700.0) == pytest.approx(size)


@given(LOGS, st.integers(0, 2**32 - 1))
def test_each_draw_is_taken_as_often_as_its_weight_asks_to_within_one(logs, seed):
    which = resampled(logs, np.random.default_rng(seed))
    asked = normalized(logs) * logs.size
    taken = np.bincount(which, minlength=logs.size)
    assert which.size == logs.size
    assert np.all(np.abs(taken - asked) < 1.0 + 1e-6)


def test_resampling_is_fair_on_average():
    logs = np.log([0.07, 0.13, 0.2, 0.6])
    rng = np.random.default_rng(3)
    taken = np.mean([np.bincount(resampled(logs, rng), minlength=4) for _ in range(4000)], axis=0)
    # One count of a place has a standard deviation of at most a half.
    assert taken == pytest.approx(4 * np.exp(logs), abs=4 * 0.5 / np.sqrt(4000))


@given(LOGS, st.floats(0.2, 0.95))
def test_a_step_keeps_the_wanted_size_and_is_as_large_as_can_be(logs, share):
    least = max(share * logs.size, 1.01)
    step = next_step(logs, 1.0, least)
    assert 0.0 <= step <= 1.0
    if step < 1.0:
        assert effective_size(step * logs) == pytest.approx(least, rel=1e-3)
    else:
        assert effective_size(logs) >= least


def test_flat_likelihoods_are_taken_in_at_once():
    assert next_step(np.zeros(10), 0.4, 5.0) == 0.4
