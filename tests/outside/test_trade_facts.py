"""What equipment rooms do as a matter of course, tried on the program: no source."""

import re
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.catalogue import (
    SheetError,
    load_packaged,
    packaged_models,
    packaged_text,
    parse_sheet,
)
from helmwright.fit import FaultKind, Rater
from helmwright.fit.account import account
from helmwright.fit.chart import charted_shell
from helmwright.fit.contact import Rest, Trial
from tests.fit.ordinary import delivered, men, round_heads, trial_of

INCH = 25.4
STRAPPED = [name for name in packaged_models() if load_packaged(name).chin_straps]
"""The sheets that name their chin straps; one that knows chart and bags alone does not."""


@cache
def rested() -> tuple[Trial, Rest]:
    """Forty men in the shell of the chart, as delivered, at rest."""
    trial = trial_of(men(40))
    return trial, trial.rest(delivered())


def with_the_brow(inches: float) -> tuple[Trial, Rest]:
    """The same men at the same rest, their brows so far below the front edge."""
    trial, rest = rested()
    brow = trial.heads.brow_mm + rest.brow_mm - inches * INCH
    raised = replace(trial, heads=replace(trial.heads, brow_mm=brow))
    return raised, raised.rest(delivered())


def right_but_for_the_brow() -> np.ndarray:
    """Whom nothing but the brow can keep from a right fit: some height of it is right."""
    heights = np.linspace(0.5, 1.5, 5)
    return np.any([with_the_brow(height)[1].right for height in heights], axis=0)


@pytest.mark.outside("common_practice")
def test_a_helmet_that_rests_an_inch_above_the_brow_is_right_as_far_as_the_brow_goes():
    _, rest = with_the_brow(1.0)
    np.testing.assert_allclose(rest.brow_mm, INCH)
    fit = right_but_for_the_brow()
    assert fit.sum() >= 5
    assert np.array_equal(rest.right, fit)


@pytest.mark.outside("common_practice")
@pytest.mark.parametrize(
    ("inches", "kind"),
    [(0.0, FaultKind.BROW_LOW), (0.5, FaultKind.BROW_LOW), (2.0, FaultKind.BROW_HIGH)],
)
def test_a_helmet_on_the_brow_or_two_inches_above_it_is_right_on_nobody(inches, kind):
    trial, rest = with_the_brow(inches)
    assert not rest.right.any()
    told = account(trial, delivered(), delivered(), rater=Rater(), rest=rest)
    assert {fault.kind for fault in told.faults} >= {kind}


@pytest.mark.outside("common_practice")
@pytest.mark.parametrize("brow", [24.0, 30.0, 36.0])
def test_the_trades_tape_runs_an_inch_above_the_brow(brow):
    """On a sphere about a point 30 mm above the ears, cut by hand.

    The tape's plane goes through the rearmost point, 25 mm above the ears, and an inch above the
    brow at the front; its circle is the smaller the farther it passes from the middle.
    """
    radius = 90.0
    rear, front = np.array([-radius, 25.0]), np.array([radius, brow + INCH])
    along = (front - rear) / np.linalg.norm(front - rear)
    away = np.array([0.0, 30.0]) - rear
    off = away[0] * along[1] - away[1] * along[0]
    circle = 2.0 * np.pi * np.sqrt(radius**2 - off**2)
    assert round_heads(radius, brow=brow).trade_tape(0) == pytest.approx(circle, abs=0.02)


@pytest.mark.outside("common_practice")
@pytest.mark.parametrize("model", packaged_models())
def test_a_reading_on_the_line_between_two_bands_takes_the_larger_shell(model):
    sheet = load_packaged(model)
    for lower, upper in zip(sheet.shells, sheet.shells[1:], strict=False):
        line = np.array([lower.chart_high_mm])
        assert charted_shell(sheet, line)[0] == upper.number


@pytest.mark.outside("common_practice")
@pytest.mark.parametrize("points", [1, 2, 3, 5])
@pytest.mark.parametrize("model", STRAPPED)
def test_a_chin_strap_of_fewer_than_four_points_or_of_odd_ones_is_refused(model, points):
    text = packaged_text(model)
    wrong, count = re.subn(r"^points = \d+", f"points = {points}", text, flags=re.MULTILINE)
    assert count > 0
    with pytest.raises(SheetError) as caught:
        parse_sheet(wrong, name=model)
    assert len(caught.value.faults) == count
    assert all("points" in str(fault) for fault in caught.value.faults)
