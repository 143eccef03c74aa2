"""Position, glasses and a wished guard, as rosters write them."""

from dataclasses import replace

import pytest

from helmwright.catalogue import Position
from helmwright.roster import answer_roster, face_choice, face_wish, read_positions, read_roster
from helmwright.roster.player import Player
from tests.reports.answers import answered
from tests.roster.stand_in import SHEET, stand_in


def read(heading: str, cell: str):
    return read_roster(f"Name,Tape (in),{heading}\nTeal,22 5/8,{cell}\n")


@pytest.mark.parametrize(
    ("text", "positions"),
    [
        ("QB", (Position.QUARTERBACK,)),
        ("wide receiver", (Position.RECEIVER,)),
        ("OL/DL", (Position.OFFENSIVE_LINE, Position.DEFENSIVE_LINE)),
        ("C, G", (Position.OFFENSIVE_LINE,)),
        ("T.", (Position.OFFENSIVE_LINE,)),
        ("ILB & S", (Position.LINEBACKER, Position.DEFENSIVE_BACK)),
        ("K-P", (Position.KICKER, Position.PUNTER)),
        ("", ()),
        ("captain", ()),
        ("captain/te", (Position.TIGHT_END,)),
    ],
)
def test_positions_are_read_as_rosters_write_them(text, positions):
    assert read_positions(text) == positions


def test_every_position_can_be_written_by_its_own_name():
    assert [read_positions(str(position)) for position in Position] == [
        (position,) for position in Position
    ]


@pytest.mark.parametrize(
    ("cell", "worn"),
    [("yes", True), ("X", True), ("goggles", True), ("no", False), ("contacts", False), ("", None)],
)
def test_glasses_are_worn_or_not_or_nobody_said(cell, worn):
    (player,) = read("Glasses", cell).players
    assert player.glasses is worn


def test_a_word_that_says_nothing_of_glasses_is_left_out_with_a_notice():
    roster = read("Wears glasses", "sometimes")
    assert roster.players[0].glasses is None
    assert any(notice.value == "sometimes" for notice in roster.notices)


def test_a_wished_guard_is_kept_as_written():
    assert read("Face guard", "open; three bars").players[0].guard == "open; three bars"


def test_a_wish_is_what_the_row_says():
    wish = face_wish(Player(1, position="OL", glasses=True, guard="closed, four bars"))
    assert wish.positions == (Position.OFFENSIVE_LINE,)
    assert (wish.glasses, wish.guard) == (True, "closed, four bars")


def test_nothing_is_chosen_without_a_proposal_that_holds_faces():
    (answer,) = answered("Name,tape\nTeal,22 5/8\n").answers
    assert face_choice(answer, SHEET) is None
    assert face_choice(replace(answer, proposal=None), SHEET) is None
    assert face_choice(answer, None) is None


WITHOUT = replace(SHEET, face_guards=(), exclusions=())


def told_without_guards(cells: str) -> list[str]:
    roster = read_roster(f"Name,Tape (in),Position,Glasses,Face guard\nTeal,22 5/8,{cells}\n")
    answer = answer_roster(roster, WITHOUT, seed=1, propose=stand_in)
    return [each.wrong for each in answer.notices]


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        (",yes,", "glasses are not considered"),
        ("QB,yes,", "glasses and position are not considered"),
        (",,cage", 'the guard asked for, "cage", is not considered'),
        ("QB,yes,cage", 'glasses, position and the guard asked for, "cage", are not considered'),
        ("QB,no,", "positions are not considered"),
    ],
)
def test_a_sheet_without_guards_says_what_it_does_not_consider(cells, words):
    (wrong,) = told_without_guards(cells)
    assert wrong == f"no face guards on the sheet of {SHEET.model}: {words}"


@pytest.mark.parametrize("cells", [",,", ",no,"])
def test_where_nothing_was_said_of_guards_nothing_is(cells):
    assert told_without_guards(cells) == []


def test_with_guards_on_the_sheet_everything_is_considered():
    notices = answered("Name,Tape (in),Position,Glasses\nTeal,22 5/8,QB,yes\n").notices
    assert not any("face guards" in each.wrong for each in notices)
