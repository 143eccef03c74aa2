"""Normal beliefs."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.belief import Normal, Observation, UnknownNameError, exactly

NAMES = ("a", "b", "c")


def belief_from(seed: int) -> Normal:
    rng = np.random.default_rng(seed)
    root = rng.normal(size=(3, 3))
    return Normal(NAMES, rng.normal(size=3), root @ root.T)


SEEDS = st.integers(0, 10_000)


def test_a_single_reading_moves_the_mean_by_the_share_of_variance():
    belief = Normal(("x",), np.array([10.0]), np.array([[4.0]]))
    after = belief.given([exactly("x", 16.0, 2.0)])
    assert after.mean[0] == pytest.approx(14.0)
    assert after.covariance[0, 0] == pytest.approx(4.0 / 3.0)


def test_two_readings_at_once_are_two_readings_in_turn():
    belief = belief_from(1)
    readings = [exactly("a", 1.0, 0.3), Observation({"b": 1.0, "c": -2.0}, 0.5, 0.2)]
    at_once = belief.given(readings)
    in_turn = belief.given(readings[:1]).given(readings[1:])
    np.testing.assert_allclose(at_once.mean, in_turn.mean, atol=1e-12)
    np.testing.assert_allclose(at_once.covariance, in_turn.covariance, atol=1e-12)


def test_evidence_of_two_readings_is_evidence_of_one_and_then_the_other():
    belief = belief_from(2)
    first, second = exactly("a", 1.0, 0.3), exactly("b", -1.0, 0.1)
    chain = belief.log_evidence([first]) + belief.given([first]).log_evidence([second])
    assert belief.log_evidence([first, second]) == pytest.approx(chain)


@given(SEEDS, st.floats(0.01, 10.0))
@settings(max_examples=50)
def test_a_reading_never_adds_variance(seed, variance):
    belief = belief_from(seed)
    after = belief.given([exactly("b", 0.0, variance)])
    lost = belief.covariance - after.covariance
    assert np.linalg.eigvalsh(lost).min() > -1e-9


@given(SEEDS)
@settings(max_examples=50)
def test_an_exact_reading_leaves_no_spread_in_what_was_read(seed):
    after = belief_from(seed).given([exactly("a", 3.0)])
    assert after.mean[0] == pytest.approx(3.0)
    assert after.sd[0] == pytest.approx(0.0, abs=1e-6)


@given(SEEDS, st.floats(0.1, 5.0), st.floats(-3.0, 3.0))
@settings(max_examples=50)
def test_units_do_not_matter(seed, scale, shift):
    belief = belief_from(seed)
    moved = Normal(NAMES, scale * belief.mean + shift, scale**2 * belief.covariance)
    plain = belief.given([exactly("a", 0.7, 0.4)])
    other = moved.given([exactly("a", scale * 0.7 + shift, scale**2 * 0.4)])
    np.testing.assert_allclose(other.mean, scale * plain.mean + shift, atol=1e-6)
    np.testing.assert_allclose(other.covariance, scale**2 * plain.covariance, atol=1e-6)


def test_no_reading_changes_nothing():
    belief = belief_from(3)
    assert belief.given([]) is belief
    assert belief.log_evidence([]) == 0.0


def test_a_marginal_keeps_the_order_asked_for():
    belief = belief_from(4)
    part = belief.marginal(["c", "a"])
    assert part.names == ("c", "a")
    assert part.covariance[0, 1] == belief.covariance[2, 0]


def test_a_built_quantity_has_the_moments_of_its_sum():
    belief = belief_from(5)
    wide = belief.extended("s", {"a": 0.5, "b": 0.5}, offset=2.0, variance=0.25)
    weights = np.array([0.5, 0.5, 0.0])
    assert wide.mean[3] == pytest.approx(weights @ belief.mean + 2.0)
    assert wide.covariance[3, 3] == pytest.approx(weights @ belief.covariance @ weights + 0.25)
    np.testing.assert_allclose(wide.covariance[3, :3], weights @ belief.covariance)


def test_draws_have_the_mean_and_covariance_of_the_belief():
    belief = belief_from(6)
    draws = belief.draw(200_000, np.random.default_rng(1))
    # Four standard errors of a mean and of a covariance of this many draws.
    np.testing.assert_allclose(draws.mean(axis=0), belief.mean, atol=4 * belief.sd.max() / 447)
    largest = np.abs(belief.covariance).max()
    np.testing.assert_allclose(
        np.cov(draws.T), belief.covariance, atol=4 * np.sqrt(2) * largest / 447
    )


def test_the_same_generator_gives_the_same_draws():
    belief = belief_from(7)
    first = belief.draw(10, np.random.default_rng(3))
    np.testing.assert_array_equal(first, belief.draw(10, np.random.default_rng(3)))


def test_a_singular_belief_can_be_drawn_from():
    belief = Normal(("a", "b"), np.zeros(2), np.ones((2, 2)))
    draws = belief.draw(5, np.random.default_rng(1))
    np.testing.assert_allclose(draws[:, 0], draws[:, 1], atol=1e-7)


@pytest.mark.parametrize(
    ("mean", "covariance", "says"),
    [
        ([0.0], [[1.0, 0.0], [0.0, 1.0]], "shape"),
        ([0.0, 0.0], [[1.0, 2.0], [2.0, 1.0]], "positive semi-definite"),
        ([0.0, 0.0], [[1.0, 0.5], [0.1, 1.0]], "symmetric"),
        ([np.nan, 0.0], [[1.0, 0.0], [0.0, 1.0]], "finite"),
    ],
)
def test_what_is_no_covariance_is_refused(mean, covariance, says):
    with pytest.raises(ValueError, match=says):
        Normal(("a", "b"), np.array(mean), np.array(covariance))


def test_a_name_twice_is_refused():
    with pytest.raises(ValueError, match="differ"):
        Normal(("a", "a"), np.zeros(2), np.eye(2))


def test_an_unknown_name_is_refused_with_the_known_ones():
    with pytest.raises(UnknownNameError, match="there are a, b, c"):
        belief_from(1).index("z")


def test_a_belief_cannot_be_changed_in_place():
    belief = belief_from(1)
    with pytest.raises(ValueError, match="read-only"):
        belief.mean[0] = 1.0


def test_a_value_in_doubt_moves_the_mean_in_full_and_widens_what_depends_on_it():
    # Averaged over the value by hand: y is normal about 3 with variance 0.7.
    belief = belief_from(4)
    seen = Observation({"a": 1.0, "b": 0.5}, 3.0, 0.2)
    doubted = belief.given([Observation(seen.weights, 3.0, 0.2, doubt=0.7)])
    sure, moved = belief.given([seen]), belief.given([Observation(seen.weights, 4.0, 0.2)])
    slope = moved.mean - sure.mean
    np.testing.assert_allclose(doubted.mean, sure.mean)
    np.testing.assert_allclose(doubted.covariance, sure.covariance + 0.7 * np.outer(slope, slope))


def test_a_doubt_below_nothing_is_refused():
    with pytest.raises(ValueError, match="doubt -1"):
        Observation({"a": 1.0}, 3.0, 0.2, doubt=-1.0)


@pytest.mark.parametrize(
    ("weights", "value", "variance"),
    [({"a": 1.0}, np.nan, 1.0), ({"a": 1.0}, 0.0, -1.0), ({"a": 0.0}, 0.0, 1.0), ({}, 0.0, 1.0)],
)
def test_an_observation_that_says_nothing_is_refused(weights, value, variance):
    with pytest.raises(ValueError, match="observation"):
        Observation(weights, value, variance)
