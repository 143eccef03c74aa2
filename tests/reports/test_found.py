"""What a visit found, stage by stage."""

import pytest

from helmwright.reports.found import ALL_RIGHT, NOBODY_LOOKED, NOT_ALL, found_by_stage
from helmwright.visit.event import PutOn
from helmwright.visit.state import fold
from helmwright.visit.summary import summary
from tests.visit.scripts import (
    DELIVERED,
    OUZEL,
    WHOLE,
    answered,
    begun,
    moved,
    proposed,
)

THICKER = moved(front=1)
LOOSE_THEN_SNUG = (
    begun(), proposed(), answered("marks"), PutOn(DELIVERED), answered("put on"),
    answered("brow", "snug", 25.4), answered("front", "loose"), proposed(THICKER),
    PutOn(THICKER), answered("front"),
)  # fmt: skip


def told(*events):
    stages = found_by_stage(summary(fold(events), WHOLE, OUZEL), WHOLE)
    return {each.stage: each for each in stages}


def test_stages_come_in_the_order_of_the_visit_and_checks_in_theirs():
    stages = told(*LOOSE_THEN_SNUG)
    assert list(stages)[:2] == ["Before the helmet goes on", "On the head: where it touches"]
    contact = stages["On the head: where it touches"]
    assert [each.title for each in contact.checks] == ["Put on", "Brow", "Front"]


def test_what_was_wrong_at_first_is_told_with_its_try_on_and_how_it_came_out():
    contact = told(*LOOSE_THEN_SNUG)["On the head: where it touches"]
    assert contact.told == ALL_RIGHT
    assert contact.on_the_way == ("Front: loose at try-on 1; then snug.",)


def test_what_is_wrong_still_is_told_as_such():
    contact = told(*LOOSE_THEN_SNUG[:7])["On the head: where it touches"]
    assert contact.told == NOT_ALL
    assert contact.checks[-1].words == "loose"
    assert contact.on_the_way == ()


def test_a_read_length_is_told_with_its_unit():
    contact = told(*LOOSE_THEN_SNUG)["On the head: where it touches"]
    assert contact.checks[1].words == "1 in, snug"


def test_a_stage_of_which_nothing_was_answered_says_so():
    assert told(*LOOSE_THEN_SNUG)["Strap, movement and face"].told == NOBODY_LOOKED


@pytest.mark.parametrize("looks", [("loose", "snug", "snug"), ("snug", "loose", "snug")])
def test_the_middle_of_three_looks_stands_and_the_other_is_told(looks):
    events = [begun(), proposed(), PutOn(DELIVERED), *(answered("front", each) for each in looks)]
    contact = told(*events)["On the head: where it touches"]
    assert contact.told == ALL_RIGHT
    assert contact.on_the_way == ("Front: loose at try-on 1; then snug.",)
