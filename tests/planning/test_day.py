"""Who comes next, and when the day is done."""

import itertools
from datetime import UTC, datetime, timedelta
from statistics import fmean

import numpy as np
import pytest

from helmwright.planning import Minutes, Place, planned, wanted_until

NOW = datetime(2026, 8, 7, 15, 36, tzinfo=UTC)


def minutes(mean=20.0, spread=5.0):
    return Minutes(mean, spread, 9)


def test_the_next_player_goes_where_a_station_is_free_first():
    stations = [Place("1", NOW - timedelta(minutes=5)), Place("2", None)]
    visits = planned(stations, 3, minutes(), NOW)
    assert [visit.station for visit in visits] == ["2", "1", "2"]
    assert visits[0].begins == NOW
    assert visits[1].begins == NOW + timedelta(minutes=15)


def test_no_two_visits_of_a_station_overlap():
    visits = planned([Place("1", NOW), Place("2", None), Place("3", None)], 25, minutes(), NOW)
    for name in "123":
        own = [visit for visit in visits if visit.station == name]
        assert all(a.ends <= b.begins for a, b in itertools.pairwise(own))
    assert [visit.order for visit in visits] == list(range(25))


def test_a_visit_that_runs_over_ends_after_now():
    visits = planned([Place("1", NOW - timedelta(hours=2))], 1, minutes(), NOW)
    assert visits[0].begins > NOW


def test_few_visits_lean_on_the_usual_time_and_many_do_not():
    assert Minutes.of([]).mean == 25.0
    assert Minutes.of([10.0]).mean == pytest.approx((10.0 + 3 * 25.0) / 4)
    many = [12.0, 14.0, 16.0] * 30
    assert Minutes.of(many).mean == pytest.approx(fmean(many), abs=0.5)


def test_the_end_lies_within_the_stated_times_about_eight_days_of_ten():
    rng = np.random.default_rng(3)
    span = wanted_until([Place("1", None)], 16, minutes(), NOW)
    assert span is not None
    low, high = span
    ends = rng.normal(20.0, 5.0, (20_000, 16)).sum(axis=1)
    late = np.array([(low - NOW).total_seconds() / 60, (high - NOW).total_seconds() / 60])
    within = np.mean((ends > late[0]) & (ends < late[1]))
    assert within == pytest.approx(0.8, abs=0.02)


def test_nobody_to_come_and_nobody_in_hand_is_done():
    assert wanted_until([Place("1", None)], 0, minutes(), NOW) is None
    assert wanted_until([], 4, minutes(), NOW) is None
