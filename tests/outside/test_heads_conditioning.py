"""Conditioning against a general statistics library that knows nothing of it."""

import numpy as np
import pytest
from scipy.stats import multivariate_normal, norm

from helmwright.anatomy import Sex, adult_prior
from helmwright.belief import Mixture, Normal, Observation, exactly

NAMES = ("head_length", "head_breadth")


def heads() -> Normal:
    return adult_prior(Sex.MALE).parts[0].marginal(NAMES)


def weighed_grid(belief: Normal, weigh, points: int = 401) -> tuple[float, np.ndarray, np.ndarray]:
    """Total, mean and covariance of a density times a weight, summed over a grid of 8 SD."""
    axes = [
        np.linspace(mean - 8 * sd, mean + 8 * sd, points)
        for mean, sd in zip(belief.mean, belief.sd, strict=True)
    ]
    spots = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 2)
    mass = multivariate_normal(belief.mean, belief.covariance).pdf(spots) * weigh(spots)
    mass *= (axes[0][1] - axes[0][0]) * (axes[1][1] - axes[1][0])
    total = mass.sum()
    mean = mass @ spots / total
    off = spots - mean
    return float(total), mean, (mass[:, None] * off).T @ off / total


@pytest.mark.outside("scipy_stats")
@pytest.mark.parametrize(
    "weights", [{"head_length": 1.0}, {"head_length": 1.0, "head_breadth": -0.5}]
)
def test_a_reading_moves_the_belief_as_prior_times_likelihood_on_a_grid_does(weights):
    row = np.array([weights.get(name, 0.0) for name in NAMES])
    total, mean, covariance = weighed_grid(
        heads(), lambda spots: norm.pdf(130.0 if len(weights) == 2 else 205.0, spots @ row, 3.0)
    )
    seen = Observation(weights, 130.0 if len(weights) == 2 else 205.0, 9.0)
    after = heads().given([seen])
    # The trapezoid sum of a smooth density on this grid is good to many digits.
    np.testing.assert_allclose(after.mean, mean, atol=1e-8)
    np.testing.assert_allclose(after.covariance, covariance, atol=1e-6)
    assert heads().log_evidence([seen]) == pytest.approx(np.log(total), abs=1e-8)


@pytest.mark.outside("scipy_stats")
def test_a_mixture_moves_as_prior_times_likelihood_on_a_grid_does():
    mixture = adult_prior().marginal(NAMES)
    readings = np.array([186.0, 147.0])
    sums = [
        weighed_grid(part, lambda spots: norm.pdf(readings, spots, 2.0).prod(axis=1))
        for part in mixture.parts
    ]
    shares = mixture.weights * [total for total, _, _ in sums]
    shares /= shares.sum()
    after = mixture.given(
        [exactly(name, value, 4.0) for name, value in zip(NAMES, readings, strict=True)]
    )
    assert after.weight_of("female") == pytest.approx(shares[1], abs=1e-8)
    assert 0.1 < shares[1] < 0.9
    np.testing.assert_allclose(after.mean, shares @ [mean for _, mean, _ in sums], atol=1e-6)


@pytest.mark.outside("scipy_stats")
def test_the_evidence_of_ten_readings_is_the_librarys_density():
    part = adult_prior(Sex.MALE).parts[0]
    values = part.mean + np.linspace(-1.5, 1.5, 10) * part.sd
    errors = np.linspace(1.0, 9.0, 10)
    readings = [exactly(n, v, e) for n, v, e in zip(part.names, values, errors, strict=True)]
    density = multivariate_normal(part.mean, part.covariance + np.diag(errors)).logpdf(values)
    assert part.log_evidence(readings) == pytest.approx(float(density), abs=1e-9)


@pytest.mark.outside("scipy_stats")
@pytest.mark.parametrize("level", [0.01, 0.3, 0.5, 0.95])
def test_quantiles_of_one_part_are_the_librarys(level):
    part = adult_prior(Sex.MALE).parts[0].marginal(["head_length"])
    mixture = Mixture(np.array([1.0]), (part,), ("male",))
    assert mixture.quantile("head_length", level) == pytest.approx(
        float(norm.ppf(level, part.mean[0], part.sd[0])), abs=1e-6
    )


@pytest.mark.outside("scipy_stats")
def test_draws_fall_into_rectangles_as_often_as_the_library_integrates():
    belief = heads()
    draws = belief.draw(200_000, np.random.default_rng(7))
    corner = belief.mean + np.array([0.4, -0.3]) * belief.sd
    share = np.mean((draws < corner).all(axis=1))
    expected = multivariate_normal(belief.mean, belief.covariance).cdf(corner)
    # Four standard errors of a share of 200,000.
    assert share == pytest.approx(float(expected), abs=0.0045)
