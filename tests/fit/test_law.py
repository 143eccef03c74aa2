"""A pad's law never falls, and follows its layers."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from helmwright.catalogue import CUSHION, VINYL_NITRILE, Foam, Zone
from helmwright.fit.kernels.law import pressure
from helmwright.fit.law import HINGES, PadLaw, fit_law, series_stroke
from helmwright.fit.seating import pad_layers
from helmwright.sources.records import ASSUMED
from tests.fit.ordinary import LAWS, OUZEL

SOFT = st.floats(0.5, 25.0)
STIFF = st.one_of(st.just(0.0), st.floats(0.5, 40.0))
PRESSURES = np.geomspace(0.1, 40.0, 300)
BEND = np.abs(PRESSURES - 14.3) < 1.0


def layers(soft: float, stiff: float) -> tuple[tuple[Foam, float], ...]:
    return ((CUSHION, soft), (VINYL_NITRILE, stiff)) if stiff else ((CUSHION, soft),)


@given(SOFT, STIFF)
def test_pressure_never_falls_at_any_stroke(soft, stiff):
    law = fit_law(layers(soft, stiff))
    stroke = np.linspace(-5.0, soft + stiff + 60.0, 4000)
    rises = np.diff(law.pressure(stroke))
    assert rises.min() >= -1e-9
    assert law.slope(stroke).min() >= -1e-9


@given(SOFT, STIFF)
def test_nothing_presses_across_a_gap(soft, stiff):
    law = fit_law(layers(soft, stiff))
    assert law.pressure(np.array([-30.0, -1.0, -0.0101])) == pytest.approx(0.0, abs=0.0)


@given(SOFT, STIFF)
def test_the_law_follows_the_series_of_its_layers(soft, stiff):
    """Within 3 %, or within 0.012 mm of stroke where the curve is too steep to say.

    Only at the bend of the stiff foam's table, at 14.3 kPa, is the miss larger: up to 3.6 %.
    The law's start is rounded over 0.02 mm. Under the first tenths of kPa a fit layer of 1 mm is
    squeezed by less than that, so that there 3 % of pressure is no sensible measure.
    """
    law = fit_law(layers(soft, stiff))
    exact = series_stroke(layers(soft, stiff), PRESSURES)
    miss = np.abs(law.pressure(exact) / PRESSURES - 1.0)
    early = law.pressure(exact - 0.012) <= PRESSURES
    late = law.pressure(exact + 0.012) >= PRESSURES
    assert np.all((miss < np.where(BEND, 0.037, 0.03)) | (early & late))


@pytest.mark.parametrize("zone", list(Zone))
def test_every_pad_of_the_invented_helmet_follows_its_layers(zone):
    pad = OUZEL.pad(zone)
    for index, thickness in enumerate(pad.thicknesses_mm):
        exact = series_stroke(pad_layers(pad, thickness), PRESSURES)
        followed = LAWS.law(zone, index).pressure(exact)
        assert np.all(np.abs(followed / PRESSURES - 1.0) < np.where(BEND, 0.037, 0.03))


@given(SOFT, STIFF, st.floats(0.7, 60.0))
def test_stroke_is_the_inverse_of_pressure(soft, stiff, kpa):
    law = fit_law(layers(soft, stiff))
    assert law.pressure(law.stroke(kpa)) == pytest.approx(kpa, rel=1e-6)


@given(SOFT, STIFF, st.floats(0.05, 12.0))
def test_slope_and_work_are_derivative_and_integral(soft, stiff, stroke):
    law = fit_law(layers(soft, stiff))
    step = 1e-6
    difference = (law.pressure(stroke + step) - law.pressure(stroke - step)) / (2.0 * step)
    assert law.slope(stroke) == pytest.approx(float(difference), rel=1e-3, abs=1e-3)
    bends = [knot for knot in law.knots if 0.0 < knot < stroke]
    work, _ = quad(lambda s: float(law.pressure(s)), 0.0, stroke, points=bends or None, limit=200)
    assert law.work(stroke) - law.work(0.0) == pytest.approx(work, rel=1e-6, abs=1e-6)


@given(SOFT, STIFF, st.floats(-3.0, 40.0))
def test_the_compiled_sum_is_the_same_sum(soft, stiff, stroke):
    law = fit_law(layers(soft, stiff))
    value, slope = pressure(law.knots, law.weights, stroke)
    assert value == pytest.approx(float(law.pressure(stroke)), rel=1e-9, abs=1e-9)
    assert slope == pytest.approx(float(law.slope(stroke)), rel=1e-9, abs=1e-9)


# Stroke from 0.7 to 6.0 kPa [mm] on the nominal foam, 25 % softer and 25 % stiffer, by thickness
# of the fit layer: this project's own earlier findings, rounded to 0.1.
WINDOWS = {3: (2.2, None, None), 5: (3.5, None, None), 6.5: (4.5, 4.7, 4.2), 8: (5.5, 5.8, 5.1),
           10: (6.8, 7.2, 6.4), 12: (8.2, None, None)}  # fmt: skip


@pytest.mark.parametrize(("soft", "windows"), WINDOWS.items())
def test_the_snug_window_grows_with_the_fit_layer(soft, windows):
    law = fit_law(layers(soft, 22.2 - soft))
    for window, factor in zip(windows, (1.0, 0.75, 1.25), strict=True):
        if window is not None:
            found = law.stroke(6.0 / factor) - law.stroke(0.7 / factor)
            assert found == pytest.approx(window, abs=0.1)


def test_a_pad_thinner_than_its_fit_layer_is_all_fit_layer():
    pad = OUZEL.pad(Zone.FRONT)
    assert pad_layers(pad, 6.0) == ((pad.fit_foam, 6.0),)
    assert sum(part for _, part in pad_layers(pad, 20.0)) == pytest.approx(20.0)


def test_a_stiff_straight_foam_is_a_straight_law():
    spring = Foam("spring", (0.0, 0.5), (0.0, 50.0), 100.0, ASSUMED, 0.0)
    law = fit_law(((spring, 10.0),))
    strokes = np.array([0.5, 1.0, 2.0, 5.0])
    np.testing.assert_allclose(law.pressure(strokes), 10.0 * strokes, rtol=0.01)


def test_all_laws_have_as_many_hinges_as_the_kernels_expect():
    assert LAWS.knots.shape[2] == LAWS.weights.shape[2] == HINGES
    assert np.all(np.diff(LAWS.knots, axis=2) > 0)
    assert isinstance(LAWS.law(Zone.CROWN, 0), PadLaw)
