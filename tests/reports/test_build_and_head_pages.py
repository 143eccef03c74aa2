"""One player's page and one head's page."""

import dataclasses

import pytest

from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import Build, Fault, FaultKind, MeasureGain, ShellChance
from helmwright.reports import build_page, head_page, reasons
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.picture import feel_bar, shell_picture
from helmwright.reports.remedy import remedy
from helmwright.reports.sentences import is_worth_taking
from tests.reports.answers import answered, proposed
from tests.roster.stand_in import SHEET, outlook

TEXT = "Name,tape,length,breadth\nTeal,22 5/8,7 7/8,6 1/8\n"


def squeezed(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("width", [60, 80, 120])
def test_pages_keep_their_width_and_say_the_cautions_once(width):
    answer = answered(TEXT)
    page = build_page(answer, width)
    assert max(len(line) for line in page.splitlines()) <= width
    assert max(len(line) for line in head_page(answer, width).splitlines()) <= width
    for caution in (*CAUTIONS, ASSUMED):
        assert squeezed(page).count(caution) == 1


def test_both_chances_are_told_apart_in_words():
    page = squeezed(build_page(answered(TEXT), 80))
    assert "A fitter finds everything right at the first try-on: 32 of 100." in page
    assert "It truly fits: 46 of 100." in page


def test_the_picture_holds_every_pad_of_the_build():
    pads = (0, 1, 2, 3, 4, 4, 0, 5)
    drawn = "\n".join(shell_picture(outlook(SHEET, Build(3, pads), fits=0.5, found=0.3)))
    for zone, pad, index in zip(ZONES, SHEET.pads, pads, strict=True):
        assert pad.labels[index].split(" in")[0] in drawn, zone


def test_the_bar_shares_twenty_marks_between_loose_snug_and_tight():
    place = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3, loose=0.2, tight=0.1)
    assert feel_bar(place.zones[0]) == "<<<<" + "=" * 14 + ">>"


@pytest.mark.parametrize(("loose", "tight"), [(1.0, 0.0), (0.0, 1.0), (0.525, 0.475), (0.0, 0.0)])
def test_the_bar_is_always_twenty_marks(loose, tight):
    place = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3, loose=loose, tight=tight)
    assert len(feel_bar(place.zones[0])) == 20


def test_a_changed_pad_is_explained_by_what_it_prevents():
    said = " ".join(reasons(proposed(TEXT)))
    assert "front 1 in instead of 7/8 in, which is loose in 30 of 100" in said


def test_a_proposal_outside_the_charts_shell_says_so():
    proposal = proposed(TEXT)
    other = outlook(SHEET, Build(6, SHEET.delivered), fits=0.5, found=0.3)
    moved = dataclasses.replace(proposal, ranked=(other,))
    assert "Shell 6 is proposed all the same" in " ".join(reasons(moved))


@pytest.mark.parametrize(
    ("fault", "index", "words"),
    [
        (Fault(FaultKind.TIGHT, Zone.REAR, 0.2), 2, "try the 3/4 in rear pad instead of 7/8 in"),
        (Fault(FaultKind.LOOSE, Zone.REAR, 0.2), 2, "try the 1 in rear pad instead of 7/8 in"),
        (Fault(FaultKind.GAP, Zone.REAR, 0.2), 4, "no thicker rear pad; try the next shell"),
        (Fault(FaultKind.HOT_SPOT, Zone.REAR, 0.2), 0, "no thinner rear pad; try the next shell"),
        (Fault(FaultKind.BROW_LOW, None, 0.2), 2, "try the 1 1/8 in crown pad instead of 7/8 in"),
        (Fault(FaultKind.BROW_HIGH, None, 0.2), 2, "try the 5/8 in crown pad instead of 7/8 in"),
    ],
)
def test_a_fault_comes_with_the_pad_to_try(fault, index, words):
    assert words in remedy(fault, Build(3, (index,) * 8), SHEET)


def test_a_gain_that_cannot_be_told_from_nothing_is_not_proposed():
    assert is_worth_taking(MeasureGain("brow_to_top", 0.05, 0.01))
    assert not is_worth_taking(MeasureGain("brow_to_top", 0.05, 0.03))
    assert not is_worth_taking(MeasureGain("brow_to_top", 0.01, 0.001))


def test_the_measure_to_take_next_comes_with_how_to_take_it():
    page = squeezed(build_page(answered(TEXT), 80))
    assert "How: Tape just above the brow ridges" in page


def test_a_head_outside_the_size_chart_is_said():
    proposal = dataclasses.replace(proposed(TEXT), shells=(ShellChance(6, 0.04),))
    said = " ".join(reasons(proposal))
    assert "names shell 6 for 4 of 100, no shell for 96 of 100" in said
    assert "outside what the maker made the model for" in said
    none = dataclasses.replace(proposed(TEXT), shells=())
    assert "names no shell for 100 of 100" in " ".join(reasons(none))


def test_a_helmet_that_floats_and_a_model_that_does_not_suit_are_said():
    proposal = proposed(TEXT, suits=False)
    loose = outlook(SHEET, Build(3, SHEET.delivered), fits=0.1, found=0.05, floats=0.4)
    said = " ".join(reasons(dataclasses.replace(proposal, ranked=(loose,))))
    assert "In 40 of 100" in said
    assert "too little to be held" in said
    assert "this model does not suit this head" in said


def test_a_fault_of_height_and_a_fault_of_a_zone_are_both_in_words():
    proposal = proposed(TEXT)
    for fault, words in (
        (Fault(FaultKind.BROW_LOW, None, 0.2), "too low on the brow (20 of 100)"),
        (Fault(FaultKind.HOT_SPOT, Zone.NAPE, 0.004), "nape hot spot (under 1 of 100)"),
    ):
        best = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3, faults=(fault,))
        assert words in " ".join(reasons(dataclasses.replace(proposal, ranked=(best,))))


def test_a_head_page_lists_what_was_read_before_what_was_filled_in():
    page = head_page(answered(TEXT), 80)
    filled = page.index("Not read")
    for words in ("tape around the head", "head length", "head breadth"):
        assert page.index(words) < filled
    for words in ("brow to top", "width at the jaw pads", "tape at brow ridges"):
        assert page.index(words) > filled
