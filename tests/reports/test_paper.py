"""Fit cards and the roster sheet: opened, read, measured."""

import dataclasses
import re

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from helmwright.fit.outlook import Spread
from helmwright.reports import fit_cards, roster_sheet
from helmwright.reports.cautions import CAUTIONS
from helmwright.reports.drawings import drawn_sections
from helmwright.reports.paper.card import SCALE, card_data, expected
from helmwright.reports.paper.typesetting import typeset
from helmwright.roster import RosterAnswer
from tests.reports.answers import answered
from tests.reports.pdf import INCH, alternatives, picture, runs, words

ROSTER = """Number,Player,Position,Tape (in),Tape 2 (in),Length (in),Breadth (in),Brow to top (in)
12,Avocet Brookside,quarterback,22 5/8,22 3/4,7 7/8,6 1/8,4 1/16
34,Łucja Sanderling-Ångström of the Long Marsh,,23 3/8,,,,
78,Dunlin Weirside,,241/8,24,8 3/8,6 1/2,
"""


@pytest.fixture(scope="module")
def answer() -> RosterAnswer:
    return answered(ROSTER)


@pytest.fixture(scope="module")
def cards(answer):
    return pypdfium2.PdfDocument(fit_cards(answer))


@pytest.fixture(scope="module")
def sheet(answer):
    return pypdfium2.PdfDocument(roster_sheet(answer))


def test_a_card_has_two_sides_of_half_a_letter(cards):
    assert [page.get_size() for page in cards] == [(5.5 * 72, 8.5 * 72)] * 4


def test_the_sheet_is_a_letter_on_its_side(sheet):
    assert [page.get_size() for page in sheet] == [(11 * 72, 8.5 * 72)]


def test_names_and_fractions_are_read_as_they_are_typed(cards, sheet):
    assert "Avocet Brookside" in words(cards[0])
    assert "Łucja Sanderling-Ångström of the Long Marsh" in words(cards[2])
    assert "22 5/8, 22 3/4" in words(cards[1])
    assert "4 1/16" in words(cards[1])
    assert "right from 3/4 to 1 1/4 in (the maker's instructions)" in words(cards[0])
    assert "7/8" in words(sheet[0])


def test_the_card_says_the_outlooks_numbers(cards, answer):
    best = answer.answers[0].proposal.ranked[0]
    front = words(cards[0])
    assert f"{100 * best.fits.value:.0f} of 100 heads that read like this one fit it" in front
    assert f"On {100 * best.found_right.value:.0f} of 100 a fitter finds" in front
    assert f"shell {best.build.shell}" in front
    # 4.0 mm, 2.5 kPa, loose in 10 and tight in 5 of 100, as the stand-in has it.
    assert front.count("3/16 in pressed 2.5 10 / 5") == 8
    assert "Jaw right loose (12 of 100)" in front
    assert "Ouzel (invented), not on sale" in front
    assert "snug is 0.7 to 6.0 kPa (assumed)" in front
    assert "seed 1" in words(cards[1])


def test_the_cautions_stand_where_the_hand_is(cards, sheet):
    for caution in CAUTIONS:
        assert caution in words(cards[0])
        assert caution in words(cards[2])
        assert caution in words(sheet[0])


def test_room_for_every_signature(cards):
    for who in ("player", "fitter", "guardian, if a minor", "date", "helmet no."):
        assert who in words(cards[0])


def test_a_head_that_only_a_tape_told_of_is_drawn_as_illustrative(cards):
    assert "Illustrative" not in words(cards[0])
    assert "Illustrative: no more than a tape was read" in words(cards[2])


def test_a_row_that_was_not_answered_has_a_line_and_its_remedy(sheet):
    told = words(sheet[0])
    assert "78 Dunlin Weirside not answered: see row 4 below" in told
    # What was mistyped stays as it was typed.
    assert '"241/8": misses the space before the fraction. 24 1/8?' in told


def test_documents_are_tagged_titled_and_in_english(cards, sheet):
    for document, title in ((cards, "Fit cards: "), (sheet, "Roster sheet")):
        assert pdfium.FPDFCatalog_IsTagged(document)
        assert document.get_metadata_value("Title").startswith(title)


def test_documents_promise_universal_access(answer):
    for content in (fit_cards(answer), roster_sheet(answer)):
        assert b"pdfuaid:part" in content
        assert re.search(rb"/Lang\s*\(en-US\)", content)


def test_drawings_are_told_to_whoever_cannot_see_them(cards, answer):
    told = alternatives(cards[0])
    sheet, each = answer.sheet, answer.answers[0]
    drawn = drawn_sections(each.head, sheet, each.proposal.ranked[0])
    assert [section.told for section in drawn] == told


