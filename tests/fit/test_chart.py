"""The maker's chart: bands, what lies between them, and how likely each shell is."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import ModelSheet
from helmwright.fit import ShellChance
from helmwright.fit.chart import MOST_SHELLS, charted_shell, shell_chances, shells_to_try
from tests.fit.ordinary import OUZEL


def charted(bands: list[tuple[float, float]], between: str = "larger") -> ModelSheet:
    """A sheet with those bands, smallest first."""
    shells = [
        replace(OUZEL.shells[0], number=place, chart_low_mm=low, chart_high_mm=high)
        for place, (low, high) in enumerate(bands, 1)
    ]
    return replace(OUZEL, shells=tuple(shells), between_bands=between)


APART = [(540.0, 555.0), (560.0, 575.0), (580.0, 595.0)]


@pytest.mark.parametrize(
    ("tape", "larger", "smaller"),
    [
        (539.9, 0, 0),
        (540.0, 1, 1),
        (550.0, 1, 1),
        (555.0, 1, 1),
        (557.0, 2, 1),
        (560.0, 2, 2),
        (575.0, 2, 2),
        (577.0, 3, 2),
        (595.0, 3, 3),
        (595.1, 0, 0),
    ],
)
def test_a_reading_between_two_bands_takes_the_shell_that_the_sheet_says(tape, larger, smaller):
    reading = np.array([tape])
    assert charted_shell(charted(APART), reading) == [larger]
    assert charted_shell(charted(APART, "smaller"), reading) == [smaller]


OVERLAPPING = [(540.0, 562.0), (556.0, 578.0), (570.0, 595.0), (574.0, 600.0)]


@pytest.mark.parametrize(
    ("tape", "larger", "smaller"),
    [
        (550.0, 1, 1),
        (556.0, 2, 1),
        (560.0, 2, 1),
        (562.0, 2, 1),
        (565.0, 2, 2),
        (572.0, 3, 2),
        (576.0, 4, 2),
        (580.0, 4, 3),
        (598.0, 4, 4),
        (600.1, 0, 0),
    ],
)
def test_a_reading_in_two_bands_or_three_takes_the_shell_that_the_sheet_says(tape, larger, smaller):
    reading = np.array([tape])
    assert charted_shell(charted(OVERLAPPING), reading) == [larger]
    assert charted_shell(charted(OVERLAPPING, "smaller"), reading) == [smaller]


@st.composite
def charts(draw: st.DrawFn) -> list[tuple[float, float]]:
    """Bands both of whose ends grow, whether apart, touching or overlapping."""
    low, high, bands = 500.0, 500.0, []
    for step, width in draw(st.lists(st.tuples(st.floats(1, 30), st.floats(1, 30)), min_size=1)):
        low, high = low + step, max(low + step, high) + width
        bands.append((low, high))
    return bands


@given(charts(), st.floats(495.0, 800.0))
def test_a_reading_inside_bands_takes_one_of_them_and_in_a_gap_a_neighbor(bands, tape):
    reading = np.array([tape])
    larger = int(charted_shell(charted(bands), reading)[0])
    smaller = int(charted_shell(charted(bands, "smaller"), reading)[0])
    holding = [place for place, (low, high) in enumerate(bands, 1) if low <= tape <= high]
    below = [place for place, (_, high) in enumerate(bands, 1) if high < tape]
    if holding:
        assert (smaller, larger) == (holding[0], holding[-1])
    elif below and below[-1] < len(bands):
        assert (smaller, larger) == (below[-1], below[-1] + 1)
    else:
        assert smaller == larger == 0


@pytest.mark.parametrize(("between", "shell"), [("larger", 4), ("smaller", 3)])
def test_a_reading_at_the_end_that_two_bands_share_lies_between_them(between, shell):
    sheet = replace(OUZEL, between_bands=between)
    assert charted_shell(sheet, np.array([580.0])) == [shell]


@given(st.lists(st.floats(480.0, 700.0), min_size=1, max_size=40))
def test_a_larger_tape_never_gets_a_smaller_shell(tapes):
    reading = np.sort(np.array(tapes))
    for between in ("larger", "smaller"):
        shells = charted_shell(replace(OUZEL, between_bands=between), reading)
        given_one = shells[shells > 0]
        assert np.all(np.diff(given_one) >= 0)
        inside = (reading >= 520.0) & (reading <= 640.0)
        assert np.array_equal(shells > 0, inside)


@given(st.lists(st.floats(480.0, 700.0), min_size=1, max_size=40))
def test_chances_are_the_shares_of_the_draws(tapes):
    reading = np.array(tapes)
    chances = shell_chances(OUZEL, reading)
    inside = ((reading >= 520.0) & (reading <= 640.0)).mean()
    assert sum(one.chance for one in chances) == pytest.approx(inside)
    assert [one.chance for one in chances] == sorted((c.chance for c in chances), reverse=True)


def test_shells_are_tried_likeliest_first_and_hardly_possible_ones_not_at_all():
    tape = np.array([565.0] * 60 + [585.0] * 37 + [605.0] * 3)
    assert shell_chances(OUZEL, tape)[0] == ShellChance(3, 0.6)
    assert shells_to_try(OUZEL, tape) == (3, 4)


def test_not_more_than_three_shells_are_tried():
    assert len(shells_to_try(OUZEL, np.linspace(520.0, 639.0, 600))) == MOST_SHELLS


@pytest.mark.parametrize(("tape", "shell"), [(480.0, 1), (700.0, 6)])
def test_a_head_outside_the_chart_gets_the_nearest_shell(tape, shell):
    assert shells_to_try(OUZEL, np.full(50, tape)) == (shell,)
    assert shell_chances(OUZEL, np.full(50, tape)) == ()
