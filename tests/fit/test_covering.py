"""Hair and caps: off for the estimate, back on under the pads and under the chart's tape."""

import numpy as np
import pytest

from helmwright.anatomy import Over, Reading, Sex, estimate_head
from helmwright.anatomy.reading import LAYER
from helmwright.fit.covering import COVERING, covering_layers, worn_over, worn_tape

BARE = Reading("head_length", 199.0)
OVER_CAP = Reading("tape_circumference", 580.0, Over.CAP)
OVER_HAIR = Reading("tape_circumference", 580.0, Over.THICK_HAIR)


def estimate(*readings: Reading):
    return estimate_head(readings, sex=Sex.MALE)


def test_what_is_worn_is_the_thickest_thing_that_a_reading_went_over():
    assert worn_over(estimate(BARE)) is Over.BARE
    assert worn_over(estimate(BARE, OVER_CAP)) is Over.CAP
    hair = Reading("head_length", 199.0, Over.THICK_HAIR)
    assert worn_over(estimate(hair, OVER_CAP)) is Over.THICK_HAIR


def test_a_bare_head_has_nothing_under_the_pads():
    assert covering_layers(Over.BARE) == ()
    assert covering_layers(Over.CAP) == ((COVERING, LAYER[Over.CAP].value),)


@pytest.mark.parametrize("reading", [OVER_CAP, OVER_HAIR])
def test_the_chart_is_asked_about_the_tape_as_it_was_read_over_what_is_worn(reading):
    tape = worn_tape(estimate(reading, BARE), 20_000, np.random.default_rng(3))
    assert tape.mean() == pytest.approx(580.0, abs=0.2)
    assert tape.std() < 4.0


def test_the_chart_of_a_bare_head_is_asked_about_the_estimate():
    head = estimate(Reading("tape_circumference", 580.0))
    tape = worn_tape(head, 20_000, np.random.default_rng(3))
    assert tape.mean() == pytest.approx(head.mean_of("tape_circumference"), abs=0.2)


def test_without_a_tape_the_covering_goes_around_the_estimated_head():
    over = Reading("head_length", 199.0, Over.CAP)
    head = estimate(over)
    tape = worn_tape(head, 20_000, np.random.default_rng(3))
    around = 2.0 * np.pi * LAYER[Over.CAP].value
    assert tape.mean() == pytest.approx(head.mean_of("tape_circumference") + around, abs=0.5)
