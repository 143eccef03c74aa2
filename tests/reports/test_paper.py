"""Fit cards and the roster sheet: opened, read, measured."""

import ctypes
import dataclasses
import re
from itertools import pairwise

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from helmwright.catalogue import Zone, load_packaged
from helmwright.fit.outlook import FillOutlook, Spread
from helmwright.reports import fit_cards, roster_sheet
from helmwright.reports.cautions import CAUTIONS
from helmwright.reports.drawings import drawn_sections
from helmwright.reports.paper.card import SCALE, card_data, expected
from helmwright.reports.paper.typesetting import typeset
from helmwright.roster import RosterAnswer, answer_roster, read_roster
from tests.reports.answers import answered
from tests.reports.test_what_drives_a_chance import BUMPS, FOAM
from tests.roster.stand_in import stand_in

ROSTER = """Number,Player,Position,Tape (in),Tape 2 (in),Length (in),Breadth (in),Brow to top (in)
12,Avocet Brookside,quarterback,22 5/8,22 3/4,7 7/8,6 1/8,4 1/16
34,Łucja Sanderling-Ångström of the Long Marsh,,23 3/8,,,,
78,Dunlin Weirside,,241/8,24,8 3/8,6 1/2,
"""
INCH = 288
"""Pixels of an inch at a scale of 4."""


@pytest.fixture(scope="module")
def answer() -> RosterAnswer:
    return answered(ROSTER)


@pytest.fixture(scope="module")
def cards(answer):
    return pypdfium2.PdfDocument(fit_cards(answer))


@pytest.fixture(scope="module")
def sheet(answer):
    return pypdfium2.PdfDocument(roster_sheet(answer))


def words(page):
    return " ".join(page.get_textpage().get_text_range().split())


def picture(page):
    """Ink of a page, 0 to 1, at INCH pixels an inch."""
    return 1.0 - page.render(scale=INCH / 72).to_numpy()[:, :, :3].mean(axis=2) / 255.0


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
    assert front.count("3/16 in pressed 2.5") == 8  # 4.0 mm and 2.5 kPa, as the stand-in has it
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


def alternatives(page):
    """Alternative texts of a page, in reading order."""
    tree = pdfium.FPDF_StructTree_GetForPage(page)
    found: list[str] = []
    for at in range(pdfium.FPDF_StructTree_CountChildren(tree)):
        follow(pdfium.FPDF_StructTree_GetChildAtIndex(tree, at), found)
    pdfium.FPDF_StructTree_Close(tree)
    return found


def follow(element, found):
    if not element:
        return
    size = pdfium.FPDF_StructElement_GetAltText(element, None, 0)
    if size > 2:
        held = ctypes.create_string_buffer(size)
        pdfium.FPDF_StructElement_GetAltText(element, held, size)
        found.append(held.raw.decode("utf-16-le").rstrip("\0"))
    for at in range(pdfium.FPDF_StructElement_CountChildren(element)):
        follow(pdfium.FPDF_StructElement_GetChildAtIndex(element, at), found)


def test_the_edge_is_a_true_inch_rule(cards, sheet):
    for page, inches in ((cards[0], 8), (cards[3], 8), (sheet[0], 8)):
        ink = picture(page)
        # Only whole inches reach so far from the rule's line, which stands at 0.46 in.
        long = np.flatnonzero(ink[:, round((0.46 - 0.21) * INCH)] > 0.3)
        marks = np.array([run.mean() for run in runs(long)])
        assert np.allclose(marks, INCH * np.arange(1, inches + 1), atol=1.0)
        short = np.flatnonzero(ink[:, round((0.46 - 0.02) * INCH)] > 0.3)
        assert len(runs(short)) == 8.5 * 16 - 1