def test_the_edge_is_a_true_inch_rule(cards, sheet):
    for page, inches in ((cards[0], 8), (cards[3], 8), (sheet[0], 8)):
        ink = picture(page)
        # Only whole inches reach so far from the rule's line, which stands at 0.46 in.
        long = np.flatnonzero(ink[:, round((0.46 - 0.21) * INCH)] > 0.3)
        marks = np.array([run.mean() for run in runs(long)])
        assert np.allclose(marks, INCH * np.arange(1, inches + 1), atol=1.0)
        short = np.flatnonzero(ink[:, round((0.46 - 0.02) * INCH)] > 0.3)
        assert len(runs(short)) == 8.5 * 16 - 1


def test_the_drawing_is_printed_to_its_scale(answer):
    each = answer.answers[0]
    pictures: dict[str, bytes] = {}
    data = card_data(each, answer, answer.sheet, pictures, 0)
    bare = [{**section, "labels": []} for section in data["sections"]]
    content = {"title": "Bare", "scale": SCALE, "cards": [{**data, "sections": bare}]}
    ink = picture(pypdfium2.PdfDocument(typeset("card.typ", content, pictures))[0])
    level = drawn_sections(each.head, answer.sheet, each.proposal.ranked[0])[1]
    expected_px = np.ptp(level.shell, axis=0) * SCALE * INCH / 25.4
    rows = ink[round(1.5 * INCH) : round(2.9 * INCH), round(3.1 * INCH) : round(5.3 * INCH)]
    columns = np.flatnonzero(rows.max(axis=0) > 0.5)
    assert columns.max() - columns.min() + 1 == pytest.approx(expected_px[0], abs=2.0)


def test_nothing_runs_off_a_page(cards, sheet):
    for document in (cards, sheet):
        for page in document:
            ink = picture(page)
            assert ink[:, -round(0.2 * INCH) :].max() < 0.1
            # Only the rule's own line reaches the bottom edge.
            assert ink[-round(0.15 * INCH) :, round(0.5 * INCH) :].max() < 0.1


def test_one_ink_prints_it(cards):
    page = cards[0].render(scale=2).to_numpy()[:, :, :3].astype(int)
    assert np.ptp(page, axis=2).max() <= 2


def test_a_name_that_no_font_can_show_is_printed_all_the_same():
    content = fit_cards(answered("Name,tape\nTeal \U0001f3c8,22 5/8\n"))
    document = pypdfium2.PdfDocument(content)
    assert len(document) == 2
    assert "Teal" in words(document[0])


@pytest.mark.parametrize(
    ("stroke", "told"),
    [
        (3.2, "1/8 in pressed"),
        (0.3, "touches"),
        (-0.7, "touches"),
        (-1.6, "gap 1/16 in"),
        (-25.4, "gap 1 in"),
    ],
)
def test_a_stroke_and_a_gap_are_told_in_words(stroke, told):
    assert expected(stroke) == told


def test_a_pad_that_most_heads_find_out_of_its_band_says_so(answer):
    each = answer.answers[0]
    best = each.proposal.ranked[0]
    zones = (
        dataclasses.replace(best.zones[0], pressure_kpa=Spread(6.3, 5.0, 8.0, 6.3), tight=0.6),
        dataclasses.replace(best.zones[1], pressure_kpa=Spread(0.4, 0.0, 1.0, 0.4), loose=0.6),
        # A few heads press very hard here; more find it loose.
        dataclasses.replace(
            best.zones[2], pressure_kpa=Spread(7.9, 0.1, 40.0, 7.9), loose=0.25, tight=0.2
        ),
        *best.zones[3:],
    )
    ranked = (dataclasses.replace(best, zones=zones),)
    odd = dataclasses.replace(each, proposal=dataclasses.replace(each.proposal, ranked=ranked))
    said = {zone["name"]: zone for zone in card_data(odd, answer, answer.sheet, {}, 0)["zones"]}
    assert (said["crown"]["pressure"], said["crown"]["band"]) == ("6.3", "tight")
    assert (said["front"]["pressure"], said["front"]["band"]) == ("0.4", "loose")
    assert (said["rear"]["pressure"], said["rear"]["band"]) == ("7.9", "")


def test_everybody_starts_on_a_sheet_of_their_own(answer):
    many = dataclasses.replace(answer, answers=answer.answers * 3)
    document = pypdfium2.PdfDocument(fit_cards(many))
    assert len(document) == 12
    assert all("helmet no." in words(document[at]) for at in range(0, 12, 2))


def test_a_long_roster_repeats_its_heading_on_every_page(answer):
    long = dataclasses.replace(
        answer,
        answers=tuple(
            dataclasses.replace(each, player=dataclasses.replace(each.player, row=10 + at))
            for at, each in enumerate(answer.answers * 25)
        ),
    )
    document = pypdfium2.PdfDocument(roster_sheet(long))
    assert len(document) > 1
    assert "likeliest fault" in words(document[1])
    assert f"page 2 of {len(document)}" in words(document[1])


def test_the_same_answer_is_the_same_paper_whenever_it_is_made(answer):
    content = fit_cards(answer)
    assert content == fit_cards(answer)
    for stamp in (b"CreationDate", b"ModDate", b"CreateDate", b"ModifyDate"):
        assert stamp not in content
