"""The quick size of a head on a roster agrees with the whole head estimate."""

from datetime import UTC, date, datetime
from uuid import uuid4

import pytest

from helmwright.anatomy import error_variance
from helmwright.records.models import Player, Reading
from helmwright.records.readers.heads import estimate_of
from helmwright.records.readers.tape_size import NINE_OF_TEN_SD, TAPE, tape_size

TODAY = date(2026, 8, 7)
NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)


def player(**known):
    return Player(name="Avocet Brookside", **known)


def read(who, value_mm, measure=TAPE, **known):
    return Reading(id=uuid4(), player=who, measure=measure, value_mm=value_mm, at=NOW, **known)


@pytest.mark.parametrize("value_mm", [545.0, 575.0, 610.0])
def test_a_tape_alone_lies_where_the_estimate_lies(value_mm):
    who = player(sex="male")
    rows = [read(who, value_mm, over="bare"), read(who, value_mm + 1.0, over="bare")]
    quick, whole = tape_size(who, rows, TODAY), estimate_of(who, rows, TODAY)
    assert quick is not None
    assert quick.origin == "read"
    # The survey draws a reading toward its mean by less than the reading's own error.
    assert quick.middle_mm == pytest.approx(whole.mean_of(TAPE), abs=1.5)
    low, high = whole.interval(TAPE, 0.9)
    assert quick.high_mm - quick.low_mm == pytest.approx(high - low, rel=0.1)


def test_whiskers_are_the_error_of_the_mean_of_two():
    who = player()
    size = tape_size(who, [read(who, 575.0), read(who, 577.0)], TODAY)
    assert size is not None
    assert size.middle_mm == pytest.approx(576.0)
    off = NINE_OF_TEN_SD * error_variance(TAPE, 2) ** 0.5
    assert size.high_mm - size.middle_mm == pytest.approx(off)


def test_a_withdrawn_reading_says_nothing():
    who = player()
    size = tape_size(who, [read(who, 575.0), read(who, 700.0, is_withdrawn=True)], TODAY)
    assert size is not None
    assert size.middle_mm == pytest.approx(575.0)


def test_a_bare_tape_under_braids_to_come_is_larger():
    worn = player(sex="male", worn=["braids or locs"])
    bare = player(sex="male", worn=["bare"])
    sizes = [tape_size(who, [read(who, 575.0, over="bare")], TODAY) for who in (worn, bare)]
    assert sizes[0] is not None
    assert sizes[1] is not None
    assert sizes[0].origin == "estimated"
    assert sizes[0].middle_mm > sizes[1].middle_mm + 5.0


def test_length_and_breadth_tell_the_tape_less_surely():
    who = player(sex="male")
    calipers = [read(who, 200.0, "head_length"), read(who, 155.0, "head_breadth")]
    wide, tight = tape_size(who, calipers, TODAY), tape_size(who, [read(who, 575.0)], TODAY)
    assert wide is not None
    assert tight is not None
    assert wide.origin == "estimated"
    assert wide.high_mm - wide.low_mm > tight.high_mm - tight.low_mm


def test_without_a_reading_there_is_a_forecast_that_grows_with_the_body():
    small = tape_size(player(sex="male", stature_mm=1700.0, weight_kg=70.0), [], TODAY)
    large = tape_size(player(sex="male", stature_mm=1950.0, weight_kg=110.0), [], TODAY)
    assert small is not None
    assert large is not None
    assert small.origin == large.origin == "forecast"
    assert large.middle_mm > small.middle_mm


@pytest.mark.parametrize("known", [{"birth_year": 2024}, {"stature_mm": 2590.0}])
def test_somebody_whom_no_survey_holds_has_no_size(known):
    assert tape_size(player(**known), [], TODAY) is None