def runs(rows):
    """Rows that follow one another, together."""
    return np.split(rows, np.flatnonzero(np.diff(rows) > 1) + 1)


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
        dataclasses.replace(best.zones[0], pressure_kpa=Spread(6.3, 5.0, 8.0), tight=0.6),
        dataclasses.replace(best.zones[1], pressure_kpa=Spread(0.4, 0.0, 1.0), loose=0.6),
        # A few heads press very hard here; more find it loose.
        dataclasses.replace(
            best.zones[2], pressure_kpa=Spread(7.9, 0.1, 40.0), loose=0.25, tight=0.2
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


MIXED = """Name,tape,tape 2,length,breadth,brow to top,jaw,hair,measured by
Avocet Brookside,22 5/8,22 1/2,7 3/4,6 1/8,4 1/16,5 1/16,braids and skull cap,Ida Whimbrel
"""
LIGHTLY = """Name,tape,light tape,length,breadth,jaw,hair,measured by
Avocet Brookside,22 5/8,23,7 3/4,6 1/8,5 1/16,braids,Ida Whimbrel
"""


def test_readings_stay_legible_where_each_says_over_what_it_was_taken():
    driven = changed(answered(LIGHTLY), drivers=(BUMPS, FOAM))
    page = pypdfium2.PdfDocument(fit_cards(driven))[1]
    told = words(page)
    assert "All: over braids or locs; by Ida Whimbrel." in told
    assert "tape around the head light 23 584" in told
    assert "head length 7 3/4 197" in told
    boxes = reading_boxes(page, ("22 5/8", "7 3/4", "6 1/8", "5 1/16"))
    # Each number stands on one line, and no two of them on each other.
    assert all(box[3] - box[1] < 14.0 for box in boxes)
    assert all(above[1] >= below[3] for above, below in pairwise(boxes))


def reading_boxes(page, numbers):
    """Left, bottom, right, top of each text [pt]."""
    text = page.get_textpage()
    found = []
    for number in numbers:
        start, count = text.search(number).get_next()
        corners = np.array([text.get_charbox(at) for at in range(start, start + count)])
        found.append((*corners[:, :2].min(axis=0), *corners[:, 2:].max(axis=0)))
    return found


def test_what_all_readings_were_taken_over_is_said_once():
    said = words(pypdfium2.PdfDocument(fit_cards(answered(MIXED)))[1])
    assert "All: over braids or locs, skull cap; by Ida Whimbrel." in said
    assert said.count("Ida Whimbrel") == 1


def test_readings_of_two_people_say_by_whom_each_was_taken():
    two = "Name,tape,tape 2,length,measured by,measured by 2\nTeal,22 5/8,22 1/2,7 3/4,Ada,Bo\n"
    said = words(pypdfium2.PdfDocument(fit_cards(answered(two)))[1])
    assert "All: over hair not stated." in said
    assert "tape around the head by Ada 22 5/8" in said
    assert "tape around the head by Bo 22 1/2" in said


def test_a_date_is_no_fraction(answer):
    told = dataclasses.replace(answer.answers[0].player, position="measured 1/2/2026, front 1/2 in")
    dated = dataclasses.replace(answer.answers[0], player=told)
    page = pypdfium2.PdfDocument(fit_cards(dataclasses.replace(answer, answers=(dated,))))[0]
    assert "measured 1/2/2026, front 1/2 in" in words(page)
    text = page.get_textpage()
    steps = []
    for wanted in ("1/2/2026", "1/2 in"):
        start, _ = text.search(wanted).get_next()
        steps.append(text.get_charbox(start + 2)[0] - text.get_charbox(start)[0])
    # Above and below in a fraction stand at one place; the numbers of a date side by side.
    assert steps[0] > 4.0
    assert steps[1] < 1.0


def test_the_card_of_somebody_without_name_number_or_row_names_no_row(answer):
    each = answer.answers[0]
    nobody = dataclasses.replace(each.player, row=0, name="", number="")
    said = card_data(dataclasses.replace(each, player=nobody), answer, answer.sheet, {}, 0)
    assert said["name"] == "This player"


def test_no_card_is_made_of_nobody(answer):
    nobody = dataclasses.replace(answer, answers=())
    with pytest.raises(ValueError, match="a fit card needs a proposal"):
        fit_cards(nobody)
    with pytest.raises(ValueError, match="needs a model sheet"):
        roster_sheet(dataclasses.replace(answer, sheet=None))


def changed(answer, **fields):
    """The answer with its first player's best build changed."""
    each = answer.answers[0]
    best = dataclasses.replace(each.proposal.ranked[0], **fields)
    proposal = dataclasses.replace(each.proposal, ranked=(best, *each.proposal.ranked[1:]))
    return dataclasses.replace(answer, answers=(dataclasses.replace(each, proposal=proposal),))


def test_what_drives_the_chance_stands_on_the_back_with_its_bars(answer):
    driven = changed(answer, drivers=(BUMPS, FOAM))
    page = pypdfium2.PdfDocument(fit_cards(driven))[1]
    told = words(page)
    assert "What drives this chance" in told
    assert "Most hangs on the bumps of the head (assumed)" in told
    each = driven.answers[0]
    (bumps, foam) = card_data(each, driven, driven.sheet, {}, 0)["drivers"]["bars"]
    stated = each.proposal.ranked[0].fits.value
    assert bumps["left"] == pytest.approx(stated - 0.25)
    assert bumps["right"] == pytest.approx(stated + 0.24)
    assert foam["right"] == pytest.approx(stated)  # both its ends lie below
    assert f"bumps of the head {100 * stated + 24:.0f} {100 * stated - 25:.0f}" in told


def test_an_air_cell_is_told_by_what_filling_should_come_to(answer):
    fill = FillOutlook(
        zones=(Zone.LEFT, Zone.RIGHT),
        pad_mm=(Spread(20.0, 17.5, 23.8), Spread(20.0, 19.0, 25.4)),
        gauge_kpa=Spread(3.0, 1.5, 5.0),
        air_ml=Spread(40.0, 20.0, 60.0),
        strokes=None,
        full=0.0,
        flat=0.0,
    )
    filled = changed(answer, fills=(fill,))
    said = card_data(filled.answers[0], filled, filled.sheet, {}, 0)["zones"]
    expect = {zone["name"]: zone["expect"] for zone in said}
    assert expect["left"] == "fill: 11/16 to 15/16 in"
    assert expect["right"] == "fill: 3/4 to 1 in"
    assert expect["front"] == "3/16 in pressed"


def test_a_helmet_of_which_insides_are_guessed_says_so_on_the_front():
    guessed = load_packaged("siskin")
    roster = read_roster("Name,Age,tape\nSiskin Reedbank,11,20 3/4\n")
    told = answer_roster(roster, guessed, seed=1, propose=stand_in)
    each = told.answers[0]
    assert each.proposal is not None
    proposal = dataclasses.replace(each.proposal, insides_known=False)
    answer = dataclasses.replace(told, answers=(dataclasses.replace(each, proposal=proposal),))
    document = pypdfium2.PdfDocument(fit_cards(answer))
    assert "Insides not measured: usual ones assumed." in words(document[0])
    assert "Youths: eyebrow, jaw and chin are carried down from adults" in words(document[1])
    assert "11 years" in words(document[0])
