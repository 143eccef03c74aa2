"""The roster's page: readable at the width it was made for, with everything once."""

import re
from dataclasses import replace

import pytest

from helmwright.catalogue.zone import Zone
from helmwright.fit import ShellChance
from helmwright.reports import roster_page
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.layout import bullets
from tests.reports.answers import answered, demo_answer

HALF_FRACTION = re.compile(r"\d/$|^\s*/\d|(?<!\d)/\d")


def squeezed(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("width", [40, 60, 72, 80, 100, 120])
def test_no_line_is_wider_than_the_page_and_no_fraction_is_torn(width):
    lines = roster_page(demo_answer(), width).splitlines()
    assert max(len(line) for line in lines) <= width
    assert not [line for line in lines if HALF_FRACTION.search(line)]


@pytest.mark.parametrize("width", [60, 80])
def test_every_player_is_on_the_page_with_shell_pads_and_both_chances(width):
    answer = demo_answer()
    page = roster_page(answer, width)
    for each in answer.answers:
        assert each.player.name in page
    first = answer.answers[0].proposal
    assert first is not None
    best = first.ranked[0]
    found, fits = (round(100 * c.value) for c in (best.found_right, best.fits))
    if width == 80:
        assert f"{found} / {fits} of 100" in page
        assert re.search(r"^7 +Wren Siltbank +3 \(\d+\) +7/8 +1 +7/8", page, re.MULTILINE)
    else:
        assert f"Found right {found} of 100, truly fits {fits} of 100" in page
        assert "Pads: crown 7/8, front 1," in page


@pytest.mark.parametrize("width", [60, 80, 120])
def test_cautions_and_assumptions_are_said_once(width):
    page = squeezed(roster_page(demo_answer(), width))
    for caution in (*CAUTIONS, ASSUMED):
        assert page.count(caution) == 1


def test_a_row_that_is_not_answered_keeps_its_place_and_is_explained_below():
    page = roster_page(demo_answer(), 80)
    before, place, below = page.partition("28   Brook Oxbowe        not answered: see row 5 below")
    assert place
    assert "Alder Riffleton" in before
    assert 'Row 5 (Brook Oxbowe), Tape (in) "231/8"' in below
    assert "23 of 24 rows answered." in below


def test_a_row_that_is_not_answered_keeps_its_place_on_a_narrow_page_too():
    page = roster_page(demo_answer(), 60)
    assert "28  Brook Oxbowe\n  not answered: see row 5 below\n" in page


def test_the_cautions_take_eight_lines_of_a_page_at_most_and_leave_none_out():
    lines = bullets((*CAUTIONS, ASSUMED), 80)
    assert len(lines) <= 8
    said = squeezed(" ".join(lines)).lower()
    for words in (
        *("nothing here is a safety score", "a trained person must check every helmet"),
        *("maker's instructions", "rules in force", "licensed people win"),
        *("only parts listed for the model", "now certified", "lapsed", "on hold"),
        *("no helmet prevents every head or neck injury", "headache", "stop", "physician"),
        *("athletic trainer", "assumed: the limits"),
    ):
        assert words in said, words


def test_the_legend_says_that_low_chances_are_usual_and_checking_is_for_that():
    page = squeezed(roster_page(demo_answer(), 80))
    assert "Found right in some 10 to 40 of 100 is usual, least where little was read" in page


def with_jaws(answer, left, right):
    """The answer with other jaw pads for its one player [mm]."""
    (each,) = answer.answers
    best = each.proposal.ranked[0]
    thick = {Zone.JAW_LEFT: left, Zone.JAW_RIGHT: right}
    zones = tuple(replace(z, pad_mm=thick.get(z.zone, z.pad_mm)) for z in best.zones)
    told = replace(each.proposal, ranked=(replace(best, zones=zones),))
    return replace(answer, answers=(replace(each, proposal=told),))


def test_a_page_explains_pads_that_differ_left_and_right_and_is_silent_where_none_do():
    answer = answered("Name,tape\nTeal,22 5/8\n")
    words = "no reading has a side; unequal pads make a half step together, and the mirror image"
    assert words in squeezed(roster_page(with_jaws(answer, 22.2, 19.0), 80))
    assert words not in squeezed(roster_page(with_jaws(answer, 19.0, 19.0), 80))


def test_a_head_that_the_model_may_not_suit_comes_with_what_to_do():
    page = squeezed(roster_page(answered("Name,tape\nTeal,23\nCoot,22\n", suits=False), 80))
    assert "Perhaps not this model" in page
    assert "Teal, Coot (model suits head badly): even with pads and shell changed" in page
    assert "Try another model or ask the maker. The pads printed are only the least bad." in page
    answer = answered("Name,tape\nTeal,23\n")
    (each,) = answer.answers
    assert each.proposal is not None
    far = replace(each, proposal=replace(each.proposal, shells=(ShellChance(6, 0.04),)))
    outside = squeezed(roster_page(replace(answer, answers=(far,)), 80))
    words = "Teal (outside the size chart): by these readings the maker's size bands leave the head"
    assert words in outside
    assert "Perhaps not this model" not in roster_page(demo_answer(), 80)


def test_a_measure_worth_taking_comes_with_the_minutes_for_everybody():
    page = squeezed(roster_page(answered("Name,tape\nTeal,22\nCoot,23\nWren,24\n"), 80))
    assert "Teal, Coot, Wren; about 3 minutes. How:" in page


def test_a_notice_is_listed_apart_from_the_problems():
    page = roster_page(demo_answer(), 80)
    assert page.index("Not answered: put these right") < page.index("Answered, but look at these")


def test_a_model_that_suits_a_head_badly_is_said():
    assert "model suits head badly" in roster_page(answered("Name,tape\nA,23\n", suits=False), 80)


def test_a_player_who_was_not_measured_is_a_forecast_on_the_page():
    answer = answered("Name,tape\nTeal,22\n")
    (each,) = answer.answers
    assert each.proposal is not None
    blind = replace(each, proposal=replace(each.proposal, measured=False))
    assert "forecast, not measured" in roster_page(replace(answer, answers=(blind,)), 80)


def test_a_roster_without_an_answer_still_says_what_is_wrong():
    page = roster_page(answered("Name,tape\nA,221/8\n"), 80)
    assert "22 1/8?" in page
    assert "0 of 1 row answered." in page
    assert "Crown" not in page


def test_a_page_holds_no_escape_codes_and_only_plain_characters():
    page = roster_page(demo_answer(), 80)
    assert "\x1b" not in page
    assert page.isascii()


def test_a_shell_that_is_not_the_charts_likeliest_is_named_with_what_the_chart_says():
    answer = answered("No,Name,tape (in)\n7,Teal,22 5/8\n8,Coot,22 5/8\n")
    first, second = answer.answers
    assert first.proposal is not None
    best = first.proposal.ranked[0]
    other = ShellChance(best.build.shell + 1, 0.7)
    told = replace(first.proposal, shells=(other, ShellChance(best.build.shell, 0.3)))
    turned = replace(answer, answers=(replace(first, proposal=told), second))
    page = squeezed(roster_page(turned, 80))
    line = f"Teal: the chart names shell {other.shell} for 70 of 100"
    assert line in page
    assert "Another shell" in page
    assert "Coot: the chart" not in page
    assert "Another shell" not in roster_page(answer, 80)


def test_a_row_that_is_not_answered_is_not_listed_among_those_that_are():
    page = squeezed(roster_page(answered("Name,tape,Glasses\nTeal,22,maybe\nCoot,250,maybe\n")))
    problems, _, rest = page.partition("Answered, but look at these")
    assert problems.count("Row 3 (Coot)") == 2
    assert "Row 2 (Teal)" in rest
    assert "Row 3 (Coot)" not in rest
