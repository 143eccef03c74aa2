"""What stands of several looks at one check, and which checks are looked at again."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import Zone
from helmwright.fit.finding import Grade, Sign
from helmwright.visit.asking import BAD_AGAIN, plain_look
from helmwright.visit.check import Stage
from helmwright.visit.event import LookAsked
from helmwright.visit.looks import (
    FURTHER_DOUBT,
    LEAST_DOUBT,
    LOOK_AGAIN,
    Looked,
    Looks,
    most_doubtful,
    most_surprising,
)
from tests.visit.scripts import BROW, answered, check, zone_check

FRONT, BACK = zone_check(Zone.FRONT), zone_check(Zone.REAR)
STRAP = check("strap", Stage.HELD, put_right="Even out the strap.")
WORDS = ("loose", "snug", "tight")


def looked(one, *words: str) -> Looked:
    return Looked(one, tuple(answered(one.key, word) for word in words))


def test_one_answer_stands():
    assert looked(FRONT, "tight").verdict is Grade.OVER
    assert looked(FRONT).verdict is None


def test_two_answers_stand_where_they_agree():
    assert looked(FRONT, "loose", "loose").verdict is Grade.UNDER
    assert looked(FRONT, "loose", "snug").verdict is None


@given(st.permutations(WORDS))
def test_of_three_that_all_differ_the_middle_one_stands(words):
    assert looked(FRONT, *words).verdict is Grade.RIGHT


@given(st.sampled_from(WORDS), st.sampled_from(WORDS), st.integers(0, 2))
def test_of_three_answers_two_that_agree_stand(one, other, place):
    words = [one, one]
    words.insert(place, other)
    assert looked(FRONT, *words).verdict is looked(FRONT, one).verdict


def test_of_read_lengths_the_middle_one_stands():
    given_ = tuple(answered("brow", "snug", value) for value in (15.0, 33.0, 20.0))
    assert Looked(BROW, given_).verdict is Grade.RIGHT
    assert Looked(BROW, given_[:1]).verdict is Grade.UNDER


def test_a_read_length_decides_whatever_word_was_said():
    assert Looked(BROW, (answered("brow", "tight", 25.0),)).verdict is Grade.RIGHT


def test_of_what_is_put_right_on_the_spot_the_last_answer_stands():
    assert looked(STRAP, "loose", "snug").verdict is Grade.RIGHT
    assert looked(STRAP, "snug", "loose").verdict is Grade.UNDER
    assert looked(STRAP, "loose", "tight").failures == 2


def test_of_four_answers_two_against_two_leave_it_open_and_a_fifth_decides():
    assert looked(FRONT, "loose", "snug", "snug", "loose").verdict is None
    assert looked(FRONT, "loose", "snug", "snug", "loose", "loose").verdict is Grade.UNDER


def test_only_a_bad_answer_that_the_belief_doubts_is_asked_again():
    assert most_surprising({"front": LOOK_AGAIN.value, "rear": 0.0}) == "front"
    assert most_surprising({"front": LOOK_AGAIN.value - 0.01}) is None
    assert most_surprising({}) is None


def test_the_bad_answer_that_the_belief_doubts_most_is_asked_again_first():
    assert most_surprising({"front": 0.5, "rear": 0.8, "left": 0.1}) == "rear"


def test_no_look_is_taken_that_could_not_overturn_the_verdict():
    assert looked(FRONT, "loose", "loose").may_be_doubted
    assert not looked(FRONT, "loose", "loose", "loose").may_be_doubted
    assert looked(FRONT, "loose", "snug", "loose").may_be_doubted
    turn = check("turn", Stage.HELD, Sign.TURN)
    assert looked(turn, "loose").may_be_doubted
    assert not looked(turn, "loose", "loose").may_be_doubted


def test_the_plain_rules_ask_every_bad_one_twice_more_or_none():
    once = (looked(FRONT, "loose"), looked(BACK, "snug"))
    assert plain_look(once, Looks.NONE) is None
    again = LookAsked(FRONT.key, BAD_AGAIN)
    assert plain_look(once, Looks.BAD_ONES) == again
    assert plain_look((looked(FRONT, "loose", "snug"),), Looks.BAD_ONES) == again
    assert plain_look((looked(FRONT, "loose", "snug", "snug"),), Looks.BAD_ONES) is None


def test_the_good_answer_that_is_likeliest_wrong_is_the_doubtful_one():
    assert most_doubtful({"front": 0.9, "rear": 0.7, "left": 0.99}) == "rear"
    assert most_doubtful({}) is None


def test_nothing_is_doubted_that_is_as_good_as_sure():
    assert most_doubtful({"front": 1.0 - LEAST_DOUBT.value / 2}) is None


def test_a_first_good_answer_is_doubted_for_less_than_the_further_ones():
    assert LEAST_DOUBT.value < FURTHER_DOUBT.value
    chances = {"front": 1.0 - 0.5 * (LEAST_DOUBT.value + FURTHER_DOUBT.value)}
    assert most_doubtful(chances) == "front"
    assert most_doubtful(chances, FURTHER_DOUBT.value) is None


@pytest.mark.parametrize("sign", [Sign.NOSE, Sign.SIGHT, Sign.PLAIN])
def test_what_no_pad_cures_is_put_right_on_the_spot(sign):
    assert looked(check("nose", Stage.HELD, sign), "loose", "snug").verdict is Grade.RIGHT
