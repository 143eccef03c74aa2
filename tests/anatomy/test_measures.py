"""The measures of a head."""

import pytest

from helmwright.anatomy import (
    FIVE_MEASURES,
    MEASURE_KEYS,
    MEASURES,
    Measure,
    UnknownMeasureError,
    adult_prior,
    measure_of,
)
from helmwright.sources import Source, records

KNOWN = {each.key for each in vars(records).values() if isinstance(each, Source)}


def test_the_measures_come_in_the_order_that_arrays_use():
    assert MEASURE_KEYS == (
        "head_circumference",
        "tape_circumference",
        "head_length",
        "head_breadth",
        "tragion_to_top",
        "brow_to_top",
        "bizygomatic_breadth",
        "bigonial_breadth",
        "jaw_pad_width",
        "bitragion_chin_arc",
    )
    assert adult_prior().names == MEASURE_KEYS


@pytest.mark.parametrize("measure", MEASURES, ids=lambda measure: measure.key)
def test_each_measure_says_what_it_is_how_to_take_it_and_who_says_so(measure: Measure):
    assert measure.definition.endswith(".")
    assert measure.how.endswith(".")
    assert measure.sources
    assert set(measure.sources) <= KNOWN
    for figure in (measure.reading_error, measure.bias, measure.minutes):
        assert figure.value > 0.0
        assert figure.source.key in KNOWN


@pytest.mark.parametrize("measure", MEASURES, ids=lambda measure: measure.key)
def test_nearly_all_adults_lie_inside_the_plausible_interval(measure: Measure):
    prior = adult_prior(male_share=0.5)
    below, _ = prior.tails({measure.key: 1.0}, measure.low_mm, measure.reading_error.value**2)
    _, above = prior.tails({measure.key: 1.0}, measure.high_mm, measure.reading_error.value**2)
    assert below + above < 1e-4


@pytest.mark.parametrize("measure", MEASURES, ids=lambda measure: measure.key)
def test_an_adults_reading_in_the_wrong_unit_is_outside_the_interval_for_entry(measure: Measure):
    low, high = measure.entry_mm
    for value in adult_prior().interval(measure.key, 0.98):
        assert low <= value <= high
        for factor in (10.0, 25.4, 2.54):
            assert value * factor > high
            assert value / factor < low


def test_the_tape_is_taken_by_landmarks_and_not_by_the_horizon():
    how = measure_of("tape_circumference").how
    assert "1 inch above the eyebrows" in how
    assert "not the horizon" in how
    assert "level" not in how.lower()


def test_the_five_of_a_fitting_day_are_measures():
    assert len(set(FIVE_MEASURES)) == 5
    assert set(FIVE_MEASURES) <= set(MEASURE_KEYS)


def test_an_unknown_measure_is_refused_with_the_known_ones():
    with pytest.raises(UnknownMeasureError, match="there are head_circumference"):
        measure_of("hat_size")
