"""What a person types in a visit is understood, or told what would be right; nothing is guessed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import load_packaged
from helmwright.cli.visit_answers import (
    Command,
    answered,
    command,
)
from helmwright.cli.visit_hearing import sounds_like_symptom
from helmwright.cli.visit_round import round_answered
from helmwright.cli.written_answers import AnswerError
from helmwright.fit.finding import Grade
from helmwright.reports.visit_keys import keys, right_answer
from helmwright.visit.check import Stage
from helmwright.visit.check_list import Symptom
from helmwright.visit.event import Answered
from helmwright.visit.looks import grade_of
from helmwright.visit.protocol import protocol_for, usual_protocol

PROTOCOL = protocol_for(load_packaged("ouzel"))
FRONT, BROW, SPOTS = (PROTOCOL.check(key) for key in ("front", "brow", "hot spots"))
CONTACT = PROTOCOL.stage(Stage.CONTACT)


@pytest.mark.parametrize(
    ("typed", "word"),
    [
        ("l", "loose"), ("SNUG", "snug"), (" tight ", "tight"), ("2", "snug"), ("ti", "tight"),
    ],
)  # fmt: skip
def test_an_answer_is_a_letter_a_place_a_word_or_its_beginning(typed, word):
    assert answered(FRONT, typed) == Answered("front", word)


@pytest.mark.parametrize(
    ("typed", "word", "value_mm"),
    [
        ("1 1/8", "right", 28.575),
        ("1", "right", 25.4),
        ("1/2", "low", 12.7),
        ("1 5/8 in", "high", 41.275),
        ("30 mm", "right", 30.0),
        ("1 finger", "right", 19.05),
        ("two fingers", "high", 38.1),
        ("0", "low", 0.0),
        ("r", "right", None),
        ("low", "low", None),
    ],
)
def test_a_length_decides_the_word_and_a_word_will_do_without(typed, word, value_mm):
    given_answer = answered(BROW, typed)
    assert (given_answer.check, given_answer.word) == ("brow", word)
    assert given_answer.value_mm == pytest.approx(value_mm)


def test_a_read_length_takes_a_word_of_its_own_grade():
    for check in (PROTOCOL.check("brow"), PROTOCOL.check("nose")):
        assert check.length is not None
        for value in (20.0, 30.0, 60.0, 90.0):
            given_answer = answered(check, f"{value} mm")
            assert grade_of(check, given_answer) is check.length.grade(value)
            assert check.answer(given_answer.word).grade is check.length.grade(value)


@pytest.mark.parametrize(
    ("check", "typed", "told"),
    [
        (FRONT, "x", '"x" is no answer here. Type l (loose), s (snug) or t (tight).'),
        (FRONT, "", "Nothing was typed. Type l (loose)"),
        (FRONT, "4", '"4" is no answer here'),
        (FRONT, "1 1/8", '"1 1/8" is no answer here'),
        (BROW, "x", "or the inches, such as 1 1/8, or 1 finger."),
        (BROW, "12", "out of range"),
        (BROW, "11/8", "11/8"),
        (SPOTS, "jaw", '"jaw" is no answer here'),
    ],
)
def test_what_is_no_answer_is_told_with_what_would_be_right(check, typed, told):
    with pytest.raises(AnswerError) as wrong:
        answered(check, typed)
    assert told in str(wrong.value)
    assert "Type " in str(wrong.value)


@pytest.mark.parametrize("check", usual_protocol().checks, ids=lambda check: check.key)
def test_every_answer_of_every_check_has_a_letter_of_its_own(check):
    letters = keys(check)
    assert list(letters.values()) == list(check.answers)
    for letter, answer in letters.items():
        assert letter.isalpha()
        assert answered(check, letter).word == answer.word
        assert command(letter) is None
        assert command(answer.word) is None


@pytest.mark.parametrize(
    ("typed", "name", "rest"),
    [
        ("undo", "undo", ""),
        ("BACK", "undo", ""),
        ("quit", "pause", ""),
        ("?", "help", ""),
        ("symptom sees double", "symptom", "sees double"),
        ("Symptom: dizzy", "symptom", "dizzy"),
        ("all good", "all good", ""),
        ("all  good except front loose", "all good", "except front loose"),
        ("stop he left", "stop", "he left"),
        ("other front 7/8", "other", "front 7/8"),
    ],
)
def test_a_command_is_a_word_with_what_is_typed_behind_it(typed, name, rest):
    assert command(typed) == Command(name, rest)


@pytest.mark.parametrize("typed", ["", "s", "why not", "undone", "stopped", "pause?", "alright"])
def test_what_only_looks_like_a_command_is_none(typed):
    assert command(typed) is None


def test_all_good_answers_every_check_of_the_round_right():
    answers = round_answered("", CONTACT)
    assert [each.check for each in answers] == [check.key for check in CONTACT]
    assert all(grade_of(c, a) is Grade.RIGHT for c, a in zip(CONTACT, answers, strict=True))


def test_exceptions_are_named_by_check_and_answer_with_the_longest_name_first():
    typed = "except front loose, jaw left t, Right side tight and brow 1 5/8; ears high"
    bad = {
        each.check: each
        for each in round_answered(typed, CONTACT)
        if each.word != right_answer(PROTOCOL.check(each.check)).word
    }
    assert bad == {
        "front": Answered("front", "loose"),
        "jaw left": Answered("jaw left", "tight"),
        "right": Answered("right", "tight"),
        "brow": Answered("brow", "high", 41.275),
        "ears": Answered("ears", "high"),
    }


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("except visor loose", "Left are: put on, brow, front"),
        ("except front", "Type front and one of: loose, snug, tight"),
        ("except front green", '"green" is no answer here'),
        ("front loose", "Type: all good except front loose"),
        ("except front loose, front tight", "front is named twice"),
        ("except", "Type: all good except front loose"),
    ],
)
def test_an_exception_that_is_not_clear_keeps_nothing(typed, told):
    with pytest.raises(AnswerError) as wrong:
        round_answered(typed, CONTACT)
    assert told in str(wrong.value)


@given(st.text(max_size=30))
def test_whatever_is_typed_is_understood_or_refused(typed):
    for check in (FRONT, BROW, SPOTS):
        try:
            found = answered(check, typed)
        except AnswerError:
            continue
        assert found.word in [answer.word for answer in check.answers]


@pytest.mark.parametrize(
    ("typed", "heard"),
    [
        ("headache", True), ("he feels dizzy", True), ("my head hurts", True), ("numb", True),
        ("neck", True), ("sick after a hit", True), ("tingling in both hands", True),
        ("sees double", True), ("vomited at noon", True), ("Passed out", True), ("blurred", True),
        ("confused", True), ("can\u2019t feel his arm", True), ("light-headed", True),
        ("loose", False), ("called to class", False), ("after class", False), ("snug", False),
        ("22 5/8", False), ("", False), ("!", False),
    ],
)  # fmt: skip
def test_what_sounds_like_a_symptom_is_heard(typed, heard):
    assert sounds_like_symptom(typed, PROTOCOL.symptoms) is heard


def test_where_nothing_says_how_a_symptom_is_heard_its_first_letters_do():
    own = (Symptom("earache", "An ache in the ear."),)
    assert sounds_like_symptom("earaches", own)
    assert not sounds_like_symptom("dizzy", own)


@pytest.mark.parametrize("check", PROTOCOL.checks, ids=lambda check: check.key)
def test_no_answer_of_a_check_is_taken_for_a_symptom(check):
    for answer in check.answers:
        assert not sounds_like_symptom(answer.word, PROTOCOL.symptoms)


def test_right_is_no_answer_to_hot_spots_where_it_could_mean_that_all_is_right():
    with pytest.raises(AnswerError, match="no answer here"):
        answered(SPOTS, "right")
    assert answered(SPOTS, "side right").word == "side right"
