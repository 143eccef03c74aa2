"""The part of the pages that says what drives a chance: bars, the strongest, what is assumed."""

import dataclasses

import pytest

from helmwright.fit.outlook import Assumption, BuildOutlook, Driver, MeasureGain, Shift
from helmwright.fit.turns import (
    BUMPS_RANGE,
    FOAM_RANGE,
    FRICTION_RANGE,
    SURVEY_RANGE,
    YOUTH_SURVEY_RANGE,
)
from helmwright.reports import answer_document, build_page, roster_page
from helmwright.reports.driving import (
    DriverBar,
    drawn_bar,
    driver_bars,
    driver_lines,
    most_hangs_on,
    ranges_words,
    strongest_short,
    strongest_words,
)
from helmwright.roster import RosterAnswer
from helmwright.sources import Figure
from tests.reports.answers import answered, proposed

TEXT = "Name,tape,length,breadth\nTeal,22 5/8,7 7/8,6 1/8\n"
THREE = "Name,tape\nTeal,22 5/8\nCoot,23\nDunlin,22\n"
NONE = Shift(0.0, 0.001)


def driver(assumption: Assumption, sides: tuple[Figure, Figure], low: float, high: float) -> Driver:
    some, more = Shift(low, 0.005), Shift(high, 0.005)
    return Driver(assumption, sides[0], sides[1], some, more, NONE, NONE)


BUMPS = driver(Assumption.BUMPS, BUMPS_RANGE, 0.24, -0.25)
FOAM = driver(Assumption.FOAM, FOAM_RANGE, -0.06, -0.08)
SURVEY = driver(Assumption.SURVEY, SURVEY_RANGE, 0.02, -0.01)


def driven(*drivers: Driver) -> BuildOutlook:
    """The stand-in's best build, which fits 46 of 100, with these drivers."""
    return dataclasses.replace(proposed(TEXT).ranked[0], drivers=drivers)


def with_drivers(answer: RosterAnswer, *sets: tuple[Driver, ...]) -> RosterAnswer:
    """The answer with drivers of each player's best build."""
    told = []
    for each, drivers in zip(answer.answers, sets, strict=True):
        proposal = each.proposal
        assert proposal is not None
        best = dataclasses.replace(proposal.ranked[0], drivers=drivers)
        proposal = dataclasses.replace(proposal, ranked=(best, *proposal.ranked[1:]))
        told.append(dataclasses.replace(each, proposal=proposal))
    return dataclasses.replace(answer, answers=tuple(told))


def squeezed(lines: list[str]) -> str:
    return " ".join(" ".join(lines).split())


@pytest.mark.parametrize("width", [40, 48, 60, 80, 120])
def test_the_part_keeps_to_the_width_and_to_plain_characters(width):
    lines = driver_lines(driven(BUMPS, FOAM, SURVEY), width)
    assert max(len(line) for line in lines) <= width
    assert all(line.isascii() for line in lines)


def test_each_bar_holds_the_chance_as_stated_and_both_ends():
    bars = driver_bars(driven(BUMPS, FOAM))
    assert [(round(bar.at_low, 2), round(bar.at_high, 2)) for bar in bars] == [
        (0.70, 0.21), (0.40, 0.38),
    ]  # fmt: skip
    for bar in bars:
        assert bar.left <= bar.stated <= bar.right


def test_a_bar_is_drawn_to_the_scale():
    bar = DriverBar("friction", stated=0.5, at_low=0.3, at_high=0.6)
    assert drawn_bar(bar, 10) == "...==|=..."
    assert drawn_bar(DriverBar("", 1.0, 1.0, 1.0), 10) == ".........|"
    assert drawn_bar(DriverBar("", 0.0, 0.0, 1.0), 10) == "|========="


def test_a_bar_never_leaves_the_scale():
    (bar,) = driver_bars(driven(driver(Assumption.BUMPS, BUMPS_RANGE, 0.9, -0.9)))
    assert (bar.left, bar.right) == (0.0, 1.0)


def test_the_strongest_is_named_with_both_its_ends_and_as_assumed():
    said = strongest_words(driven(FOAM, BUMPS))
    assert said.startswith("Most hangs on the bumps of the head (assumed): with heads 40% less")
    assert "70 of 100 heads" in said
    assert "with heads 40% more bumpy 21 of 100, instead of 46" in said


def test_a_driver_with_a_published_source_is_not_called_assumed():
    only = driver(Assumption.SURVEY, SURVEY_RANGE, 0.1, -0.1)
    assert strongest_words(driven(only)).startswith("Most hangs on the survey of heads: with")
    said = ranges_words((BUMPS, only))
    assert "all assumed: heads 40% less or 40% more bumpy." in said
    assert "From published tables: the survey of soldiers or workers alone." in said


def test_where_nothing_moves_the_chance_the_page_says_so():
    still = driver(Assumption.FRICTION, FRICTION_RANGE, 0.01, -0.01)
    assert "No single assumption" in strongest_words(driven(still))


def test_every_assumption_has_its_words():
    for assumption in Assumption:
        sides = SURVEY_RANGE if assumption is Assumption.SURVEY else FOAM_RANGE
        said = ranges_words((driver(assumption, sides, 0.1, -0.1),))
        assert "{}" not in said
        assert len(str(assumption)) <= 20


