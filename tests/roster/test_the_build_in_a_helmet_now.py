"""What is in a helmet now, in words: read exactly, or refused with what the sheet has."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.anatomy import Reading, estimate_head
from helmwright.catalogue import load_packaged
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit import Build
from helmwright.reports.lengths import inches
from helmwright.roster import CellError, build_now
from tests.roster.stand_in import SHEET

HEAD = estimate_head([Reading("tape_circumference", 590.0)])


def pads(text: str) -> dict[Zone, int]:
    """Zones whose pad is not as delivered."""
    build = build_now(text, SHEET, HEAD)
    assert build is not None
    both = zip(ZONES, build.pads, SHEET.delivered, strict=True)
    return {zone: pad for zone, pad, delivered in both if pad != delivered}


def test_nothing_said_is_no_build():
    assert build_now("", SHEET, HEAD) is None


def test_zones_that_are_not_named_are_as_delivered():
    assert pads("crown 7/8, front 1, jaw left 1 1/8") == {Zone.FRONT: 3, Zone.JAW_LEFT: 5}


@pytest.mark.parametrize(
    "text", ["Sides: 1 in; JAW=1/2", "sides 25.4 mm, jaws 0.5", 'sides 1", jaw ½']
)
def test_both_sides_go_by_one_word_and_thicknesses_in_any_spelling(text):
    assert pads(text) == {Zone.LEFT: 3, Zone.RIGHT: 3, Zone.JAW_LEFT: 0, Zone.JAW_RIGHT: 0}


def test_the_shell_is_the_one_named_or_else_the_charts_likeliest():
    assert build_now("shell 6", SHEET, HEAD) == Build(6, SHEET.delivered)
    assert build_now("crown 7/8", SHEET, HEAD) == Build(4, SHEET.delivered)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("shell 9", "no shell 9; it has 1, 2, 3, 4, 5, 6"),
        ("crown 13/16", "no crown pad of 13/16 in; there are 3/8, 5/8, 7/8, 1 1/8, 1 3/8 in"),
        ("ear 7/8", "'ear' is no place in the shell; the places are crown"),
        ("crown", "no place with a thickness; write it like"),
        ("crown 118/8", "118/8 is not a fraction between 0 and 1"),
    ],
)
def test_what_the_sheet_does_not_have_is_refused_with_what_it_has(text, words):
    with pytest.raises(CellError) as refused:
        build_now(text, SHEET, HEAD)
    assert words in str(refused.value)


def test_zones_that_must_match_are_asked_for_together():
    matched = dataclasses.replace(SHEET, matched=((Zone.LEFT, Zone.RIGHT),))
    with pytest.raises(CellError, match="same thickness in left and right"):
        build_now("left 1", matched, HEAD)
    assert build_now("sides 1", matched, HEAD) is not None


@given(st.tuples(*(st.integers(0, len(pad.labels) - 1) for pad in SHEET.pads)), st.integers(1, 6))
def test_every_build_of_the_sheet_reads_back_from_its_own_words(indexes, shell):
    kinds = zip(SHEET.pads, indexes, strict=True)
    said = [f"{kind.zone} {inches(kind.thicknesses_mm[index])}" for kind, index in kinds]
    assert build_now(", ".join([f"shell {shell}", *said]), SHEET, HEAD) == Build(shell, indexes)


@given(st.text("crown frontleft 123/8½,;:=-", max_size=40))
def test_any_words_are_a_build_or_are_refused(text):
    try:
        build = build_now(text, SHEET, HEAD)
    except CellError:
        return
    assert build is None or len(build.pads) == len(ZONES)


def test_an_air_cell_is_named_as_air_and_no_foam_pad_is():
    cells = load_packaged("redstart")
    build = build_now("left air, rear 1, crown 5/8", cells, HEAD)
    assert build is not None
    assert [build.pads[ZONES.index(zone)] for zone in (Zone.LEFT, Zone.REAR, Zone.CROWN)] == [
        0,
        0,
        1,
    ]
    with pytest.raises(CellError, match="the crown pad is no air cell"):
        build_now("crown air", cells, HEAD)
    with pytest.raises(CellError, match="'nair' is no place with a thickness"):
        build_now("nair", cells, HEAD)
