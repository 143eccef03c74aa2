"""Air against the standard atmosphere and the gas law, by hand."""

import math

import pytest
from scipy.integrate import quad

from helmwright.catalogue.air import (
    Surroundings,
    free_volume_ratio,
    rigid_gauge_kpa,
    sealed_gauge_kpa,
    standard_pressure_kpa,
)

WARM = Surroundings(25.0)


@pytest.mark.outside("standard_atmosphere_1976")
@pytest.mark.parametrize(
    ("elevation", "kpa"), [(0, 101.325), (500, 95.5), (1000, 89.9), (1600, 83.5), (2200, 77.5)]
)
def test_pressure_falls_with_elevation_as_the_standard_has_it(elevation, kpa):
    assert standard_pressure_kpa(elevation) == pytest.approx(kpa, abs=0.06)


@pytest.mark.outside("standard_atmosphere_1976")
def test_the_layer_ends_at_the_pressure_that_the_standard_prints():
    """226.32 mb at 11 km of geopotential height, 216.65 K."""
    assert standard_pressure_kpa(11000.0) == pytest.approx(22.632, abs=0.002)


# Gauge [kPa] filled at 25 C, temperature [C], gauge there [kPa]: ideal gas of constant volume.
RIGID = [(7, 0, -2.1), (7, 10, 1.6), (7, 40, 12.4), (14, 0, 4.3), (14, 10, 8.2), (14, 40, 19.8),
         (21, 0, 10.7), (21, 10, 14.8), (21, 40, 27.2)]  # fmt: skip


@pytest.mark.outside("ideal_gas")
@pytest.mark.parametrize(("gauge", "celsius", "there"), RIGID)
def test_a_rigid_cell_loses_gauge_in_the_cold(gauge, celsius, there):
    by_hand = (101.325 + gauge) * (273.15 + celsius) / 298.15 - 101.325
    assert rigid_gauge_kpa(gauge, WARM, Surroundings(celsius)) == pytest.approx(by_hand, abs=1e-9)
    assert by_hand == pytest.approx(there, abs=0.05)


@pytest.mark.outside("ideal_gas", "standard_atmosphere_1976")
@pytest.mark.parametrize(
    ("elevation", "gain"), [(500, 5.9), (1000, 11.5), (1600, 17.8), (2200, 23.8)]
)
def test_a_rigid_cell_gains_what_the_air_around_loses(elevation, gain):
    there = rigid_gauge_kpa(14.0, WARM, Surroundings(25.0, elevation))
    assert there - 14.0 == pytest.approx(gain, abs=0.06)


@pytest.mark.outside("ideal_gas")
def test_a_cell_that_gives_freely_swells_by_an_eighth_at_1000_m():
    """(101.325 + 3) / (89.875 + 3) = 1.1233."""
    ratio = free_volume_ratio(3.0, WARM, Surroundings(25.0, 1000.0))
    assert ratio == pytest.approx(1.1233, abs=2e-4)


@pytest.mark.outside("ideal_gas")
@pytest.mark.parametrize("pressed", [0.95, 0.8, 0.5])
def test_the_work_of_slow_pressing_is_that_of_the_isotherm(pressed):
    """W = (pa + p1) V1 ln(V1/V2) - pa (V1 - V2), per unit of V1 [kPa]."""
    gauge, around = 4.0, 101.325
    work, _ = quad(lambda ratio: sealed_gauge_kpa(gauge, ratio, WARM, WARM), pressed, 1.0)
    by_hand = (around + gauge) * math.log(1.0 / pressed) - around * (1.0 - pressed)
    assert work == pytest.approx(by_hand, rel=1e-9)
