"""What the coverage of a model says to a person."""

from dataclasses import replace

import pytest

from helmwright.catalogue import Zone
from helmwright.fit.coverage import (
    AddedThickness,
    BorderCoverage,
    Coverage,
    Hole,
    Share,
    ShellCoverage,
)
from helmwright.fit.outlook import FaultKind
from helmwright.reports.coverage_page import coverage_page

HOLES = (Hole(FaultKind.BROW_HIGH, None, 0.04), Hole(FaultKind.TIGHT, Zone.CROWN, 0.02))
SHELL = ShellCoverage(2, 0.6, 200, Share(0.2, 0.03), Share(0.94, 0.017), HOLES)
FULL = ShellCoverage(3, 0.39, 200, Share(0.25, 0.03), Share(1.0, 0.0025), ())
BORDER = BorderCoverage(
    2, 3, 568.3, 574.7, 0.12, 100, Share(0.9, 0.03), Share(0.93, 0.03), Share(0.97, 0.02)
)
ADDED = AddedThickness((Zone.JAW_LEFT, Zone.JAW_RIGHT), 31.75, 0.34)
COVERAGE = Coverage((SHELL, FULL), (BORDER,), 0.008, 0.002, ADDED, guessed=False, ages=None)


def squeezed(coverage: Coverage) -> str:
    return " ".join(coverage_page(coverage, 7, 80).split())


@pytest.mark.parametrize("width", [60, 80, 100])
def test_the_page_keeps_its_width(width):
    assert max(map(len, coverage_page(COVERAGE, 1, width).splitlines())) <= max(width, 80)


def test_each_shell_says_what_it_fits_and_what_is_in_the_way():
    page = coverage_page(COVERAGE, 7, 80)
    assert "2      60        20            94 +-3          brow high 4, crown tight 2" in page
    assert "3      39        25            100 +-1         nothing" in page


def test_in_all_is_weighed_by_how_many_heads_each_shell_has():
    assert COVERAGE.covered == pytest.approx((0.6 * 0.94 + 0.39) / 0.99)
    assert "Of all heads in the chart, some build fits 96 of 100." in squeezed(COVERAGE)


def test_heads_between_two_bands_are_told_in_both_shells():
    said = "Between shells 2 and 3, 22 3/8 to 22 5/8 in, lie 12 of 100 heads: some build fits 90 in"
    assert said in squeezed(COVERAGE)
    assert "93 in the larger, 97 of 100 in one or the other" in squeezed(COVERAGE)


def test_of_a_few_heads_no_share_is_told():
    few = replace(
        COVERAGE,
        shells=(SHELL, replace(FULL, heads=2, covered=Share(0.5, 0.35))),
        borders=(replace(BORDER, heads=1, in_either=Share(1.0, 0.5)),),
    )
    page = squeezed(few)
    assert "3 39 too few heads" in page
    assert "50 +-" not in page
    assert "lie 12 of 100 heads: too few to say what fits them." in page


def test_the_thickness_that_would_help_is_named_with_whose_word_decides():
    page = squeezed(COVERAGE)
    assert "at jaw left and jaw right: 1 1/4 in (32 mm) would fit 34 of 100 of the heads" in page
    assert "only if the maker offers it" in page


@pytest.mark.parametrize("added", [None, replace(ADDED, closes=0.02)])
def test_a_thickness_that_helps_little_is_not_named(added):
    page = squeezed(replace(COVERAGE, added=added))
    assert "No single further thickness would help enough" in page
    assert "1 1/4 in" not in page


def test_the_page_says_whose_heads_and_what_is_assumed():
    assert "Heads of adults, one in twenty a woman's (assumed mix)" in squeezed(COVERAGE)
    youth = squeezed(replace(COVERAGE, ages=(8.0, 14.0)))
    assert "Heads of players of 8 to 14 years" in youth
    assert "which are assumed" in youth
    assert "seed 7" in youth


def test_guessed_insides_are_marked_on_the_page():
    mark = "Insides not measured: usual ones assumed"
    assert mark in squeezed(replace(COVERAGE, guessed=True))
    assert mark not in squeezed(COVERAGE)
