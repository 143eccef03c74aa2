"""Reading errors against published repeat studies and limits."""

from math import sqrt

import numpy as np
import pytest
from scipy.stats import chi2, invgamma, norm

from helmwright.anatomy import MEASURES, MeasurerError, measure_of, technical_error
from helmwright.anatomy.measurer import USUAL_WORTH
from helmwright.anatomy.reading import repeat_squares


@pytest.mark.outside("gupta_zakaria_2014")
def test_the_technical_error_follows_its_formula():
    # sqrt((1 + 4 + 4) / 6), by hand.
    assert technical_error([(570, 571), (580, 578), (561, 563)]) == pytest.approx(sqrt(1.5))


STATURES_M = (
    (0.865, 1.023, 0.982, 0.817, 0.901, 0.880, 0.948, 0.906, 0.924, 0.989),
    (0.863, 1.023, 0.980, 0.816, 0.894, 0.876, 0.947, 0.905, 0.924, 0.987),
    (0.863, 1.027, 0.989, 0.812, 0.900, 0.881, 0.947, 0.907, 0.926, 1.002),
    (0.864, 1.025, 0.985, 0.817, 0.903, 0.881, 0.946, 0.908, 0.924, 0.993),
)
"""Four observers, ten people."""

DIFFERENCES = (0.0003, 0.0011, 0.0046, 0.0017, 0.0045, 0.0017, 0.0002, 0.0005, 0.0003, 0.0133)
"""Printed beside them: sum of squares less squared sum over four, in square decimeters."""


@pytest.mark.outside("ulijaszek_kerr_1999")
def test_the_technical_error_of_four_observers_is_the_one_of_the_worked_example():
    people = list(zip(*STATURES_M, strict=True))
    assert 1000.0 * technical_error(people) == pytest.approx(3.0632, abs=5e-4)
    for person, printed in zip(people, DIFFERENCES, strict=True):
        squares, freedom = repeat_squares([person])
        assert freedom == 3
        # Printed to the fourth decimal, as the difference of two sums that were.
        assert 100.0 * squares == pytest.approx(printed, abs=1.5e-4)


@pytest.mark.outside("ulijaszek_kerr_1999", "gupta_zakaria_2014")
def test_for_pairs_the_two_formulas_are_one():
    pairs = list(zip(STATURES_M[0], STATURES_M[2], strict=True))
    by_pairs = sqrt(sum((a - b) ** 2 for a, b in pairs) / (2 * len(pairs)))
    assert technical_error(pairs) == pytest.approx(by_pairs, rel=1e-9)


@pytest.mark.outside("scipy_stats")
def test_a_persons_error_is_the_posterior_of_a_conjugate_variance():
    # The scaled inverse chi-square is an inverse gamma; its posterior by brute force on a grid.
    worth, usual = USUAL_WORTH.value, measure_of("head_length").reading_error.value
    one = MeasurerError("Ada", "head_length", 9, 9 * 2.4**2)
    variance = np.linspace(0.2, 40.0, 40_001)
    prior = invgamma.logpdf(variance, worth / 2.0, scale=worth * usual**2 / 2.0)
    weight = np.exp(prior - 4.5 * np.log(variance) - one.squares_mm2 / (2.0 * variance))
    share = np.cumsum(weight) / weight.sum()
    low, high = (float(np.sqrt(variance[np.searchsorted(share, q)])) for q in (0.05, 0.95))
    assert one.interval_mm == pytest.approx((low, high), abs=0.005)
    mean = float((variance * weight).sum() / weight.sum())
    freedom = worth + 9
    assert mean == pytest.approx(freedom * one.used_mm**2 / (freedom - 2.0), rel=1e-3)


@pytest.mark.outside("scipy_stats")
def test_repeats_of_somebody_with_the_usual_error_are_seldom_past_it():
    rng = np.random.default_rng(4)
    usual = measure_of("head_breadth").reading_error.value
    squares = (rng.normal(0.0, usual, size=(4000, 15)) ** 2).sum(axis=1)
    past = [MeasurerError("Bo", "head_breadth", 15, float(each)).is_past_usual for each in squares]
    assert np.mean(past) == pytest.approx(0.05, abs=0.014)
    # Half as much again in every reading shows three times in four, by the same distribution.
    wide = [
        MeasurerError("Bo", "head_breadth", 15, float(2.25 * each)).is_past_usual
        for each in squares
    ]
    assert np.mean(wide) == pytest.approx(chi2.sf(chi2.ppf(0.95, 15) / 2.25, 15), abs=0.03)


@pytest.mark.outside("gupta_zakaria_2014")
def test_the_technical_error_is_the_standard_deviation_of_one_readings_error():
    rng = np.random.default_rng(11)
    heads = rng.normal(574.0, 16.0, size=5000)
    pairs = heads[:, None] + rng.normal(0.0, 3.0, size=(5000, 2))
    # Its relative standard error is 1 / sqrt(2 N): 1 percent; four of them.
    found = technical_error([(first, second) for first, second in pairs])
    assert found == pytest.approx(3.0, rel=0.04)


@pytest.mark.outside("thakkar_2017")
def test_our_tape_error_is_no_better_than_that_of_trained_measurers():
    # The shares are of pairs 5 mm or more apart; whole millimeters begin at 4.5 to 5.
    def share(error: float) -> float:
        return float(2.0 * norm.sf(5.0, scale=sqrt(2.0) * error))

    tape = measure_of("tape_circumference").reading_error.value
    assert share(2.1) == pytest.approx(0.099, abs=0.01)
    assert share(2.5) == pytest.approx(0.159, abs=0.01)
    assert share(3.1) == pytest.approx(0.26, abs=0.01)
    assert 0.159 < share(tape) < 0.27


@pytest.mark.outside("iso_20685")
@pytest.mark.parametrize("measure", MEASURES, ids=lambda measure: measure.key)
def test_a_persons_bias_is_of_the_size_the_standard_allows_a_method(measure):
    # 1 mm without hair, 2 mm with hair, for the mean error of a method on heads.
    assert 0.5 <= measure.bias.value <= 2.0
    if measure.key in ("head_circumference", "tape_circumference"):
        assert measure.bias.value > 1.0
