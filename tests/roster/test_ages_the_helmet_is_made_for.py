"""A helmet made for children is not put on an adult without a word, nor the other way about."""

import dataclasses

import pytest

from helmwright.catalogue import load_packaged
from helmwright.reports import answer_document, roster_csv
from helmwright.reports.paper.card import card_data
from helmwright.reports.warnings import player_warnings
from helmwright.roster import answer_roster, read_roster
from tests.roster.stand_in import SHEET, stand_in

YOUTH = load_packaged("wren")
TODDLERS = dataclasses.replace(YOUTH, ages=(5.0, 7.0))


def told(age: str, sheet=YOUTH, ages: tuple[float, float] | None = (8.0, 14.0)):
    roster = read_roster(f"Name,age,tape\nTeal,{age},21 1/2\n", ages=ages)
    answer = answer_roster(roster, sheet, seed=1, propose=stand_in)
    return [str(each) for each in answer.notices if "made for" in each.wrong and each.row]


def test_who_is_older_than_the_sheet_says_is_named_with_who_decides():
    (said,) = told("30")
    assert "made for 8 to 14 years, and this player is older" in said
    assert "Ask the maker, and use it only where the maker's instructions allow that" in said


@pytest.mark.parametrize("age", ["8", "11", "14", "14.9", ""])
def test_who_is_of_the_ages_is_not(age):
    assert told(age) == []


def test_the_day_of_the_next_birthday_is_past_the_last_year():
    assert len(told("15")) == 1


def test_a_sheet_for_ages_that_no_survey_has_says_so_of_everybody_who_states_none():
    assert len(told("", TODDLERS, None)) == 1


def test_a_sheet_without_ages_says_nothing_of_anybody():
    assert told("30", SHEET) == []
    assert told("9", SHEET) == []


def test_it_goes_wherever_the_proposal_goes():
    roster = read_roster("Name,age,tape\nTeal,30,21 1/2\nCoot,11,21 1/2\n")
    answer = answer_roster(roster, YOUTH, seed=1, propose=stand_in)
    words = "made for 8 to 14 years, and this player is older: ask the maker"
    teal, coot = answer.answers
    assert words in player_warnings(teal, YOUTH)[0]
    assert not any(words in said for said in player_warnings(coot, YOUTH))
    grown, young = answer_document(answer).players
    assert grown.proposal is not None
    assert young.proposal is not None
    assert words in " ".join(grown.proposal.warnings)
    assert words not in " ".join(young.proposal.warnings)
    assert roster_csv(answer).count(words) == 1
    assert words in card_data(teal, answer, YOUTH, {}, 0)["warnings"]