def test_beside_its_bar_stands_what_an_assumption_is_set_to_and_what_hardly_matters_is_named():
    still = driver(Assumption.FRICTION, FRICTION_RANGE, 0.005, -0.005)
    lines = driver_lines(driven(BUMPS, FOAM, SURVEY, still), 80)
    (bumps,) = (line for line in lines if line.startswith("bumps of the head"))
    assert bumps.endswith("40% less, 40% more")
    said = squeezed(lines)
    assert "25% softer, 30% stiffer" in said
    assert "soldiers, workers" in said
    assert "By under 2 of 100: friction." in said
    assert "Low and high are assumed, but for the survey of heads: published tables." in said
    assert "low, high (assumed)" in squeezed(driver_lines(driven(BUMPS), 80))
    assert "low, high (assumed)" not in said


def test_the_surveys_of_youths_are_named_too():
    said = ranges_words((driver(Assumption.SURVEY, YOUTH_SURVEY_RANGE, 0.1, -0.1),))
    assert "the survey of US children or UK children alone" in said


def test_a_page_without_counts_has_no_such_part():
    assert driver_lines(driven(), 80) == []
    assert "What drives" not in build_page(answered(TEXT), 80)
    assert most_hangs_on([proposed(TEXT)]) == ""


def test_the_build_page_shows_the_part_once():
    page = build_page(with_drivers(answered(TEXT), (BUMPS, FOAM)), 80)
    assert page.count("What drives this chance") == 1
    assert max(len(line) for line in page.splitlines()) <= 80


def test_the_roster_page_names_what_moves_most_of_the_chances():
    answer = with_drivers(answered(THREE), (BUMPS, FOAM), (BUMPS,), (FOAM,))
    page = " ".join(roster_page(answer).split())
    assert (
        "What moves these chances most is, for 2 of 3 players, the bumps of the head (assumed):"
        " heads 40% less or 40% more bumpy would change them by up to some 25 of 100." in page
    )
    assert max(len(line) for line in roster_page(answer).splitlines()) <= 80


def test_the_document_holds_every_driver_with_the_sources_of_its_settings():
    answer = with_drivers(answered(TEXT), (BUMPS, SURVEY))
    proposal = answer_document(answer).players[0].proposal
    assert proposal is not None
    bumps, survey = proposal.ranked[0].drivers
    assert (bumps.assumption, bumps.low.source) == ("bumps of the head", "assumed")
    assert (bumps.low.value, bumps.fits_low.value) == (0.6, 0.24)
    assert (survey.low.source, survey.high.source) == ("us_army_2012", "niosh_2003")
    assert proposal.ranked[1].drivers == ()


def measuring(
    *gains: MeasureGain, measured: bool = True, insides_known: bool = True
) -> RosterAnswer:
    answer = answered(TEXT)
    (each,) = answer.answers
    assert each.proposal is not None
    proposal = dataclasses.replace(
        each.proposal, next_measures=gains, measured=measured, insides_known=insides_known
    )
    return dataclasses.replace(answer, answers=(dataclasses.replace(each, proposal=proposal),))


def test_a_repeat_is_asked_for_as_one():
    again = MeasureGain("jaw_pad_width", 0.06, 0.01, 0.7, repeat=True)
    page = squeezed([build_page(measuring(again), 80)])
    assert "Measure again: width at the jaw pads. Two readings more should raise" in page
    table = roster_page(measuring(again))
    assert "jaw pad width again +6" in table
    assert "width at the jaw pads, once more: Teal" in table


def test_nothing_more_is_an_answer():
    vain = MeasureGain("brow_to_top", 0.01, 0.01, 1.0)
    assert "Nothing more is worth measuring" in build_page(measuring(vain), 80)
    assert "nothing more" in roster_page(measuring(vain))


def test_of_a_head_that_nobody_taped_the_tape_comes_first_whatever_it_adds_alone():
    tape = MeasureGain("tape_circumference", 0.002, 0.01, 1.0)
    height = MeasureGain("brow_to_top", 0.06, 0.01, 1.0)
    answer = measuring(height, tape, measured=False)
    page = squeezed([build_page(answer, 80)])
    assert "Measure first: tape around the head. Without it the size is a guess." in page
    assert "The others, of 100: brow to top +6." in page
    table = roster_page(answer)
    assert "tape around the head" in table
    assert "nothing more" not in table


def test_where_no_reading_helps_because_the_insides_are_guessed_the_shell_comes_first():
    vain = MeasureGain("brow_to_top", 0.01, 0.01, 1.0)
    answer = measuring(vain, insides_known=False)
    assert "The shell comes before the head" in squeezed([build_page(answer, 80)])
    assert "shell's insides first" in roster_page(answer)


def test_the_order_of_the_answer_stands_on_the_page():
    """A gain that cannot be told from a larger one comes first where it takes less time."""
    quick = MeasureGain("head_length", 0.05, 0.01, 0.7)
    slow = MeasureGain("brow_to_top", 0.055, 0.01, 1.0)
    page = squeezed([build_page(measuring(quick, slow), 80)])
    assert "Measure next: head length." in page
    assert "The others, of 100: brow to top +" in page


def test_a_cell_of_the_workbook_names_the_strongest_assumption_with_its_standing_and_its_size():
    assert strongest_short(driven(FOAM, BUMPS)) == f"{Assumption.BUMPS} (assumed), up to 25"
    assert strongest_short(driven()) == ""
