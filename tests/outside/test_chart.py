"""How often a chart names the wrong shell, against the normal integral and a simulation."""

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import norm

from helmwright.anatomy import Reading, Sex, estimate_head
from helmwright.fit.chart import charted_shell, shell_chances
from tests.fit.ordinary import OUZEL


@pytest.mark.outside("scipy_stats")
@pytest.mark.parametrize("tape", [556.0, 569.0, 579.0, 601.0])
def test_the_chance_of_each_shell_is_the_normal_integral_over_its_band(tape):
    """Tolerance: four standard errors of 40,000 draws, a percent at most."""
    estimate = estimate_head([Reading("tape_circumference", tape)], sex=Sex.MALE)
    drawn = estimate.draw(40_000, np.random.default_rng(5)).of("tape_circumference")
    mean, sd = estimate.mean_of("tape_circumference"), estimate.sd_of("tape_circumference")
    found = {one.shell: one.chance for one in shell_chances(OUZEL, drawn)}
    for shell in OUZEL.shells:
        band = norm.cdf([shell.chart_low_mm, shell.chart_high_mm], mean, sd)
        assert found.get(shell.number, 0.0) == pytest.approx(np.diff(band)[0], abs=0.01)


@pytest.mark.outside("wrong_band_simulation", "us_army_2012")
@pytest.mark.parametrize(
    ("error", "resampled"), [(2.0, 0.08), (3.0, 0.12), (5.0, 0.20), (7.0, 0.28)]
)
def test_a_tapes_error_names_the_wrong_shell_as_often_as_resampling_says(error, resampled):
    """Bands of 20 mm and a man's circumference of 574.4 (16.0), read once.

    Chance that reading and truth lie in different bands, by an integral of our own and through
    the chart; this project's own count resampled the published records themselves, in whole
    percents.
    """
    rng = np.random.default_rng(8)
    truth = 574.4 + 16.0 * rng.standard_normal(400_000)
    read = truth + error * rng.standard_normal(truth.size)
    known = charted_shell(OUZEL, truth) > 0
    wrong = (charted_shell(OUZEL, truth) != charted_shell(OUZEL, read))[known].mean()
    assert wrong == pytest.approx(wrong_by_integral(error), abs=0.004)
    assert wrong == pytest.approx(resampled, abs=0.015)


def wrong_by_integral(error: float) -> float:
    def right(low: float) -> float:
        return quad(
            lambda true: (
                norm.pdf(true, 574.4, 16.0)
                * (norm.cdf(low + 20.0, true, error) - norm.cdf(low, true, error))
            ),
            low,
            low + 20.0,
        )[0]

    within = norm.cdf(640.0, 574.4, 16.0) - norm.cdf(520.0, 574.4, 16.0)
    return 1.0 - sum(right(low) for low in range(520, 640, 20)) / within
