"""One belief for several that do not agree."""

import numpy as np
import pytest

from helmwright.belief import Normal, blended


def belief(mean: list[float], sd: float, names: tuple[str, ...] = ("a", "b")) -> Normal:
    return Normal(names, np.array(mean), np.eye(2) * sd**2)


def test_a_blend_has_the_moments_of_draws_from_the_equal_mixture():
    rng = np.random.default_rng(5)
    one, two = belief([0.0, 10.0], 1.0), belief([4.0, 10.0], 2.0)
    draws = np.vstack([one.draw(200_000, rng), two.draw(200_000, rng)])
    blend = blended([one, two])
    assert blend.mean == pytest.approx(draws.mean(axis=0), abs=0.02)
    assert blend.covariance == pytest.approx(np.cov(draws.T), abs=0.05)


def test_what_two_beliefs_differ_by_widens_the_blend():
    blend = blended([belief([0.0, 0.0], 1.0), belief([4.0, 0.0], 1.0)])
    assert blend.sd == pytest.approx([np.sqrt(5.0), 1.0])


def test_a_blend_of_one_is_that_one():
    one = belief([1.0, 2.0], 3.0)
    blend = blended([one])
    assert blend.mean == pytest.approx(one.mean)
    assert blend.covariance == pytest.approx(one.covariance)


def test_names_in_another_order_are_put_in_the_first_ones_order():
    other = belief([20.0, 0.0], 1.0, names=("b", "a"))
    assert blended([belief([0.0, 10.0], 1.0), other]).mean == pytest.approx([0.0, 15.0])


def test_beliefs_over_other_names_are_refused():
    with pytest.raises(ValueError, match="same names"):
        blended([belief([0.0, 0.0], 1.0), belief([0.0, 0.0], 1.0, names=("a", "c"))])
    with pytest.raises(ValueError, match="at least one"):
        blended([])
