"""A fitter with errors of his own, the same for whoever proposed the build."""

from dataclasses import replace

import numpy as np
import pytest

from helmwright.catalogue import ZONES, Zone
from helmwright.fit.finding import Grade, Sign
from helmwright.study import fitter as fitting
from helmwright.study.fitter import BROW, MISREAD_MM, Fitter


@pytest.fixture(scope="module")
def tried(met):
    return met.wearer.tried_on(met.delivered, 1)


def at_pressure(tried, kpa: float, stroke: float = 3.0):
    """The same helmet with every pad pressed so hard, so far."""
    rest = tried.rest
    return replace(
        tried,
        rest=replace(
            rest,
            stroke_mm=np.full_like(rest.stroke_mm, stroke),
            zone_pressure_kpa=np.full_like(rest.zone_pressure_kpa, kpa),
            zone_peak_kpa=np.full_like(rest.zone_peak_kpa, kpa),
            zone_gap_mm=np.zeros_like(rest.zone_gap_mm),
        ),
    )


def found(tried, kpa: float, stroke: float, count: int = 600) -> dict[Grade, float]:
    there = at_pressure(tried, kpa, stroke)
    grades = [Fitter((1, n)).finds(there, Zone.FRONT, 1).grade for n in range(count)]
    return {grade: grades.count(grade) / count for grade in Grade}


def test_a_pad_in_the_middle_of_its_band_is_found_right_but_for_slips(tried):
    shares = found(tried, 2.0, 3.0)
    assert shares[Grade.RIGHT] > 0.96
    assert shares[Grade.UNDER] > 0.0


def test_at_a_limit_half_the_fitters_say_so(tried):
    assert found(tried, 6.0, 4.0)[Grade.OVER] == pytest.approx(0.5, abs=0.06)
    edge = tried.trial.laws.stroke(Zone.FRONT, tried.build.pads[1], tried.trial.bands.loose_kpa)
    assert found(tried, 0.7, edge)[Grade.UNDER] == pytest.approx(0.5, abs=0.06)


def test_far_beyond_a_limit_nearly_all_do(tried):
    assert found(tried, 15.0, 6.0)[Grade.OVER] > 0.95
    stood_off = at_pressure(tried, 0.0, -4.0)
    clear = replace(
        stood_off,
        rest=replace(stood_off.rest, zone_gap_mm=np.full_like(stood_off.rest.zone_gap_mm, 6.0)),
    )
    grades = [Fitter((2, n)).finds(clear, Zone.REAR, 1).grade for n in range(300)]
    assert grades.count(Grade.UNDER) > 285


def test_his_total_error_of_a_brow_height_is_the_one_that_is_believed_of_fitters(tried):
    true = tried.rest.brow_mm[0]
    errors = np.array([Fitter((3, n)).reads_brow(tried, 1).value_mm - true for n in range(3000)])
    usual = errors[np.abs(errors) < 12.0]
    assert usual.std() == pytest.approx(2.0, rel=0.08)
    assert np.mean(np.abs(errors) > 12.0) == pytest.approx(fitting.SLIP.value, abs=0.006)
    slips = np.abs(errors[np.abs(errors) > 12.0])
    assert np.median(slips) == pytest.approx(MISREAD_MM, abs=3.0)


def test_his_own_bias_stays_with_him(tried):
    true = tried.rest.brow_mm[0]
    errors = np.array(
        [[Fitter((4, n)).reads_brow(tried, day).value_mm - true for day in (1, 2)]
         for n in range(2000)]
    )  # fmt: skip
    close = errors[(np.abs(errors) < 12.0).all(axis=1)]
    assert np.corrcoef(close.T)[0, 1] == pytest.approx(0.2, abs=0.06)


def test_the_same_look_errs_alike_and_another_look_does_not(tried):
    one = Fitter((5,))
    assert one.reads_brow(tried, 1, 1) == one.reads_brow(tried, 1, 1)
    assert one.reads_brow(tried, 1, 1) != one.reads_brow(tried, 1, 2)
    assert one.reads_brow(tried, 1, 1) != one.reads_brow(tried, 2, 1)


def test_looks_that_repeat_half_their_noise_agree_so_much():
    def together(share: float) -> float:
        looks = [
            [Fitter((6, n), same_look=share)._errors(BROW, 1, look)[0] for look in (1, 2)]
            for n in range(2500)
        ]
        return float(np.corrcoef(np.array(looks).T)[0, 1])

    assert together(0.0) == pytest.approx(0.0, abs=0.05)
    assert together(0.5) == pytest.approx(0.5, abs=0.08)


def test_a_finding_names_its_sign_and_zone(tried):
    one = Fitter((7,))
    assert {one.finds(tried, zone, 1).zone for zone in ZONES} == set(ZONES)
    assert one.reads_brow(tried, 1).sign is Sign.BROW
