"""A helmet that nobody measured is marked wherever a chance of it is shown."""

from dataclasses import replace
from functools import cache

from helmwright.catalogue import load_packaged
from helmwright.fit.outlook import InsideGain
from helmwright.reports import answer_json, build_page, roster_csv, roster_page
from helmwright.reports.insides import (
    GUESSED,
    caliper_words,
    guess_lines,
    other_guesses,
    roster_caliper_words,
)
from helmwright.roster import RosterAnswer
from tests.reports.answers import answered
from tests.roster.stand_in import SHEET

SISKIN = load_packaged("siskin")
GAIN = InsideGain(("inside_length", "inside_breadth", "jaw_width"), 0.14, 0.01)
ONE = "Name,tape\nTeal,22 5/8\n"
TWO = ONE + "Coot,22\n"


@cache
def guessed(text: str) -> RosterAnswer:
    """An answer whose proposals rest on guessed insides."""
    answer = answered(text)
    players = tuple(
        replace(each, proposal=replace(each.proposal, insides_known=False, inside_gain=GAIN))
        for each in answer.answers
        if each.proposal is not None
    )
    return replace(answer, answers=players, sheet=SISKIN)


def test_the_build_page_is_marked_and_says_what_calipers_would_add():
    page = " ".join(build_page(guessed(ONE), 80).split())
    assert "Insides not measured: usual ones assumed (inside length, inside breadth," in page
    assert "Inside length, inside breadth and width at the jaw of this shell" in page
    assert "by about 14 of 100, give or take 2" in page


def test_the_roster_page_is_marked_and_says_once_a_shell_what_calipers_would_add():
    page = " ".join(roster_page(guessed(TWO), 100).split())
    assert page.count("Insides not measured") == 1
    assert "Worth measuring in the shells" in page
    assert "While the insides are not measured, Found right in some 2 to 13 of 100 is usual" in page
    assert "good for the shell, and for what to check first" in page
    assert "10 to 40" not in page
    assert "+14 of 100 for each of 2 players" in page or "+14 of 100 for 1 player" in page


def test_calipers_that_would_add_nothing_are_not_asked_for():
    answer = guessed(TWO)
    vain = replace(GAIN, gain=0.004)
    answers = [
        replace(each, proposal=replace(each.proposal, inside_gain=vain))
        for each in answer.answers
        if each.proposal is not None
    ]
    assert roster_caliper_words(answers) == ()
    assert "Worth measuring in the shells" not in roster_page(
        replace(answer, answers=tuple(answers)), 100
    )
    assert caliper_words(vain).endswith(
        "would not raise the chance of this player enough to be told."
    )
    assert caliper_words(replace(GAIN, gain=-0.02)) == caliper_words(vain)


def test_tables_and_documents_are_marked_player_by_player():
    assert roster_csv(guessed(TWO)).count(GUESSED) == 2
    document = answer_json(guessed(ONE))
    assert '"insides_known": false' in document
    assert '"inside_gain": {' in document
    assert GUESSED in document


def test_a_measured_helmet_carries_no_such_mark():
    answer = answered(TWO)
    for text in (roster_page(answer, 100), roster_csv(answer), build_page(answered(ONE), 80)):
        assert "not measured:" not in text
    assert '"insides_known": true' in answer_json(answer)
    assert guess_lines(SHEET) == ()
    assert other_guesses(SHEET) == ""
    assert roster_caliper_words(answer.answers) == ()


def test_one_number_and_several_are_named_alike():
    assert caliper_words(replace(GAIN, numbers=("jaw_width",))).startswith("Width at the jaw of")
    assert "strap's pull" in other_guesses(SISKIN)
