"""The page about roster files says what the reader does."""

import re
from pathlib import Path

import pytest

from helmwright.roster import SYNONYMS, decode_roster, read_heading, read_roster

PAGE = (Path(__file__).parents[2] / "docs" / "reference" / "roster-file.md").read_text("utf-8")


@pytest.mark.parametrize("field", SYNONYMS)
def test_the_page_lists_every_heading_of_a_column(field):
    (row,) = re.findall(rf"^\| {field.value.replace('_', ' ')} \| (.*) \|$", PAGE, re.MULTILINE)
    assert re.findall(r"`([^`]+)`", row) == SYNONYMS[field].split("|")


@pytest.mark.parametrize("field", SYNONYMS)
def test_every_heading_on_the_page_is_read_as_its_column(field):
    assert {read_heading(name).field for name in SYNONYMS[field].split("|")} == {field}


def test_the_example_on_the_page_is_read_without_a_remark():
    example = PAGE.partition("```text\n")[2].partition("```")[0]
    roster = read_roster(decode_roster(example.encode()))
    assert len(roster.players) == 2
    assert not roster.problems
    assert not roster.notices


@pytest.mark.parametrize("cell", ["221/8", "57.5", "6/1/2008", "8-Jul", "39600"])
def test_what_the_page_calls_a_problem_is_one(cell):
    assert f"`{cell}`" in PAGE
    assert read_roster(f"Name,Tape (in)\nTeal,{cell}\n").problems
