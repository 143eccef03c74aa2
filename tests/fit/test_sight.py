"""What a guard leaves to see, and how far it is from the nose."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.fit.sight import EDGE, NOTHING, OPEN_DEG, nose_clearance, side_sight_deg, sight_past

EYE = np.array([[85.0, 13.0]])
BROW = np.array([[118.0, 55.0]])


def bars(*places):
    return np.array([places], dtype=float)


def view(*places, eye=EYE, edge=BROW, radius=3.0):
    return sight_past(eye, edge, bars(*places), radius)


def test_a_bar_at_the_level_of_the_eye_bars_the_view_ahead():
    seen = view((172.0, -30.0), (172.0, 15.0), (172.0, -60.0))
    assert seen.barred_by[0] == 2
    assert seen.up_deg[0] == seen.down_deg[0] == 0.0


def test_a_front_edge_below_the_eye_bars_it_too():
    assert view((172.0, -30.0), edge=np.array([[118.0, 10.0]])).barred_by[0] == EDGE


def test_without_a_bar_below_the_view_goes_down_to_the_end():
    seen = view((172.0, 60.0))
    assert seen.barred_by[0] == NOTHING
    assert seen.down_deg[0] == OPEN_DEG


def test_a_bar_below_the_edge_counts_where_it_is_lower_than_the_edge():
    high, low = view((140.0, 90.0)), view((140.0, 40.0))
    assert low.up_deg[0] < high.up_deg[0]


@given(st.floats(-60.0, -12.0), st.floats(1.0, 20.0))
def test_a_lower_bar_leaves_more_to_see_below(height, drop):
    here, there = view((172.0, height)), view((172.0, height - drop))
    assert there.down_deg[0] > here.down_deg[0]


@given(st.floats(20.0, 40.0), st.floats(0.5, 20.0))
def test_a_higher_helmet_leaves_more_to_see_above(rise, more):
    here = view((172.0, -40.0), edge=BROW + np.array([[0.0, rise]]))
    there = view((172.0, -40.0), edge=BROW + np.array([[0.0, rise + more]]))
    assert there.up_deg[0] > here.up_deg[0]


def test_everything_twice_as_large_leaves_the_angles_as_they_were(monkeypatch):
    monkeypatch.setattr("helmwright.fit.sight.EDGE_THICKNESS", _Thickness(0.0))
    here = sight_past(EYE, BROW, bars((172.0, -30.0)), 3.0)
    there = sight_past(2 * EYE, 2 * BROW, 2 * bars((172.0, -30.0)), 6.0)
    assert there.up_deg == pytest.approx(here.up_deg)
    assert there.down_deg == pytest.approx(here.down_deg)


class _Thickness:
    def __init__(self, value: float) -> None:
        self.value = value


@pytest.mark.parametrize("place", [(86.0, 13.0), (85.0, 13.0), (83.5, 14.0)])
def test_a_bar_in_the_eye_hides_everything(place):
    seen = view((172.0, -30.0), place)
    assert seen.barred_by[0] == 2
    assert seen.up_deg[0] == seen.down_deg[0] == 0.0


def test_the_nose_is_as_far_from_a_bar_as_its_surface():
    nose = np.array([[120.0, -25.0]])
    apart, which = nose_clearance(
        nose, BROW, bars((172.0, 0.0), (170.0, -25.0), (160.0, -80.0)), 3.0, upright=False
    )
    assert apart[0] == pytest.approx(47.0)
    assert which[0] == 2


def test_an_upright_bar_may_be_nearer_than_any_across():
    nose = np.array([[120.0, 20.0]])
    places = bars((172.0, -40.0), (170.0, -80.0))
    free, _ = nose_clearance(nose, BROW, places, 3.0, upright=False)
    barred, which = nose_clearance(nose, BROW, places, 3.0, upright=True)
    assert barred[0] < free[0]
    assert which[0] == 1


def test_a_bar_that_touches_the_nose_has_no_distance_left():
    nose = np.array([[168.0, -25.0]])
    apart, _ = nose_clearance(nose, BROW, bars((170.0, -25.0)), 3.0, upright=False)
    assert apart[0] == pytest.approx(-1.0)


def test_sides_beside_the_eye_leave_a_quarter_turn_and_wider_ones_ahead_leave_more():
    eye = np.full(3, 85.0)
    assert side_sight_deg(eye, eye, 160.0) == pytest.approx(np.full(3, 90.0))
    narrow, wide = (side_sight_deg(eye, eye + 25.0, across)[0] for across in (160.0, 180.0))
    assert narrow < wide < 90.0
    assert side_sight_deg(eye, eye - 10.0, 160.0)[0] > 90.0
