"""Which row of the shelf a pad belongs to, and what moves: decided without a database."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import load_packaged
from helmwright.catalogue.pools import place_of_return, place_to_take
from helmwright.records.pad_changes import PadChange, changed_pads, difference, free_slot
from helmwright.records.part_lost import part_lost
from helmwright.records.part_place import pad_sizes, sizes_by_place, swapped_zones


@pytest.mark.parametrize(
    ("counts", "taken", "returned"),
    [
        ({}, "left", "left"),
        ({("sides", "1 in"): 2}, "sides", "sides"),
        ({("sides", "1 in"): 0}, "sides", "sides"),
        ({("sides", "3/4 in"): 2}, "sides", "sides"),
        ({("left", "1 in"): 1, ("sides", "1 in"): 2}, "left", "left"),
        ({("left", "1 in"): 0, ("sides", "1 in"): 2}, "sides", "left"),
        ({("left", "1 in"): -1, ("sides", "1 in"): 0}, "left", "left"),
        ({("left", "3/4 in"): 1}, "left", "left"),
        ({("right", "1 in"): 1}, "left", "left"),
    ],
)
def test_a_pad_is_taken_where_there_is_one_and_goes_back_where_it_is_listed(
    counts, taken, returned
):
    assert place_to_take(counts, "left", "1 in") == taken
    assert place_of_return(counts, "left", "1 in") == returned


def test_a_zone_without_a_pool_has_its_own_row():
    counts = {("sides", "1 in"): 2, ("jaw", "1 in"): 2}
    assert place_to_take(counts, "crown", "1 in") == place_of_return(counts, "crown", "1 in")
    assert place_to_take(counts, "crown", "1 in") == "crown"
    assert place_to_take(counts, "jaw right", "1 in") == "jaw"


def test_an_air_cell_is_no_part_and_neither_is_a_shell():
    redstart = load_packaged("redstart")
    assert swapped_zones(redstart) == ("crown", "front", "nape", "jaw left", "jaw right")
    assert "sides" not in pad_sizes(redstart)
    assert "shell" not in sizes_by_place(redstart)
    assert sizes_by_place(redstart)["strap"][0] == "soft cup, four points, small"


ZONES = ("crown", "front", "rear")
PADS = st.fixed_dictionaries(dict.fromkeys(ZONES, st.sampled_from(["thin", "thick"])))


@given(PADS, PADS)
def test_changes_lead_from_one_build_to_the_other_and_name_nothing_that_stays(now, after):
    changes = changed_pads(now, after, ZONES)
    assert now | {change.zone: change.into for change in changes} == after
    assert all(change.out != change.into for change in changes)


def test_a_zone_that_nobody_named_stays():
    now = {"crown": "thin", "front": "thin"}
    assert changed_pads(now, {"front": "thick"}, ("crown", "front")) == (
        PadChange("front", "thin", "thick"),
    )


@given(st.integers(-5, 12), st.sets(st.integers(1, 12)))
def test_a_free_slot_is_the_lowest_that_nobody_has(on_hand, taken):
    slot = free_slot(on_hand, taken)
    if slot is None:
        assert set(range(1, on_hand + 1)) <= taken
    else:
        assert 1 <= slot <= on_hand
        assert slot not in taken
        assert set(range(1, slot)) <= taken


@given(st.integers(0, 50), st.integers(-50, 50))
def test_what_was_there_and_the_difference_are_what_was_counted(counted, on_hand):
    assert on_hand + difference(counted, on_hand) == counted


def test_the_loser_is_told_who_was_first_and_where_some_are_left():
    assert part_lost("front 1 in", "Room", "", []) == (
        "Room has no front 1 in on its shelf."
        " No other store has one: put together another build, or count the shelf."
    )
    assert part_lost(
        "front 1 in", "Room", "Station 3 took it at 10:41 AM.", [("Drawer 8", 2), ("Trunk", 1)]
    ) == ("Station 3 took it at 10:41 AM. Two are left in Drawer 8. One is left in Trunk.")
