"""Which checks are due on a build, and what they teach."""

from dataclasses import replace

import numpy as np
import pytest

from helmwright.catalogue import Zone
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.fit.outlook import Build
from helmwright.visit.belief import batches, digest
from helmwright.visit.check import Answer, Part, Stage
from helmwright.visit.event import Event, PutOn
from helmwright.visit.looks import Looked
from helmwright.visit.round import changed_parts, findings_of, is_wrong, round_of, standing_finding
from helmwright.visit.state import fold
from tests.visit.scripts import (
    BROW,
    CUP,
    DELIVERED,
    MARKS,
    TURN,
    WHOLE,
    ZONE_CHECKS,
    answered,
    begun,
    check,
    moved,
    proposed,
    zone_check,
)

FRONT = zone_check(Zone.FRONT)
ON: list[Event] = [begun(), proposed(), answered("marks"), PutOn(DELIVERED)]
ALL = [*ON, *(answered(each.key) for each in WHOLE.checks[1:])]


def due(events: list[Event]) -> list[str]:
    return [one.check.key for one in round_of(WHOLE.checks, fold(events)).due]


def test_at_the_first_try_on_everything_is_due():
    assert due(ON) == [check.key for check in WHOLE.checks]


def test_after_a_change_the_contact_is_due_and_what_the_change_can_disturb():
    on: list[Event] = [*ALL, PutOn(moved(front=1), "thicker")]
    assert due(on) == ["put on", "brow", *(one.key for one in ZONE_CHECKS), "turn"]


def test_another_shell_is_checked_all_over():
    on: list[Event] = [*ALL, PutOn(Build(4, DELIVERED.pads), "larger")]
    assert set(due(on)) == {one.key for one in WHOLE.checks} - {"told"}


def test_what_was_wrong_last_is_due_whatever_was_changed():
    wrong = [*ALL, answered("cup", "loose"), PutOn(moved(front=1), "thicker")]
    assert "cup" in due(wrong)


def test_a_change_and_its_taking_back_still_disturbs():
    back: list[Event] = [*ALL, PutOn(moved(front=1), "a"), PutOn(DELIVERED, "b")]
    assert "turn" in due(back)


STRAP = check("strap", Stage.HELD, put_right="Even it out.", changes=(Part.STRAP,))
MOUTH = check("mouth", Stage.HELD, repeat_after=frozenset({Part.STRAP}))
FEW = (BROW, MOUTH, STRAP)
WORN: list[Event] = [begun(), proposed(), PutOn(DELIVERED)]


def asked(*answers) -> dict[str, int]:
    """How many answers of each check still stand."""
    round_ = round_of(FEW, fold([*WORN, *answers]))
    return {one.check.key: len(one.answers) for one in round_.due}


def test_a_part_changed_on_the_spot_has_what_it_disturbs_looked_at_again():
    bad = (answered("brow", "snug", 25.0), answered("mouth"), answered("strap", "loose"))
    assert asked(*bad) == {"brow": 1, "mouth": 1, "strap": 1}, "nothing was changed yet"
    assert asked(*bad, answered("strap")) == {"brow": 1, "mouth": 0, "strap": 2}
    assert asked(*bad, answered("strap"), answered("mouth")) == {"brow": 1, "mouth": 1, "strap": 2}


def test_what_was_not_looked_at_before_the_change_is_not_called_disturbed():
    events = [*WORN, answered("strap", "loose"), answered("strap")]
    (mouth,) = (one for one in round_of(FEW, fold(events)).due if one.check is MOUTH)
    assert mouth.disturbed is None


def test_bad_answers_before_a_change_on_the_spot_still_count():
    cup = replace(CUP, repeat_after=frozenset({Part.STRAP}))
    events = [*WORN, answered("cup", "loose"), answered("cup"), answered("strap", "loose")]
    events += [answered("strap"), answered("cup", "loose")]
    (looked,) = (one for one in round_of((cup, STRAP), fold(events)).due if one.check is cup)
    assert looked.disturbed is Part.STRAP
    assert looked.failures == 2
    assert is_wrong(looked), "twice bad is wrong, whatever was changed between"


