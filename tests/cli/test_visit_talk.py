"""What is typed, before anything is made of it."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.cli.visit_talk import readable


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
