"""How many pieces will be wanted: against scipy, against closed forms, and by drawing."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from scipy import stats

from helmwright.planning import Share, interval, more_than, need_pmf

CHANCES = st.lists(st.floats(0.0, 1.0), max_size=12)


@given(CHANCES)
def test_known_fittings_add_up_to_a_poisson_binomial(chances):
    pmf = need_pmf([(1, chance) for chance in chances], (), 0)
    ours = stats.poisson_binom(chances).pmf(np.arange(len(chances) + 1)) if chances else [1.0]
    assert_allclose(pmf, ours, atol=1e-12)


@pytest.mark.parametrize("count", [0, 1, 7, 110])
def test_fittings_of_which_nothing_is_known_are_beta_binomial(count):
    pmf = need_pmf((), [Share(1, 1.7, 5.2)], count)
    assert_allclose(pmf, stats.betabinom(count, 1.7, 5.2).pmf(np.arange(count + 1)), rtol=1e-9)


def test_a_share_that_is_all_but_known_gives_a_binomial():
    pmf = need_pmf((), [Share(1, 3e8, 7e8)], 20)
    assert_allclose(pmf, stats.binom(20, 0.3).pmf(np.arange(21)), atol=1e-6)


def test_pieces_that_go_in_twos_are_never_odd():
    pmf = need_pmf([(2, 0.5)], [Share(2, 2.0, 3.0)], 5)
    assert not pmf[1::2].any()
    assert pmf.sum() == pytest.approx(1.0)


def test_known_and_unknown_fittings_agree_with_drawing_them():
    rng = np.random.default_rng(11)
    known, share, count, draws = [(1, 0.8), (2, 0.4)], Share(1, 2.0, 6.0), 9, 200_000
    drawn = rng.binomial(count, rng.beta(2.0, 6.0, draws))
    drawn = drawn + (rng.random(draws) < 0.8) + 2 * (rng.random(draws) < 0.4)
    pmf = need_pmf(known, [share], count)
    assert_allclose(pmf, np.bincount(drawn, minlength=len(pmf)) / draws, atol=0.005)


@given(CHANCES, st.integers(-3, 15))
def test_more_than_a_count_is_the_rest_of_the_distribution(chances, count):
    pmf = need_pmf([(1, chance) for chance in chances], (), 0)
    counted = 1.0 - (stats.poisson_binom(chances).cdf(count) if chances else float(count >= 0))
    assert more_than(pmf, count) == pytest.approx(counted, abs=1e-9)


def test_eight_cases_in_ten_lie_within_the_interval():
    pmf = stats.binom(40, 0.25).pmf(np.arange(41))
    low, high = interval(pmf, 0.8)
    assert (low, high) == stats.binom(40, 0.25).interval(0.8)
    assert pmf[low : high + 1].sum() >= 0.8


def test_nothing_to_come_wants_nothing():
    assert interval(need_pmf((), [Share(1, 1.0, 3.0)], 0)) == (0, 0)


@pytest.mark.parametrize(("pieces", "wins", "misses"), [(0, 1.0, 1.0), (1, 0.0, 1.0), (1, 1.0, 0)])
def test_a_share_that_is_no_belief_is_refused(pieces, wins, misses):
    with pytest.raises(ValueError, match="must be"):
        Share(pieces, wins, misses)
