"""Air and the gas law, by predicates."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue.air import (
    Surroundings,
    free_volume_ratio,
    rigid_gauge_kpa,
    sealed_gauge_kpa,
    standard_pressure_kpa,
)

GAUGES = st.floats(0.0, 40.0)
PLACES = st.builds(Surroundings, st.floats(-30.0, 50.0), st.floats(-400.0, 4000.0))


@given(GAUGES, PLACES)
def test_nothing_changes_where_nothing_changes(gauge, place):
    assert rigid_gauge_kpa(gauge, place, place) == pytest.approx(gauge, abs=1e-9)
    assert free_volume_ratio(gauge, place, place) == pytest.approx(1.0)


@given(GAUGES, PLACES, PLACES)
def test_there_and_back_is_where_it_began(gauge, room, field):
    there = rigid_gauge_kpa(gauge, room, field)
    assert rigid_gauge_kpa(there, field, room) == pytest.approx(gauge, abs=1e-9)


@given(GAUGES, PLACES, PLACES)
def test_the_two_limits_are_the_same_gas(gauge, room, field):
    """A volume that gives freely keeps its gauge; put into the gas law it must come out so."""
    ratio = free_volume_ratio(gauge, room, field)
    assert sealed_gauge_kpa(gauge, ratio, room, field) == pytest.approx(gauge, abs=1e-9)


@given(GAUGES, PLACES, st.floats(1.0, 40.0))
def test_colder_is_softer_and_higher_is_firmer(gauge, room, step):
    colder = Surroundings(room.temperature_c - 0.5 * step, room.elevation_m)
    higher = Surroundings(room.temperature_c, room.elevation_m + 10.0 * step)
    assert rigid_gauge_kpa(gauge, room, colder) < gauge < rigid_gauge_kpa(gauge, room, higher)


@given(GAUGES, PLACES, st.floats(0.5, 1.5), st.floats(0.5, 1.5))
def test_less_room_is_more_pressure(gauge, place, one, two):
    less, more = sorted((one, two))
    pressures = [sealed_gauge_kpa(gauge, ratio, place, place) for ratio in (less, more)]
    assert pressures[0] >= pressures[1]


@pytest.mark.parametrize("elevation", [-501.0, 11001.0])
def test_the_layer_has_its_ends(elevation):
    with pytest.raises(ValueError, match="is outside -500 to 11000 m"):
        standard_pressure_kpa(elevation)
    with pytest.raises(ValueError, match="is outside -500 to 11000 m"):
        Surroundings(21.0, elevation)


def test_a_temperature_that_no_helmet_meets_is_refused_in_both_units():
    with pytest.raises(ValueError, match=r"200 C is outside -60 to 80 C \(-76 to 176 F\)"):
        Surroundings(200.0)
