"""Foams and the snug window."""

from dataclasses import replace

import numpy as np
import pytest

from helmwright.catalogue import CUSHION, VINYL_NITRILE, Foam, Zone, load_packaged
from helmwright.catalogue.foams import cushion_stress_kpa
from helmwright.catalogue.window import pad_stroke_mm, snug_window
from helmwright.sources import Standing

FRONT = load_packaged("ouzel").pad(Zone.FRONT)


@pytest.mark.parametrize("foam", [CUSHION, VINYL_NITRILE], ids=lambda foam: foam.key)
def test_strain_rises_with_stress_from_nothing_far_past_the_last_point(foam):
    stress = np.linspace(0.0, 5 * foam.stress_kpa[-1], 4001)
    strain = foam.strain_at(stress)
    assert strain[0] == 0.0
    assert np.all(np.diff(strain) > 0)


@pytest.mark.parametrize("foam", [CUSHION, VINYL_NITRILE], ids=lambda foam: foam.key)
def test_the_curve_goes_on_without_a_jump_and_no_softer_than_it_ended(foam):
    ended = np.diff(foam.stress_kpa)[-1] / np.diff(foam.strain)[-1]
    assert foam.beyond_kpa >= ended * (1 - 1e-9)
    last = foam.stress_kpa[-1]
    below, above = foam.strain_at(np.array([last - 1e-6, last + 1e-6]))
    assert above - below < 1e-6


def test_the_cushion_table_follows_its_closed_form_between_the_points():
    strain = np.linspace(0.0, 0.80, 3217)
    np.testing.assert_allclose(CUSHION.strain_at(cushion_stress_kpa(strain)), strain, atol=2e-4)


def test_the_cushion_goes_on_along_its_tangent():
    step = 1e-6
    ends = cushion_stress_kpa(np.array([0.85 - step, 0.85 + step]))
    assert pytest.approx((ends[1] - ends[0]) / (2 * step), rel=1e-6) == CUSHION.beyond_kpa


def test_the_cushion_says_that_it_is_assumed():
    assert CUSHION.source.standing is Standing.ASSUMED


def test_the_cushion_has_the_plateau_and_the_crushing_strain_that_its_source_record_tells():
    plateau = cushion_stress_kpa(np.linspace(0.1, 0.5, 41))
    assert plateau.min() >= 1.0
    assert plateau.max() <= 5.0
    slope = np.diff(cushion_stress_kpa(np.linspace(0.0, 0.84, 85))) / 0.01
    crushed = np.flatnonzero(slope[20:] > 20.0)[0] + 20
    assert 60 <= crushed <= 80


# Set beforehand, to a tenth of a millimeter.
@pytest.mark.parametrize(
    ("fit_layer", "window", "steps", "soft", "stiff"),
    [
        (3.0, 2.2, 0.7, None, None),
        (5.0, 3.5, 1.1, None, None),
        (6.5, 4.5, 1.4, 4.7, 4.2),
        (8.0, 5.5, 1.7, 5.8, 5.1),
        (10.0, 6.8, 2.2, 7.2, 6.4),
        (12.0, 8.2, 2.6, None, None),
    ],
)
def test_the_snug_window_grows_with_the_fit_layer(fit_layer, window, steps, soft, stiff):
    pad = replace(FRONT, fit_layer_mm=fit_layer)
    assert snug_window(pad).window_mm == pytest.approx(window, abs=0.051)
    assert snug_window(pad).steps == pytest.approx(steps, abs=0.051)
    if soft is not None:
        assert snug_window(pad, stress_factor=0.75).window_mm == pytest.approx(soft, abs=0.075)
        assert snug_window(pad, stress_factor=1.25).window_mm == pytest.approx(stiff, abs=0.075)


def test_an_energy_layer_alone_has_hardly_any_snug_window():
    pad = replace(FRONT, fit_foam=VINYL_NITRILE)
    assert snug_window(pad).window_mm == pytest.approx(0.16, abs=0.006)


def test_a_pad_thinner_than_its_fit_layer_is_all_fit_layer():
    thin = pad_stroke_mm(FRONT, 6.0, 3.0)
    assert thin == pytest.approx(6.0 * float(CUSHION.strain_at(np.asarray(3.0))))


def test_a_pad_of_one_thickness_spans_endless_steps():
    pad = replace(FRONT, thicknesses_mm=(20.0,), labels=("20 mm",), delivered=0)
    assert snug_window(pad).steps == float("inf")


@pytest.mark.parametrize(
    ("strain", "stress", "beyond", "words"),
    [
        ((0.0, 0.5), (0.0, 1.0, 2.0), 1.0, "same number of points"),
        ((0.1, 0.5), (0.0, 1.0), 1.0, "first point must be strain 0"),
        ((0.0, 0.5, 0.4), (0.0, 1.0, 2.0), 1.0, "must rise"),
        ((0.0, 0.5), (0.0, 1.0), 0.0, "must rise"),
    ],
)
def test_a_curve_that_is_none_is_refused(strain, stress, beyond, words):
    with pytest.raises(ValueError, match=words):
        Foam("bad", strain, stress, beyond, CUSHION.source, 0.1)
