"""Face guard and chin strap on the pages and in the document."""

import csv
import io
import json
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue import ModelSheet
from helmwright.fit.contact import Trial
from helmwright.fit.face import face_outlook
from helmwright.fit.face_outlook import FaceOutlook
from helmwright.fit.seating import pad_laws
from helmwright.fit.unknowns import draw_unknowns
from helmwright.fit.verdict import Bands
from helmwright.reports import answer_json, build_page, face_facts, roster_csv, roster_page
from helmwright.reports.face_cautions import (
    ASSUMED_FACE,
    ASSUMED_STRAP,
    CHECK_FACE,
    CHECK_STRAP,
)
from helmwright.reports.face_section import card_facts
from helmwright.reports.workbook.answer_columns import COLUMNS
from helmwright.roster import RosterAnswer, answer_roster, read_roster
from tests.fit.ordinary import delivered, men
from tests.roster.stand_in import SHEET, stand_in

HEADS = men(60)
HEADINGS = "Name,tape,Position,Glasses,Face guard"
BARE = "Teal,22 5/8,,,"


@cache
def seen() -> FaceOutlook:
    return outlook_on(SHEET)


def outlook_on(sheet: ModelSheet) -> FaceOutlook:
    rng = np.random.default_rng(3)
    unknowns = draw_unknowns(sheet, len(HEADS), rng)
    trial = Trial(
        sheet, sheet.shell(3), pad_laws(sheet), head_shapes(HEADS), unknowns, Bands.of(sheet)
    )
    return face_outlook(trial, HEADS, delivered(3, sheet), rng=rng)


def answer_to(*rows: str, sheet: ModelSheet = SHEET, face: FaceOutlook | None = None):
    text = "\n".join([HEADINGS, *rows]) + "\n"

    def with_face(estimate, sheet, *, rng, current=None):
        proposal = stand_in(estimate, sheet, rng=rng, current=current)
        return replace(proposal, face=face or seen())

    return answer_roster(read_roster(text), sheet, seed=1, propose=with_face)


def page_of(row: str, **given) -> str:
    return " ".join(build_page(answer_to(row, **given), 80).split())


def facts_of(row: str, **given) -> dict[str, str]:
    answer: RosterAnswer = answer_to(row, **given)
    return {fact.label: fact.says for fact in face_facts(answer.answers[0], answer)}


@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_page_keeps_its_width(width):
    page = build_page(answer_to("Teal,22 5/8,QB,yes,cage"), width)
    assert max(len(line) for line in page.splitlines()) <= width
    assert "Face guard and chin strap" in page


def test_the_page_says_what_is_assumed_and_that_the_head_decides():
    page = page_of(BARE)
    assert page.count(ASSUMED_FACE) == 1
    assert page.count(CHECK_FACE) == 1
    assert "the maker's instructions, which win" in CHECK_FACE


def test_a_guard_is_told_by_what_it_covers_and_leaves_open():
    facts = facts_of("Teal,22 5/8,QB,no,")
    assert facts["Face guard"].startswith("open, three bars. Covers mouth and jaw.")


def test_lengths_are_inches_first_and_the_nose_is_told_in_fingers_too():
    nose = facts_of("Teal,22 5/8,QB,no,")["Nose to the nearest bar"]
    mean = seen().guards[0].nose_mm.mean
    assert f"about {mean / 19.05:.1f} finger widths" in nose
    assert "Within 2 in to 2 3/4 in (survey; upper end assumed)" in nose


def test_the_makers_interval_is_said_to_be_the_makers():
    face = replace(seen(), nose_by_maker=True, nose_accept_mm=(50.8, 63.5))
    assert (
        "Within 2 in to 2 1/2 in (the maker)"
        in facts_of(BARE, face=face)["Nose to the nearest bar"]
    )


def test_a_refused_choice_stands_first_with_its_reason():
    facts = facts_of('Teal,22 5/8,QB,,"closed, four bars"')
    assert next(iter(facts)) == "Asked for and refused"
    assert "not for quarterback" in facts["Asked for and refused"]


