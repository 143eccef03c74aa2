"""Builds near a build, within what the sheet allows."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import ZONES, Zone
from helmwright.fit.neighborhood import even_box, is_allowed, pairs, singles, steps
from tests.fit.ordinary import OUZEL

LEFT, RIGHT = ZONES.index(Zone.LEFT), ZONES.index(Zone.RIGHT)
MATCHED = replace(OUZEL, matched=((Zone.LEFT, Zone.RIGHT), (Zone.JAW_LEFT, Zone.JAW_RIGHT)))
COUNTS = [len(pad.thicknesses_mm) for pad in OUZEL.pads]

anywhere = st.tuples(*(st.integers(0, count - 1) for count in COUNTS))


def even(pads: tuple[int, ...]) -> tuple[int, ...]:
    """The same with right as left."""
    return (*pads[:4], pads[3], pads[5], pads[6], pads[6])


def changed(one: tuple[int, ...], other: tuple[int, ...]) -> int:
    return sum(mine != theirs for mine, theirs in zip(one, other, strict=True))


@given(anywhere)
def test_singles_are_every_build_with_one_other_pad(pads):
    found = singles(OUZEL, pads)
    assert len(found) == len(set(found)) == sum(COUNTS) - len(COUNTS)
    assert all(changed(one, pads) == 1 and is_allowed(OUZEL, one) for one in found)


@given(anywhere)
def test_pairs_move_two_zones_by_a_step_and_mirror_pairs_by_two_at_most(pads):
    for one in pairs(OUZEL, pads):
        moves = [there - here for there, here in zip(one, pads, strict=True)]
        zones = [zone for zone, move in zip(ZONES, moves, strict=True) if move]
        assert len(zones) == 2
        assert is_allowed(OUZEL, one)
        reach = 2 if zones[0].mirrored is zones[1] else 1
        assert max(abs(move) for move in moves) <= reach


@given(anywhere)
def test_zones_that_must_match_stay_matched(pads):
    start = even(pads)
    for one in [*singles(MATCHED, start), *pairs(MATCHED, start)]:
        assert one[LEFT] == one[RIGHT]
        assert one[6] == one[7]
        assert one != start


@given(anywhere)
def test_a_matched_sheet_does_not_allow_an_uneven_build(pads):
    assert is_allowed(MATCHED, pads) == (pads == even(pads))


def test_a_pad_that_is_not_listed_is_not_allowed():
    assert not is_allowed(OUZEL, (9, *OUZEL.delivered[1:]))
    assert not is_allowed(OUZEL, (-1, *OUZEL.delivered[1:]))


def test_an_even_box_moves_mirror_pairs_alike_and_stays_on_the_sheet():
    around = even_box(OUZEL, OUZEL.delivered)
    assert len(around) == len(set(around)) == 3**6
    assert OUZEL.delivered in around
    assert all(pads == even(pads) for pads in around)
    at_the_end = tuple(len(pad.thicknesses_mm) - 1 for pad in OUZEL.pads)
    assert len(even_box(OUZEL, at_the_end)) == 2**6
    assert all(is_allowed(OUZEL, pads) for pads in even_box(OUZEL, at_the_end))


def test_steps_change_one_zone_by_one_step_and_matched_zones_together():
    around = steps(OUZEL, OUZEL.delivered)
    assert len(around) == 2 * len(OUZEL.pads)
    for pads in around:
        apart = [abs(a - b) for a, b in zip(pads, OUZEL.delivered, strict=True)]
        assert sorted(apart) == [0] * 7 + [1]
    assert all(is_allowed(MATCHED, pads) for pads in steps(MATCHED, MATCHED.delivered))
    assert len(steps(MATCHED, MATCHED.delivered)) == 2 * 6
