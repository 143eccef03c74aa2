"""Foam curves against what was published."""

import csv

import numpy as np
import pytest

from helmwright.catalogue import VINYL_NITRILE

# Strain [%] and stress [kPa] of closed-cell vinyl-nitrile in slow compression.
PUBLISHED = {2: 14.3, 5: 22.0, 10: 30.2, 15: 37.4, 20: 45.9, 25: 57.3, 30: 72.2, 35: 91.6,
             40: 118.0, 45: 153.0, 49: 190.0}  # fmt: skip


@pytest.mark.outside("nist_vinyl_nitrile")
@pytest.mark.parametrize(("percent", "stress"), PUBLISHED.items())
def test_vinyl_nitrile_goes_through_the_published_points(percent, stress):
    strain = float(VINYL_NITRILE.strain_at(np.asarray(stress)))
    assert strain == pytest.approx(percent / 100, abs=1e-9)


@pytest.mark.outside("nist_vinyl_nitrile")
def test_vinyl_nitrile_follows_the_whole_measured_curve_from_two_percent_on(shared_data):
    with (shared_data / "nist_vn01_quasistatic.csv").open(encoding="utf-8", newline="") as file:
        rows = [
            (float(r["compressive_strain"]), float(r["stress_Pa"])) for r in csv.DictReader(file)
        ]
    measured = np.array(rows)
    strain, stress = measured[:, 0], measured[:, 1] / 1000
    inside = (strain >= 0.02) & (strain <= 0.49)
    assert np.count_nonzero(inside) > 100
    ours = np.interp(strain[inside], VINYL_NITRILE.strain, VINYL_NITRILE.stress_kpa)
    # Straight lines between eleven points cut the corners of the curve by this much.
    np.testing.assert_allclose(ours, stress[inside], rtol=0.025)


@pytest.mark.outside("nist_vinyl_nitrile")
def test_the_stress_left_out_at_zero_strain_is_small_beside_the_first_point(shared_data):
    with (shared_data / "nist_vn01_quasistatic.csv").open(encoding="utf-8", newline="") as file:
        first = next(csv.DictReader(file))
    assert abs(float(first["compressive_strain"])) < 1e-9
    assert float(first["stress_Pa"]) / 1000 == pytest.approx(4.64, abs=0.01)
