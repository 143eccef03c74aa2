"""Reading errors against published repeat studies and limits."""

from math import sqrt

import numpy as np
import pytest
from scipy.stats import norm

from helmwright.anatomy import MEASURES, measure_of, technical_error


@pytest.mark.outside("gupta_zakaria_2014")
def test_the_technical_error_follows_its_formula():
    # sqrt((1 + 4 + 4) / 6), by hand.
    assert technical_error([(570, 571), (580, 578), (561, 563)]) == pytest.approx(sqrt(1.5))


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
