"""What a build takes off the shelf, and when the last piece goes."""

from collections import Counter

import numpy as np
import pytest
from scipy import stats

from helmwright.catalogue import load_packaged
from helmwright.planning import Held, Share, learned, outlook, pool_places, taken

SHEET = load_packaged("siskin")
PLACE = pool_places({"jaw", "front"})
AS_DELIVERED = {str(kind.zone): kind.labels[kind.delivered] for kind in SHEET.pads}


def other(zone):
    kind = next(kind for kind in SHEET.pads if str(kind.zone) == zone)
    return next(label for label in kind.labels if label != kind.labels[kind.delivered])


def test_zones_are_counted_in_their_pool_where_the_store_has_one():
    assert PLACE["jaw left"] == PLACE["jaw right"] == "jaw"
    assert PLACE["left"] == "left"
    assert pool_places({"sides"})["right"] == "sides"


def test_a_delivered_build_takes_its_shell_alone():
    assert taken(Held(3, AS_DELIVERED), None, SHEET, PLACE) == Counter({("shell", "3"): 1})


def test_what_the_helmet_at_hand_has_already_is_not_taken():
    build = Held(3, AS_DELIVERED | {"front": other("front")})
    assert taken(build, Held(3, AS_DELIVERED), SHEET, PLACE) == {("front", other("front")): 1}
    assert not taken(build, build, SHEET, PLACE)


def test_two_jaw_pads_of_one_size_come_out_of_one_pool():
    size = other("jaw left")
    build = Held(3, AS_DELIVERED | {"jaw left": size, "jaw right": size})
    assert taken(build, Held(3, AS_DELIVERED), SHEET, PLACE) == {("jaw", size): 2}


def test_another_shell_than_the_one_at_hand_comes_off_the_shelf_with_its_own_pads():
    asked = taken(Held(4, AS_DELIVERED), Held(3, {"front": other("front")}), SHEET, PLACE)
    assert asked == {("shell", "4"): 1}


def test_before_any_fitting_every_listed_part_has_a_chance_and_shells_share_one():
    shares = learned(SHEET, (), PLACE)
    shells = [share[0].mean for (place, _), share in shares.items() if place == "shell"]
    assert sum(shells) == pytest.approx(1.0)
    assert all(0 < each.mean < 1 for share in shares.values() for each in share)


def test_fittings_seen_outweigh_what_was_believed_before():
    key = ("front", other("front"))
    often = learned(SHEET, [Counter({key: 1})] * 40, PLACE)[key][0]
    never = learned(SHEET, [Counter()] * 40, PLACE)[key][0]
    assert often.mean > 0.9
    assert never.mean < 0.02


def test_a_pool_learns_pairs_apart_from_single_pads():
    key = ("jaw", other("jaw left"))
    one, two = learned(SHEET, [Counter({key: 2})] * 20, PLACE)[key]
    assert (one.pieces, two.pieces) == (1, 2)
    assert two.mean > 0.8
    assert one.mean < 0.1


def test_the_chance_of_too_few_is_the_tail_of_those_who_want_it():
    share = Share(1, 3e8, 7e8)
    found = outlook(("front", "1"), 6, [None] * 14, [share])
    assert found.short == pytest.approx(stats.binom(14, 0.3).sf(6), abs=1e-6)
    assert (found.low, found.high) == stats.binom(14, 0.3).interval(0.8)


def test_the_last_one_goes_between_the_tenth_and_the_ninetieth_case_of_a_negative_binomial():
    share, on_hand, fittings = Share(1, 4e8, 6e8), 3, 30
    found = outlook(("front", "1"), on_hand, [None] * fittings, [share])
    waits = stats.nbinom(on_hand, 0.4)
    assert found.first == on_hand + waits.ppf(0.1)
    assert found.last == on_hand + waits.ppf(0.9)


def test_enough_for_all_who_may_come_never_runs_out():
    found = outlook(("front", "1"), 15, [None] * 14, [Share(1, 1.0, 3.0)])
    assert found.short == 0
    assert found.first is found.last is None


def test_none_left_is_gone_before_the_next_comes():
    found = outlook(("front", "1"), 0, [None] * 5, [Share(1, 1.0, 3.0)])
    assert found.first == found.last == 0


def test_a_player_whose_build_is_proposed_counts_with_its_chance():
    found = outlook(("front", "1"), 1, [(1, 0.9), (1, 0.9), (0, 0.0)], [Share(1, 1.0, 1.0)])
    assert found.short == pytest.approx(0.81)
    assert np.isclose(found.low, 1)


def test_fittings_with_another_model_make_this_one_less_likely():
    half = learned(SHEET, (), PLACE, likely=0.5)
    whole = learned(SHEET, (), PLACE)
    assert half["shell", "3"][0].mean == pytest.approx(whole["shell", "3"][0].mean / 2)
