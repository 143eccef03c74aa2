"""Fit cards: what they say of a player, and where it stands."""

import dataclasses
from itertools import pairwise

import pypdfium2
import pytest

from helmwright.catalogue import Zone, load_packaged
from helmwright.fit.outlook import FillOutlook, Spread
from helmwright.reports import fit_cards, roster_sheet
from helmwright.reports.paper.card import SCALE, card_data
from helmwright.reports.paper.room import is_crowded
from helmwright.reports.paper.typesetting import typeset
from helmwright.roster import RosterAnswer, answer_roster, read_roster
from tests.reports.answers import answered
from tests.reports.pdf import pad_figures, reading_boxes, words
from tests.reports.test_paper import ROSTER
from tests.reports.test_what_drives_a_chance import BUMPS, FOAM
from tests.roster.stand_in import stand_in


@pytest.fixture(scope="module")
def answer() -> RosterAnswer:
    return answered(ROSTER)


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


def test_a_remark_on_the_players_own_card_names_the_column_and_not_the_row():
    said = words(pypdfium2.PdfDocument(fit_cards(answered(MIXED)))[1])
    assert "Hair: fitted over" in said
    assert "Row 2" not in said


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
        pad_mm=(Spread(20.0, 17.5, 23.8, 20.0), Spread(20.0, 19.0, 25.4, 20.0)),
        gauge_kpa=Spread(3.0, 1.5, 5.0, 3.0),
        air_ml=Spread(40.0, 20.0, 60.0, 40.0),
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


def test_a_head_that_nobody_read_is_not_said_to_read_like_others():
    answer = answered("Name,height\nTeal,6-2\n")
    (each,) = answer.answers
    assert each.proposal is not None
    unread = dataclasses.replace(
        each, proposal=dataclasses.replace(each.proposal, measured=False, next_measures=())
    )
    said = [*pypdfium2.PdfDocument(fit_cards(dataclasses.replace(answer, answers=(unread,))))]
    front, back = words(said[0]), words(said[1])
    assert "heads such as this player may have fit it" in front
    assert "read like this one" not in front
    assert "nothing was read of the head" in front
    assert "no more than a tape" not in front
    assert "read over" not in front
    assert "None. Measure before choosing." in back


COVERED = """Name,tape,hair,tape over,glasses
Teal,22 5/8,braids,braids,yes
Dunlin,22 5/8,braids and skull cap,braids,no
Avocet,22 5/8,bare,bare,
"""


def test_the_head_of_a_card_says_what_was_read_over_and_what_is_worn():
    document = pypdfium2.PdfDocument(fit_cards(answered(COVERED)))
    assert "Teal glasses; worn underneath and read over: braids or locs" in words(document[0])
    assert "Avocet worn underneath and read over: nothing" in words(document[4])
    apart = "no glasses; worn underneath: braids or locs, skull cap; read over: braids or locs"
    assert apart in words(document[2])


def test_the_sheet_tells_of_unequal_pads_where_a_build_has_them(answer):
    even = words(pypdfium2.PdfDocument(roster_sheet(answer))[0])
    assert "left and right pads differ" not in even
    each = answer.answers[0]
    best = each.proposal.ranked[0]
    zones = tuple(
        dataclasses.replace(place, pad_mm=19.05) if place.zone is Zone.LEFT else place
        for place in best.zones
    )
    uneven = dataclasses.replace(
        each,
        proposal=dataclasses.replace(
            each.proposal, ranked=(dataclasses.replace(best, zones=zones),)
        ),
    )
    told = roster_sheet(dataclasses.replace(answer, answers=(uneven,)))
    assert "left and right pads differ" in words(pypdfium2.PdfDocument(told)[0])


def test_a_whole_number_looks_no_bigger_than_a_fraction(answer):
    thick = {Zone.FRONT: "1", Zone.CROWN: "7/8"}
    each = answer.answers[0]
    data = card_data(each, answer, answer.sheet, {}, 0)
    zones = [
        {**zone, "pad": text} for zone, text in zip(data["zones"], thick.values(), strict=False)
    ]
    pictures: dict[str, bytes] = {}
    data = {**card_data(each, answer, answer.sheet, pictures, 0), "zones": zones, "checks": []}
    content = {"title": "Pads", "scale": SCALE, "cards": [data]}
    page = pypdfium2.PdfDocument(typeset("card.typ", content, pictures))[0]
    whole, above, below = pad_figures(page)
    assert whole < above + below
    assert min(above, below) > 0.65 * whole


@pytest.mark.parametrize("times", [0, 4, 8, 12])
def test_a_front_of_many_words_is_set_closer_and_stays_on_its_side(answer, times):
    pictures: dict[str, bytes] = {}
    data = card_data(answer.answers[0], answer, answer.sheet, pictures, 0)
    card = {**data, "warnings": "Tape the head again before choosing. " * times}
    card["close"] = is_crowded(card, SCALE)
    assert card["close"] or times < 12
    content = {"title": "Words", "scale": SCALE, "cards": [card]}
    document = pypdfium2.PdfDocument(typeset("card.typ", content, pictures))
    assert len(document) == 2
    assert "This edge is ruled in true inches." in words(document[0])
    if times == 12:
        loose = {**content, "cards": [{**card, "close": False}]}
        assert len(pypdfium2.PdfDocument(typeset("card.typ", loose, pictures))) > 2