@pytest.mark.parametrize(
    ("build", "parts"),
    [
        (DELIVERED, set()),
        (moved(front=1), {Part.PAD}),
        (moved(crown=1, jaw_left=1), {Part.CROWN, Part.JAW}),
        (Build(4, DELIVERED.pads), {Part.SHELL}),
    ],
)
def test_the_kinds_of_parts_that_differ(build, parts):
    assert changed_parts(DELIVERED, build) == parts


def test_every_look_teaches_but_of_what_was_put_right_the_last_alone():
    given = (answered("front", "loose"), answered("front"), answered("front"))
    assert [each.grade for each in findings_of(Looked(FRONT, given))] == [
        Grade.UNDER, Grade.RIGHT, Grade.RIGHT,
    ]  # fmt: skip
    by_air = replace(FRONT, put_right="Add air.")
    assert [each.grade for each in findings_of(Looked(by_air, given[:2]))] == [Grade.RIGHT]


def test_a_plain_check_teaches_nothing():
    assert findings_of(Looked(CUP, (answered("cup", "loose"),))) == ()
    assert findings_of(Looked(MARKS, (answered("marks"),))) == ()


def test_where_no_hot_spot_is_found_none_is_found_in_any_zone_that_was_asked_about():
    spots = check(
        "spots",
        Stage.WORN,
        Sign.HOT_SPOT,
        answers=(
            Answer("none", Grade.RIGHT, "Nothing."),
            Answer("front", Grade.OVER, "There.", "A pad.", Zone.FRONT),
            Answer("rear", Grade.OVER, "There.", "A pad.", Zone.REAR),
        ),
    )
    assert findings_of(Looked(spots, (answered("spots", "none"),))) == (
        Finding(Sign.HOT_SPOT, Grade.RIGHT, Zone.FRONT),
        Finding(Sign.HOT_SPOT, Grade.RIGHT, Zone.REAR),
    )
    assert findings_of(Looked(spots, (answered("spots", "rear"),))) == (
        Finding(Sign.HOT_SPOT, Grade.OVER, Zone.REAR),
    )


def test_what_stands_is_the_look_that_says_so():
    given = (answered("brow", "snug", 18.0), answered("brow", "snug", 26.0))
    last = (*given, answered("brow", "snug", 24.0))
    assert standing_finding(Looked(BROW, given)) == ()
    (stands,) = standing_finding(Looked(BROW, last))
    assert (stands.grade, stands.value_mm) == (Grade.RIGHT, 24.0)


def test_first_looks_and_further_ones_are_taken_in_batch_by_batch():
    events = [*ON, answered("front", "loose"), answered("rear"), answered("front")]
    first, further = batches(WHOLE.checks, fold(events))
    assert first.findings == (
        Finding(Sign.ZONE, Grade.UNDER, Zone.FRONT), Finding(Sign.ZONE, Grade.RIGHT, Zone.REAR),
    )  # fmt: skip
    assert further.findings == (Finding(Sign.ZONE, Grade.RIGHT, Zone.FRONT),)


def test_what_comes_later_does_not_change_what_was_learned_before():
    events = [*ON, answered("front", "loose"), answered("front"), answered("turn", "loose")]
    visit = fold(events)
    assert batches(WHOLE.checks, visit, Stage.CONTACT) == batches(WHOLE.checks, visit)[:2]
    assert batches(WHOLE.checks, visit)[2].findings == (TURN.finding(TURN.answer("loose")),)


def test_equal_data_have_one_digest_whatever_they_are_kept_in():
    assert digest(DELIVERED, 1.0, {"a": 1, "b": (2,)}) == digest(
        Build(3, tuple(np.array(DELIVERED.pads))), 1, {"b": [2.0], "a": 1}
    )
    assert digest(DELIVERED) != digest(moved(front=1))
    assert digest(Grade.RIGHT) != digest(Grade.OVER)
