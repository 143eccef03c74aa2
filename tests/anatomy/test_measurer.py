"""Those who measure, by their own repeats."""

from dataclasses import replace

import numpy as np
import pytest

from helmwright.anatomy import (
    MeasurerError,
    Over,
    Reading,
    measure_of,
    measurer_errors,
    measurer_gaps,
    technical_error,
)
from helmwright.anatomy.measurer import LEAST_SHARED, USUAL_WORTH

TAPE = "tape_circumference"
USUAL = measure_of(TAPE).reading_error.value


def pair(first: float, second: float, by: str = "Ada", other: str | None = None) -> list[Reading]:
    return [Reading(TAPE, first, by=by), Reading(TAPE, second, by=by if other is None else other)]


def test_a_persons_own_error_is_the_technical_error_of_the_repeats():
    heads = [pair(570.0, 571.0), pair(580.0, 578.0), pair(561.0, 563.0)]
    (ada,) = measurer_errors(heads)
    values = [[reading.value_mm for reading in head] for head in heads]
    assert ada.own_mm == pytest.approx(technical_error(values))
    assert (ada.by, ada.measure, ada.pairs) == ("Ada", TAPE, 3)


def test_readings_by_nobody_and_single_ones_tell_nothing():
    assert measurer_errors([pair(570.0, 571.0, by="")]) == ()
    assert measurer_errors([pair(570.0, 571.0, other="Bo")]) == ()


def test_repeats_over_different_things_are_no_repeats():
    head = [Reading(TAPE, 570.0, Over.BARE, by="Ada"), Reading(TAPE, 590.0, Over.BRAIDS, by="Ada")]
    assert measurer_errors([head]) == ()


def test_a_reading_that_was_set_aside_is_no_repeat():
    head = [Reading(TAPE, value, by="Ada") for value in (570.0, 571.0, 596.0)]
    (ada,) = measurer_errors([head])
    assert ada.pairs == 1
    assert ada.own_mm == pytest.approx(np.sqrt(0.5))


def test_what_is_used_lies_between_the_usual_error_and_the_persons_own():
    few = MeasurerError("Ada", TAPE, 2, 2 * 6.0**2)
    many = MeasurerError("Ada", TAPE, 200, 200 * 6.0**2)
    assert USUAL < few.used_mm < many.used_mm < 6.0
    worth = USUAL_WORTH.value
    assert few.used_mm**2 == pytest.approx((worth * USUAL**2 + 2 * 36.0) / (worth + 2))
    low, high = many.interval_mm
    assert low < many.used_mm < high
    assert high - low < few.interval_mm[1] - few.interval_mm[0]


def test_a_careful_and_a_hasty_person_are_told_apart():
    careful = MeasurerError("Ada", TAPE, 20, 20 * 1.5**2)
    hasty = MeasurerError("Bo", TAPE, 20, 20 * 5.0**2)
    assert careful.used_mm < USUAL < hasty.used_mm
    assert not careful.is_past_usual
    assert hasty.is_past_usual


def test_an_error_without_a_repeat_is_refused():
    with pytest.raises(ValueError, match="at least one repeat"):
        MeasurerError("Ada", TAPE, 0, 0.0)


def both(off: float, count: int, seed: int = 3) -> list[list[Reading]]:
    """Heads that Ada and Bo both taped, Bo reading more by a constant."""
    rng = np.random.default_rng(seed)
    heads = rng.normal(574.0, 16.0, count)
    errors = rng.normal(0.0, USUAL, (count, 2))
    return [
        pair(head + first, head + off + second, other="Bo")
        for head, (first, second) in zip(heads, errors, strict=True)
    ]


def test_a_constant_gap_between_two_people_is_found_and_named_after_who_reads_more():
    (gap,) = measurer_gaps(both(6.0, 20))
    assert (gap.by, gap.other, gap.people) == ("Bo", "Ada", 20)
    assert gap.gap_mm == pytest.approx(6.0, abs=3.0 * gap.error_mm)
    assert gap.error_mm == pytest.approx(USUAL * np.sqrt(2.0 / 20.0))
    assert gap.is_clear


def test_without_a_gap_one_is_seldom_found():
    found = [measurer_gaps(both(0.0, 12, seed))[0].is_clear for seed in range(400)]
    assert np.mean(found) == pytest.approx(0.05, abs=0.035)


def test_readings_of_different_days_are_not_held_against_each_other():
    """Heads grow, and nobody reads more than himself."""
    heads = both(6.0, 20)
    assert measurer_gaps([[replace(head[0], months_ago=12.0), *head[1:]] for head in heads]) == ()
    alone = [[replace(head[0], months_ago=12.0), head[0]] for head in heads]
    assert measurer_gaps(alone) == ()


def test_too_few_shared_heads_say_nothing():
    assert measurer_gaps(both(20.0, LEAST_SHARED - 1)) == ()
