"""What equipment rooms do as a matter of course: common practice, no source."""

import numpy as np
import pytest

from helmwright.anatomy.surface import TRADE_TAPE_ABOVE_BROW
from helmwright.catalogue import load_packaged, packaged_models
from helmwright.fit import Bands
from helmwright.fit.chart import charted_shell
from helmwright.units import MM_PER_INCH


@pytest.mark.outside("common_practice")
def test_the_brow_is_right_about_an_inch_below_the_front_edge():
    bands = Bands()
    assert (bands.brow_low_mm + bands.brow_high_mm) / 2 == pytest.approx(MM_PER_INCH, abs=0.1)
    assert bands.brow_low_mm == pytest.approx(0.75 * MM_PER_INCH, abs=0.1)
    assert bands.brow_high_mm == pytest.approx(1.25 * MM_PER_INCH, abs=0.1)


@pytest.mark.outside("common_practice")
def test_the_trades_tape_runs_an_inch_above_the_brow():
    assert pytest.approx(MM_PER_INCH) == TRADE_TAPE_ABOVE_BROW.value


@pytest.mark.outside("common_practice")
@pytest.mark.parametrize("model", packaged_models())
def test_a_reading_on_the_line_between_two_bands_takes_the_larger_shell(model):
    sheet = load_packaged(model)
    for lower, upper in zip(sheet.shells, sheet.shells[1:], strict=False):
        line = np.array([lower.chart_high_mm])
        assert charted_shell(sheet, line)[0] == upper.number


@pytest.mark.outside("common_practice")
@pytest.mark.parametrize("model", packaged_models())
def test_every_chin_strap_holds_at_four_points_at_least(model):
    straps = load_packaged(model).chin_straps
    assert straps
    assert all(strap.points >= 4 for strap in straps)