def test_an_allowed_choice_is_the_one_that_is_told_in_full():
    facts = facts_of('Teal,22 5/8,LB,yes,"Half closed, four bars"')
    assert facts["Asked for"] == "Half closed, four bars: allowed."
    assert facts["Face guard"].startswith("half closed, four bars.")


def test_what_nobody_said_is_asked_for():
    assert "position and glasses; no guard is left out" in facts_of(BARE)["Not said"]
    assert "Not said" not in facts_of("Teal,22 5/8,QB,no,")


def test_where_only_the_position_is_in_the_way_a_question_is_left_for_the_maker():
    said = facts_of("Teal,22 5/8,OL,yes,")["Face guard"]
    assert said == (
        "none of this sheet may be used. But for the position it could be open, three bars or"
        " half closed, four bars: ask the maker."
    )


def test_usual_places_are_said_to_be_assumed():
    guards = tuple(replace(guard, places=()) for guard in SHEET.face_guards)
    sheet = replace(SHEET, face_guards=guards)
    said = facts_of("Teal,22 5/8,QB,no,", sheet=sheet, face=outlook_on(sheet))
    assert "no places of bars: usual ones assumed" in said["Face guard"]


def test_a_strap_is_told_with_its_cup_its_lengths_and_what_it_holds():
    facts = facts_of("Teal,22 5/8,QB,no,")
    assert facts["Chin strap"].startswith("soft cup, four points, cup ")
    lengths = facts["Start, cup to snap"]
    assert "high 5" in lengths
    assert "left and right alike" in lengths
    assert lengths.endswith("then equal pull.")
    assert "10 lb up at the back takes" in facts["Against rolling off"]


def test_a_strap_without_snaps_is_set_on_the_head():
    straps = tuple(replace(strap, snaps=(), chin_arcs_mm=()) for strap in SHEET.chin_straps)
    sheet = replace(SHEET, chin_straps=straps)
    said = facts_of(BARE, sheet=sheet, face=outlook_on(sheet))["Chin strap"]
    assert "the sheet does not say which cup goes with which chin" in said
    assert "set it on the head, all points alike" in said


def test_a_bar_in_the_line_of_sight_is_named():
    first = replace(seen().guards[0], level_clear=0.4, level_bar=1, sight=0.4)
    face = replace(seen(), guards=(first,))
    sheet = replace(SHEET, face_guards=(first.guard,))
    said = facts_of(BARE, sheet=sheet, face=face)["Sight"]
    assert "straight ahead free in 40 of 100 heads (bar 1 from the top stands in it" in said


def test_sight_is_told_only_where_something_stands_in_it():
    free = replace(seen().guards[0], level_clear=1.0, sight=1.0)
    sheet = replace(SHEET, face_guards=(free.guard,))
    assert "Sight" not in facts_of(BARE, sheet=sheet, face=replace(seen(), guards=(free,)))
    low = replace(free, sight=0.5)
    said = facts_of(BARE, sheet=sheet, face=replace(seen(), guards=(low,)))["Sight"]
    assert "25 degrees up too in 50 of 100" in said


def test_a_sheet_with_straps_alone_speaks_of_no_eyes_and_bars():
    sheet = replace(SHEET, face_guards=(), exclusions=())
    page = page_of(BARE, sheet=sheet, face=outlook_on(sheet))
    assert page.count(ASSUMED_STRAP) == 1
    assert page.count(CHECK_STRAP) == 1
    assert ASSUMED_FACE not in page
    answer = answer_to(BARE, sheet=sheet, face=outlook_on(sheet))
    assert "eye" not in " ".join(card_facts(answer.answers[0], answer))


def test_the_section_is_short_enough_to_be_read():
    page = build_page(answer_to(BARE), 80)
    section = page.partition("Face guard and chin strap")[2].partition("Builds, best first")[0]
    assert len(section.splitlines()) <= 20


