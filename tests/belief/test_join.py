"""Two surveys that share only some quantities."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.belief import Normal, exactly, joined


def survey(names: tuple[str, ...], seed: int) -> Normal:
    rng = np.random.default_rng(seed)
    root = rng.normal(size=(len(names), len(names) + 1))
    return Normal(names, 100.0 * rng.normal(size=len(names)), root @ root.T)


@given(st.integers(0, 10_000), st.integers(0, 10_000))
@settings(max_examples=60)
def test_the_joined_covariance_is_positive_semi_definite_whatever_the_surveys(first, second):
    whole = joined(survey(tuple("abcd"), first), survey(tuple("cbxy"), second))
    assert whole.names == tuple("abcdxy")
    eigenvalues = np.linalg.eigvalsh(whole.covariance)
    assert eigenvalues.min() > -1e-9 * eigenvalues.max()


@given(st.integers(0, 10_000), st.integers(0, 10_000))
@settings(max_examples=30)
def test_the_main_survey_stays_as_it_is(first, second):
    main = survey(tuple("abc"), first)
    whole = joined(main, survey(tuple("bcx"), second))
    np.testing.assert_allclose(whole.marginal(main.names).mean, main.mean)
    np.testing.assert_allclose(whole.marginal(main.names).covariance, main.covariance)


def test_two_halves_of_one_survey_give_back_what_they_share():
    whole = survey(tuple("abcx"), 8)
    again = joined(whole.marginal("abc"), whole.marginal("bcx"))
    np.testing.assert_allclose(again.marginal("bcx").covariance, whole.marginal("bcx").covariance)
    np.testing.assert_allclose(again.marginal("bcx").mean, whole.marginal("bcx").mean)


def test_given_the_shared_quantities_the_rest_are_independent():
    whole = joined(survey(tuple("abc"), 4), survey(tuple("bcxy"), 5))
    left = whole.given([exactly("b", 1.0), exactly("c", 2.0)])
    for name in "xy":
        cross = left.covariance[left.index("a"), left.index(name)]
        assert cross == pytest.approx(0.0, abs=1e-9)


def test_the_donors_unit_and_spread_of_shared_quantities_do_not_matter():
    main, donor = survey(tuple("ab"), 4), survey(tuple("bx"), 5)
    stretch = np.array([3.0, 1.0])
    other = Normal(donor.names, donor.mean * stretch, donor.covariance * np.outer(stretch, stretch))
    np.testing.assert_allclose(joined(main, donor).covariance, joined(main, other).covariance)


def test_a_correlation_carries_over_through_the_shared_quantity():
    main = Normal(("a", "b"), np.zeros(2), np.array([[4.0, 1.6], [1.6, 1.0]]))
    donor = Normal(("b", "x"), np.zeros(2), np.array([[9.0, 3.0], [3.0, 4.0]]))
    whole = joined(main, donor)
    # Correlations 0.8 and 0.5 through b make 0.4; the spread of x stays 2.
    assert whole.covariance[0, 2] / (2.0 * 2.0) == pytest.approx(0.4)
    assert whole.covariance[2, 2] == pytest.approx(4.0)


def test_surveys_without_a_shared_quantity_are_refused():
    with pytest.raises(ValueError, match="both measured"):
        joined(survey(("a",), 1), survey(("b",), 2))


def test_a_shared_quantity_that_does_not_vary_is_refused():
    flat = Normal(("b", "x"), np.zeros(2), np.diag([0.0, 1.0]))
    with pytest.raises(ValueError, match="vary"):
        joined(survey(("a", "b"), 1), flat)


def test_a_donor_that_brings_nothing_new_changes_nothing():
    main = survey(tuple("ab"), 1)
    assert joined(main, survey(("b",), 2)) is main
