"""The rule of thumb: every wrong zone a step the right way."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import ZONES, Zone
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.next_build_found import RING, Found
from helmwright.fit.next_build_rule import by_rule
from tests.fit.ordinary import OUZEL, delivered, moved
from tests.fit.plain_draws import findings

UNDER, RIGHT, OVER = Grade
HERE = OUZEL.delivered
MATCHED = replace(OUZEL, matched=((Zone.LEFT, Zone.RIGHT), (Zone.JAW_LEFT, Zone.JAW_RIGHT)))


def ruled(sheet=OUZEL, pads=HERE, **found):
    return by_rule(Found.of(findings(**found)), sheet, pads)


def test_every_wrong_zone_moves_one_step_the_right_way_first():
    first = ruled(front=UNDER, jaw_left=OVER, brow=UNDER)[0]
    assert first == moved(delivered(), front=1, jaw_left=-1, crown=1).pads


def test_two_steps_and_each_alone_are_among_the_rest():
    found = ruled(front=UNDER, nape=OVER)
    for steps in ({"front": 2, "nape": -2}, {"front": 1}, {"nape": -2}, {"front": 2, "nape": -1}):
        assert moved(delivered(), **steps).pads in found


def test_a_tight_crown_is_answered_at_the_sides_as_well():
    assert moved(delivered(), left=1, right=1).pads in ruled(crown=OVER)
    assert moved(delivered(), left=-1, right=-1).pads in ruled(crown=UNDER)


def test_a_helmet_that_falls_down_gets_thicker_pads_all_around():
    found = by_rule(Found.of([Finding(Sign.PUT_ON, UNDER)]), OUZEL, HERE)
    assert found == [moved(delivered(), **{zone.value: 1 for zone in RING}).pads]


def test_nothing_wrong_asks_for_nothing():
    assert ruled() == []
    assert by_rule(Found(), OUZEL, HERE) == []


def test_zones_that_must_match_move_together():
    assert ruled(MATCHED, left=UNDER)[0] == moved(delivered(), left=1, right=1).pads


grades = st.lists(st.sampled_from(list(Grade)), min_size=9, max_size=9)
anywhere = st.tuples(*(st.integers(0, len(pad.thicknesses_mm) - 1) for pad in OUZEL.pads))


@given(grades, anywhere)
def test_every_build_by_rule_is_listed_and_another_and_moves_only_what_was_asked(answers, pads):
    keys = [zone.value.replace(" ", "_") for zone in ZONES]
    found = Found.of(findings(brow=answers[8], **dict(zip(keys, answers[:8], strict=True))))
    for one in by_rule(found, OUZEL, pads):
        assert one != pads
        assert is_allowed(OUZEL, one)
        for zone, before, after in zip(ZONES, pads, one, strict=True):
            by_itself = zone in found.wrong and zone is not Zone.CROWN
            if by_itself and after != before:
                assert (after - before) * found.wrong[zone] < 0
            if not by_itself and zone not in (Zone.CROWN, Zone.LEFT, Zone.RIGHT):
                assert after == before
