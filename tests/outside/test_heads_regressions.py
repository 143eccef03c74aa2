"""Conditioning the prior against the surveys' regressions, computed from their rows.

The package carries correlations to three digits, which moves a slope by up to 0.001 of a ratio of
standard deviations, and more where predictors go together; residual standard deviations then
differ by a few hundredths. Tolerances: slopes 2 percent and 0.002, residuals 1 percent and 0.03.
"""

from collections.abc import Sequence

import numpy as np
import pytest

from helmwright.anatomy import Sex
from helmwright.anatomy.prior import population
from helmwright.belief import Normal, exactly

ARMY = [
    (Sex.MALE, "head_length", ("head_circumference",), (0.3603,), 3.99),
    (Sex.MALE, "head_breadth", ("head_circumference",), (0.1909,), 4.61),
    (Sex.MALE, "tragion_to_top", ("head_circumference",), (0.1485,), 5.68),
    (Sex.MALE, "bitragion_chin_arc", ("head_circumference",), (0.4285,), 12.24),
    (
        Sex.MALE,
        "bizygomatic_breadth",
        ("head_circumference", "head_breadth"),
        (0.0524, 0.6495),
        4.66,
    ),
    (Sex.MALE, "head_circumference", ("head_length", "head_breadth"), (1.7111, 1.2247), 6.21),
    (Sex.MALE, "head_breadth", ("head_circumference", "head_length"), (0.4374, -0.6841), 3.71),
    (Sex.MALE, "head_circumference", ("stature", "weight"), (0.0319, 0.4966), 13.73),
    (Sex.FEMALE, "head_length", ("head_circumference",), (0.2914,), 4.87),
    (Sex.FEMALE, "head_breadth", ("head_circumference",), (0.1325,), 4.51),
    (Sex.FEMALE, "tragion_to_top", ("head_circumference",), (0.1268,), 6.07),
    (Sex.FEMALE, "head_circumference", ("head_length", "head_breadth"), (1.7714, 1.2831), 10.85),
    (Sex.FEMALE, "head_breadth", ("head_circumference", "head_length"), (0.2059, -0.2517), 4.35),
    (Sex.FEMALE, "head_circumference", ("stature", "weight"), (0.0494, 0.4980), 17.80),
]
NIOSH = [
    (Sex.MALE, "bigonial_breadth", ("head_circumference",), (0.2369,), 9.86),
    (Sex.MALE, "head_length", ("head_circumference",), (0.3332,), 4.72),
    (Sex.MALE, "head_breadth", ("head_circumference",), (0.1784,), 5.07),
    (Sex.MALE, "head_circumference", ("head_length", "head_breadth"), (1.6429, 1.1526), 8.73),
    (Sex.FEMALE, "bigonial_breadth", ("head_circumference",), (0.1193,), 8.94),
    (Sex.FEMALE, "head_length", ("head_circumference",), (0.2447,), 5.67),
    (Sex.FEMALE, "head_breadth", ("head_circumference",), (0.1118,), 5.25),
    (Sex.FEMALE, "head_circumference", ("head_length", "head_breadth"), (1.7181, 1.2257), 13.75),
]


def known(belief: Normal, predictors: Sequence[str], moved: str | None = None) -> Normal:
    """The belief once the predictors are known: at their means, one of them 10 more."""
    return belief.given(
        [
            exactly(name, belief.mean[belief.index(name)] + 10.0 * (name == moved))
            for name in predictors
        ]
    )


def regression(belief: Normal, wanted: str, predictors: Sequence[str]) -> tuple[list[float], float]:
    """Slopes and residual SD, found by conditioning."""
    at_means, place = known(belief, predictors), belief.index(wanted)
    slopes = [
        float(known(belief, predictors, name).mean[place] - at_means.mean[place]) / 10.0
        for name in predictors
    ]
    return slopes, float(at_means.sd[place])


def check(survey: str, sex: Sex, wanted: str, predictors, slopes, residual) -> None:
    found, spread = regression(population(sex, survey), wanted, predictors)
    np.testing.assert_allclose(found, slopes, rtol=0.02, atol=0.002)
    assert spread == pytest.approx(residual, rel=0.01, abs=0.03)


@pytest.mark.outside("us_army_2012")
@pytest.mark.parametrize(("sex", "wanted", "predictors", "slopes", "residual"), ARMY)
def test_the_army_prior_regresses_as_the_army_rows_do(sex, wanted, predictors, slopes, residual):
    check("us_army_2012", sex, wanted, predictors, slopes, residual)


@pytest.mark.outside("niosh_2003")
@pytest.mark.parametrize(("sex", "wanted", "predictors", "slopes", "residual"), NIOSH)
def test_the_niosh_prior_regresses_as_the_niosh_rows_do(sex, wanted, predictors, slopes, residual):
    check("niosh_2003", sex, wanted, predictors, slopes, residual)


@pytest.mark.outside("us_army_2012")
@pytest.mark.parametrize(
    ("predictors", "residual"),
    [
        (("head_circumference",), 5.6),
        (("head_circumference", "head_length", "head_breadth"), 5.6),
        (("head_circumference", "head_length", "head_breadth", "bitragion_chin_arc"), 5.5),
    ],
)
def test_circumference_length_and_breadth_say_little_about_height(predictors, residual):
    # From a random part of the rows, to one digit: 0.1 for the part and the rounding.
    _, spread = regression(population(Sex.MALE, "joined"), "tragion_to_top", predictors)
    assert spread == pytest.approx(residual, abs=0.1)


JAW = [
    (("head_circumference",), 7.0),
    (("head_circumference", "head_length", "head_breadth"), 6.3),
    (("head_circumference", "head_length", "head_breadth", "bitragion_chin_arc"), 5.5),
    (("bizygomatic_breadth",), 4.1),
    (("bigonial_breadth",), 2.6),
]


@pytest.mark.outside("niosh_2003")
@pytest.mark.parametrize(("predictors", "residual"), JAW)
def test_what_tells_the_width_of_the_jaw_in_the_survey_that_measured_it(predictors, residual):
    # The bony mean of cheekbone and jaw-corner breadths, before soft tissue; to one digit.
    bony = population(Sex.MALE, "niosh_2003").extended(
        "bony", {"bizygomatic_breadth": 0.5, "bigonial_breadth": 0.5}, offset=0.0, variance=0.0
    )
    _, spread = regression(bony, "bony", predictors)
    assert spread == pytest.approx(residual, abs=0.15)


@pytest.mark.outside("niosh_2003")
def test_the_joined_prior_keeps_the_niosh_relation_of_jaw_and_circumference():
    # Joined across surveys whose spreads differ by a tenth: 15 percent on the slope, 5 on the rest.
    slopes, spread = regression(
        population(Sex.MALE, "joined"), "bigonial_breadth", ("head_circumference",)
    )
    assert slopes[0] == pytest.approx(0.2369, rel=0.15)
    assert spread == pytest.approx(9.86, rel=0.05)