def test_a_sheet_with_neither_guards_nor_straps_has_no_section():
    bare = replace(SHEET, face_guards=(), chin_straps=(), exclusions=())
    face = replace(seen(), guards=(), straps=())
    assert facts_of(BARE, sheet=bare, face=face) == {}
    assert "Face guard" not in page_of(BARE, sheet=bare, face=face)


def test_a_card_has_room_for_guard_nose_strap_and_what_to_check():
    answer = answer_to("Teal,22 5/8,QB,no,")
    guard, strap, check = card_facts(answer.answers[0], answer)
    assert guard.startswith("Face guard open, three bars. Nose to bar: right from 2 in to 2 3/4")
    assert "survey; upper end assumed" in guard
    assert "Start, cup to snap: high 5" in strap
    assert "assumed" in check
    refused = answer_to("Teal,22 5/8,QB,no,cage")
    assert card_facts(refused.answers[0], refused)[0].startswith("Asked for and refused: cage")
    nobody = answer_to("Teal,22 5/8,OL,yes,")
    assert "But for the position" in card_facts(nobody.answers[0], nobody)[0]


def test_the_roster_page_names_only_those_whose_guard_is_to_be_settled():
    rows = (
        "Teal,22 5/8,QB,no,",
        'Coot,22 5/8,QB,no,"closed, four bars"',
        "Rail,22 5/8,LB,yes,",
        "Sora,22 5/8,OL,yes,",
        "Wren,22 5/8,K,no,",
    )
    page = " ".join(roster_page(answer_to(*rows), 100).split())
    settle = page.partition("Face guards to settle")[2].partition("Worth measuring")[0]
    assert "Coot: open, three bars. Refused: closed, four bars: the sheet makes it for" in settle
    assert "Rail (glasses): half closed, four bars." in settle
    assert "Sora (glasses): none of this sheet may be used. But for the position it" in settle
    assert not any(who in settle for who in ("Teal:", "Wren:"))


def test_the_document_holds_everything_the_page_says():
    document = json.loads(answer_json(answer_to('Teal,22 5/8,QB,yes,"closed, four bars"')))
    face = document["players"][0]["face"]
    assert [guard["name"] for guard in face["guards"]] == ["open, three bars"]
    assert face["asked_for_refused"] is True
    assert {each["name"] for each in face["refused"]} == {
        "closed, four bars",
        "half closed, four bars",
    }
    assert face["nose_accept_mm"] == pytest.approx([2.0 * 25.4, 2.75 * 25.4])
    assert face["nose_accept_by_maker"] is False
    assert face["guards"][0]["nose_right"] == seen().guards[0].nose_right
    assert face["guards"][0]["load"]["about_neck_joint_nm"]["mean"] > 0
    assert len(face["straps"][0]["points"]) == 2
    assert (face["check"], face["assumed"]) == (CHECK_FACE, ASSUMED_FACE)


def test_a_head_alone_has_no_face_in_the_document():
    answer = answer_to(BARE)
    (each,) = answer.answers
    bare = replace(answer, answers=(replace(each, proposal=None),))
    assert json.loads(answer_json(bare))["players"][0]["face"] is None


def test_a_workbook_says_so_too_where_the_guard_that_was_asked_for_is_refused():
    for wish, told in (("no such guard", "; asked for and refused: no such guard"), ("", "")):
        answer = answer_to(f"Teal,22 5/8,QB,,{wish}")
        (each,) = answer.answers
        assert each.proposal is not None
        (column,) = (c for c in COLUMNS if c.heading == "face guard")
        cell = column.cell(each, each.proposal, answer.sheet)
        assert cell == f"open, three bars{told}"


def test_a_table_for_other_programs_names_guard_and_strap_in_the_workbooks_words():
    answer = answer_to("Teal,22 5/8,QB,no,")
    (each,) = answer.answers
    line = next(csv.DictReader(io.StringIO(roster_csv(answer), newline="")))
    for column in COLUMNS:
        if column.heading in ("face guard", "chin strap"):
            said = column.cell(each, each.proposal, answer.sheet)
            assert said
            assert line[column.heading] == said
