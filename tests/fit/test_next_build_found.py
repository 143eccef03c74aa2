"""What a try-on said: which zones are wrong, which are snug, which answer stands."""

from itertools import permutations

import pytest

from helmwright.catalogue import Zone
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.fit.next_build_found import RING, Found
from tests.fit.plain_draws import findings

UNDER, RIGHT, OVER = Grade


def looks(*grades: Grade) -> Found:
    return Found.of([Finding(Sign.ZONE, grade, Zone.FRONT) for grade in grades])


@pytest.mark.parametrize("grades", list(permutations((UNDER, RIGHT, RIGHT))))
def test_of_three_looks_the_middle_one_stands(grades):
    assert looks(*grades).zones[Zone.FRONT] is RIGHT


@pytest.mark.parametrize("grades", list(permutations((UNDER, RIGHT, OVER))))
def test_of_three_that_all_differ_right_stands(grades):
    assert looks(*grades).zones[Zone.FRONT] is RIGHT


def test_of_two_looks_the_last_one_stands():
    assert looks(UNDER, RIGHT).wrong == {}
    assert looks(RIGHT, UNDER).wrong == {Zone.FRONT: UNDER}


def test_a_hot_spot_makes_its_zone_tight_although_the_pad_was_snug():
    found = Found.of([*findings(), Finding(Sign.HOT_SPOT, OVER, Zone.LEFT)])
    assert found.wrong == {Zone.LEFT: OVER}
    assert found.hot == {Zone.LEFT}
    assert Zone.LEFT not in found.snug
    calm = Found.of([*findings(left=UNDER), Finding(Sign.HOT_SPOT, RIGHT, Zone.LEFT)])
    assert calm.wrong == {Zone.LEFT: UNDER}


def test_the_crown_is_not_left_alone_where_the_brow_is_wrong():
    assert Zone.CROWN in Found.of(findings()).snug
    assert Zone.CROWN not in Found.of(findings(brow=OVER)).snug
    assert Found.of(findings(brow=OVER)).brow is OVER


def test_a_zone_that_was_not_looked_at_is_neither_wrong_nor_snug():
    found = looks(RIGHT)
    assert found.snug == {Zone.FRONT}
    assert found.wrong == {}


def test_the_ring_is_loose_as_far_as_found_or_whole_where_the_helmet_falls_down():
    assert Found.of(findings(front=UNDER, left=UNDER, nape=UNDER, rear=OVER)).ring(UNDER) == 2
    falls = Found.of([Finding(Sign.PUT_ON, UNDER)])
    assert falls.ring(UNDER) == len(RING)
    assert falls.ring(OVER) == 0
    assert Found.of([Finding(Sign.TURN, UNDER)]).whole is UNDER


def test_other_checks_that_the_helmet_at_rest_tells_of_are_kept_where_they_were_wrong():
    found = Found.of(
        [
            Finding(Sign.TURN, UNDER),
            Finding(Sign.EARS, RIGHT),
            Finding(Sign.SIGHT, UNDER),
            Finding(Sign.HOT_SPOT, OVER, Zone.REAR),
        ]
    )
    assert found.also == ((Sign.TURN, None), (Sign.HOT_SPOT, Zone.REAR))


def test_before_the_first_try_on_nothing_is_known():
    assert Found.of([]) == Found()
    assert Found().snug == frozenset()
