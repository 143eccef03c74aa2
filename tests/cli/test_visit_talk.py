"""What is typed, before anything is made of it."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.anatomy import MEASURES, Reading
from helmwright.catalogue import load_packaged, packaged_models
from helmwright.cli.visit_listener import IS_SYMPTOM, WHY
from helmwright.cli.visit_measure import more_words
from helmwright.cli.visit_screen import PUT_ON_WORDS
from helmwright.cli.visit_talk import ROOM_TO_TYPE, prompt_lines, readable
from helmwright.cli.visiting import DIFFERENT, END, READING, SYMPTOM
from helmwright.reports.visit_check_page import ask_words
from helmwright.reports.visit_measure_page import measure_ask_words
from helmwright.visit.protocol import protocol_for


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("M\udcfcller", "M?ller"),
        ("\x1b[A1 1/8", "[A1 1/8"),
        ("Z\N{LATIN SMALL LETTER E WITH ACUTE}lie", "Z\N{LATIN SMALL LETTER E WITH ACUTE}lie"),
    ],
)
def test_bytes_that_are_no_letters_are_kept_as_question_marks(typed, read):
    assert readable(typed) == read


@given(st.text(st.characters()))
def test_whatever_is_typed_can_be_written_to_a_file_in_one_line(typed):
    line = json.dumps(readable(typed), ensure_ascii=False).encode()
    assert b"\n" not in line
    assert b"\x1b" not in line


PROMPTS = (
    PUT_ON_WORDS,
    IS_SYMPTOM,
    WHY,
    DIFFERENT,
    END,
    READING,
    SYMPTOM,
    more_words((Reading("head_length", 200.0),)),
    more_words((Reading("head_length", 200.0), Reading("head_length", 210.0))),
    *(measure_ask_words(each.key) for each in MEASURES),
    *(
        ask_words(check)
        for model in packaged_models()
        for check in protocol_for(load_packaged(model)).checks
    ),
)


@pytest.mark.parametrize("width", [60, 80])
@pytest.mark.parametrize("words", sorted(set(PROMPTS)))
def test_no_prompt_breaks_inside_a_bracket_and_each_leaves_room_to_type(words, width):
    lines = prompt_lines(f"{words}:", width)
    assert " ".join(lines) == f"{words}:"
    assert len(lines[-1]) + ROOM_TO_TYPE <= width
    for line in lines:
        assert len(line) <= width
        assert line.count("(") == line.count(")")
