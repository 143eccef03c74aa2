"""Mixtures of normal beliefs."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.belief import Mixture, Normal, exactly, leave_one_out, score

NARROW = Normal(("x", "y"), np.array([0.0, 1.0]), np.array([[1.0, 0.5], [0.5, 2.0]]))
WIDE = Normal(("x", "y"), np.array([4.0, -1.0]), np.array([[3.0, 0.0], [0.0, 1.0]]))


def mixture(first: float = 0.7) -> Mixture:
    return Mixture(np.array([first, 1.0 - first]), (NARROW, WIDE), ("narrow", "wide"))


def test_moments_are_those_of_many_draws():
    draws = mixture().draw(200_000, np.random.default_rng(2))
    # Four standard errors with variances of up to 5.
    np.testing.assert_allclose(draws.mean(axis=0), mixture().mean, atol=0.02)
    np.testing.assert_allclose(np.cov(draws.T), mixture().covariance, atol=0.08)


def test_evidence_moves_the_weights_by_bayes():
    after = mixture().given([exactly("x", 4.0, 1.0)])
    density = [np.exp(-0.5 * (4.0 - m) ** 2 / v) / np.sqrt(v) for m, v in ((0.0, 2.0), (4.0, 4.0))]
    expected = 0.7 * density[0] / (0.7 * density[0] + 0.3 * density[1])
    assert after.weight_of("narrow") == pytest.approx(expected)


def test_evidence_far_out_still_leaves_a_belief():
    after = mixture().given([exactly("x", 1e4, 1.0)])
    assert after.weights.sum() == pytest.approx(1.0)
    assert after.weight_of("wide") > 0.999


def test_a_part_that_was_ruled_out_stays_out():
    after = mixture(1.0).given([exactly("x", 4.0, 1.0)])
    assert after.weight_of("wide") == 0.0
    assert after.weight_of("neither") == 0.0


@given(st.floats(0.01, 0.99))
def test_a_quantile_has_its_level_below_it(level):
    value = mixture().quantile("x", level)
    assert mixture().tails({"x": 1.0}, value, 0.0)[0] == pytest.approx(level, abs=1e-6)


def test_an_interval_of_one_part_is_the_normal_interval():
    low, high = mixture(1.0).interval("x", 0.9)
    assert (low, high) == pytest.approx((-1.6449, 1.6449), abs=1e-3)


def test_an_interval_holds_its_share_of_the_draws():
    low, high = mixture().interval("y", 0.8)
    draws = mixture().draw(100_000, np.random.default_rng(3))[:, 1]
    # Three standard errors of a share.
    assert np.mean((draws >= low) & (draws <= high)) == pytest.approx(0.8, abs=0.004)


def test_a_quantity_known_exactly_has_an_interval_of_no_width():
    after = mixture(1.0).given([exactly("x", 1.5)]).marginal(["x"])
    low, high = after.interval("x", 0.9)
    assert low == pytest.approx(1.5, abs=1e-4)
    assert high == pytest.approx(1.5, abs=1e-4)


def test_the_score_of_one_normal_part_is_the_standardized_residual():
    assert score(mixture(1.0), exactly("x", 3.0, 3.0)) == pytest.approx(1.5)
    assert score(mixture(1.0), exactly("x", -3.0, 3.0)) == pytest.approx(-1.5)


def test_a_score_beyond_all_counting_is_still_a_number():
    assert np.isfinite(score(mixture(), exactly("x", 1e6, 1.0)))
    assert score(mixture(), exactly("x", -1e6, 1.0)) < -30.0


def test_the_reading_that_does_not_go_with_the_others_has_the_largest_residual():
    belief = Normal(tuple("abcd"), np.zeros(4), np.full((4, 4), 9.0) + np.eye(4))
    single = Mixture(np.array([1.0]), (belief,), ("only",))
    readings = [
        exactly(name, value, 0.25) for name, value in zip("abcd", (2, 2, 8, 2), strict=True)
    ]
    residuals = leave_one_out(single, readings)
    assert [abs(each.score) > 3.0 for each in residuals] == [False, False, True, False]
    assert residuals[2].expected == pytest.approx(2.0, abs=0.2)


def test_a_residual_is_the_reading_against_the_belief_from_the_others():
    readings = [exactly("x", 1.0, 0.5), exactly("y", 2.0, 0.5)]
    residuals = leave_one_out(mixture(1.0), readings)
    alone = mixture(1.0).given(readings[1:])
    assert residuals[0].expected == pytest.approx(alone.mean[0])
    assert residuals[0].score == pytest.approx(score(alone, readings[0]))


@pytest.mark.parametrize(
    ("weights", "parts", "labels", "says"),
    [
        ([1.0], (NARROW, WIDE), ("a", "b"), "as many"),
        ([0.0, 0.0], (NARROW, WIDE), ("a", "b"), "not all 0"),
        ([-1.0, 2.0], (NARROW, WIDE), ("a", "b"), "0 or more"),
        ([0.5, 0.5], (NARROW, WIDE.marginal(["y", "x"])), ("a", "b"), "same names"),
        ([], (), (), "at least 1"),
    ],
)
def test_what_is_no_mixture_is_refused(weights, parts, labels, says):
    with pytest.raises(ValueError, match=says):
        Mixture(np.array(weights), parts, labels)


def test_a_level_outside_0_to_1_is_refused():
    with pytest.raises(ValueError, match="between 0 and 1"):
        mixture().quantile("x", 1.0)


def test_quantities_drawn_after_the_others_are_drawn_as_if_together():
    whole = Mixture(
        np.array([0.7, 0.3]),
        (
            Normal(
                ("a", "b", "c"),
                np.array([1.0, 2.0, 3.0]),
                np.array([[4.0, 1.0, -1.5], [1.0, 2.0, 0.4], [-1.5, 0.4, 1.0]]),
            ),
            Normal(("a", "b", "c"), np.array([5.0, 0.0, 0.0]), np.diag([1.0, 1.0, 0.0])),
        ),
        ("one", "other"),
    )
    rng = np.random.default_rng(6)
    known, part_of = whole.marginal(["a", "b"]).draw_by_part(60_000, rng)
    rest = whole.completed(known, part_of, rng)
    drawn = np.column_stack([known, rest])
    np.testing.assert_allclose(drawn.mean(axis=0), whole.mean, atol=0.04)
    np.testing.assert_allclose(np.cov(drawn.T), whole.covariance, atol=0.12)
    # What does not vary is not drawn apart from its mean.
    np.testing.assert_allclose(rest[part_of == 1], 0.0, atol=1e-9)


def test_drawing_by_part_deals_out_the_same_draws():
    whole = Mixture(
        np.array([0.4, 0.6]),
        tuple(Normal(("a",), np.array([m]), np.eye(1)) for m in (0.0, 50.0)),
        ("one", "other"),
    )
    plain = whole.draw(500, np.random.default_rng(3))
    values, part_of = whole.draw_by_part(500, np.random.default_rng(3))
    np.testing.assert_array_equal(plain, values)
    np.testing.assert_array_equal(values[:, 0] > 25.0, part_of == 1)
