"""Moves that keep what draws are drawn from."""

import numpy as np
import pytest

from helmwright.belief.moves import Step, telling_directions

RNG = np.random.default_rng(11)
WIDTH = 7
BASIS = np.linalg.qr(RNG.standard_normal((WIDTH, 3)))[0]
SKEWED = Step(BASIS, np.array([1.0, -0.5, 0.2]), np.diag([0.4, 1.5, 0.8]), 0.6)


def pressed(standard: np.ndarray, step: Step, log_likelihood, rounds: int) -> np.ndarray:
    """Draws after some accepted and refused moves."""
    for _ in range(rounds):
        there = step.proposed(standard, RNG)
        gain = step.log_odds(there) - step.log_odds(standard)
        gain += log_likelihood(there) - log_likelihood(standard)
        taken = np.log(RNG.random(gain.size)) < gain
        standard = np.where(taken[:, None], there, standard)
    return standard


def test_without_fitted_directions_it_is_the_plain_crank_nicolson_step():
    none = Step(np.zeros((WIDTH, 0)), np.zeros(0), np.zeros((0, 0)), 0.3)
    start = RNG.standard_normal((50, WIDTH))
    seed = np.random.default_rng(5)
    moved = none.proposed(start, np.random.default_rng(5))
    expected = np.sqrt(1.0 - 0.09) * start + 0.3 * seed.standard_normal(start.shape)
    assert moved == pytest.approx(expected, abs=1e-12)
    assert np.all(none.log_odds(start) == 0.0)


def test_a_proposal_keeps_its_reference():
    """Draws of the reference, moved, have the reference's means and covariances."""
    count = 60_000
    fresh = RNG.standard_normal((count, WIDTH))
    along = fresh @ BASIS
    reference = fresh + (SKEWED.mean + along @ SKEWED.root.T - along) @ BASIS.T
    moved = SKEWED.proposed(reference, RNG)
    error = 5.0 * 1.5 / np.sqrt(count)
    assert moved.mean(axis=0) == pytest.approx(reference.mean(axis=0), abs=2 * error)
    assert np.cov(moved.T) == pytest.approx(np.cov(reference.T), abs=8 * error)


def test_the_odds_are_prior_over_reference():
    one, other = RNG.standard_normal((2, 1, WIDTH))

    def log_reference(row: np.ndarray) -> float:
        along = row @ BASIS
        off = np.linalg.solve(SKEWED.root, (along - SKEWED.mean).T)
        across = row - along @ BASIS.T
        return float(-0.5 * (off**2).sum() - 0.5 * (across**2).sum())

    def log_prior(row: np.ndarray) -> float:
        return float(-0.5 * (row**2).sum())

    expected = log_prior(one) - log_reference(one) - log_prior(other) + log_reference(other)
    assert SKEWED.log_odds(one) - SKEWED.log_odds(other) == pytest.approx(expected)


@pytest.mark.parametrize("basis", [BASIS, BASIS[:, :1], np.zeros((WIDTH, 0))])
def test_moves_that_are_accepted_by_their_odds_leave_a_prior_as_it_is(basis):
    count = 20_000
    start = RNG.standard_normal((count, WIDTH))
    step = Step(basis, np.full(basis.shape[1], 0.4), 0.7 * np.eye(basis.shape[1]), 0.5)
    after = pressed(start, step, lambda rows: np.zeros(len(rows)), 6)
    assert after.mean(axis=0) == pytest.approx(np.zeros(WIDTH), abs=4.5 / np.sqrt(count))
    assert np.cov(after.T) == pytest.approx(np.eye(WIDTH), abs=4.5 * 1.5 / np.sqrt(count))


def test_a_fitted_step_finds_where_the_draws_lie():
    count = 5000
    standard = RNG.standard_normal((count, WIDTH))
    standard += (2.0 - 0.5 * (standard @ BASIS[:, :1])) @ BASIS[:, :1].T
    step = Step.fitted(standard, BASIS[:, :1], 0.5)
    assert step.mean == pytest.approx([2.0], abs=0.05)
    assert step.root == pytest.approx(np.array([[0.5]]), abs=0.02)


def test_few_draws_still_give_a_step():
    step = Step.fitted(np.ones((2, WIDTH)), BASIS, 0.5)
    assert np.all(np.diag(step.root) > 0.5)


@pytest.mark.parametrize("size", [0.0, -0.1, 1.01])
def test_a_step_that_goes_nowhere_or_too_far_is_refused(size):
    with pytest.raises(ValueError, match="step's size"):
        Step(BASIS, np.zeros(3), np.eye(3), size)


def test_the_directions_that_tell_are_found_and_the_others_left_out():
    standard = RNG.standard_normal((4000, WIDTH))
    seen = np.column_stack(
        [3.0 * standard[:, 2] + RNG.standard_normal(4000), 0.01 * standard[:, 5]]
    )
    found = telling_directions(standard, seen, 0.15)
    assert found.shape == (WIDTH, 1)
    assert abs(found[2, 0]) > 0.99
