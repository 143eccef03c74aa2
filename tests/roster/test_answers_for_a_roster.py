"""A whole roster answered: in order, the same every time, whatever the number of workers."""

import pytest

from helmwright.catalogue.zone import Zone
from helmwright.roster import answer_roster, read_roster
from tests.roster.stand_in import SHEET, stand_in

TEXT = "No,Name,tape\n" + "".join(f"{n},P{n},22 {n % 7 + 1}/8\n" for n in range(30))


def test_answers_come_in_the_order_of_the_file_on_any_number_of_workers():
    roster = read_roster(TEXT)
    one = answer_roster(roster, SHEET, seed=3, propose=stand_in, workers=1)
    four = answer_roster(roster, SHEET, seed=3, propose=stand_in, workers=4)
    assert [a.player for a in one.answers] == list(roster.players)
    assert [a.proposal for a in one.answers] == [a.proposal for a in four.answers]


def test_another_seed_draws_other_heads():
    roster = read_roster(TEXT)
    one = answer_roster(roster, SHEET, seed=3, propose=stand_in)
    other = answer_roster(roster, SHEET, seed=4, propose=stand_in)
    assert [a.proposal for a in one.answers] != [a.proposal for a in other.answers]


def test_a_row_put_right_changes_nobody_elses_answer():
    bad = answer_roster(read_roster("Name,tape\nA,221/8\nB,23\n"), SHEET, seed=1, propose=stand_in)
    good = answer_roster(
        read_roster("Name,tape\nA,22 1/8\nB,23\n"), SHEET, seed=1, propose=stand_in
    )
    assert bad.answers[0].proposal == good.answers[1].proposal
    assert (bad.asked, good.asked) == (2, 2)


def test_a_head_gets_the_same_answer_in_any_row_and_with_its_columns_in_any_order():
    first = read_roster("Name,tape,length,breadth\nA,23,8,6 1/8\n")
    other = read_roster("Name,tape,breadth,length\nB,22,,\nA,23,6 1/8,8\n")
    alone, among = (answer_roster(r, SHEET, seed=1, propose=stand_in) for r in (first, other))
    assert alone.answers[0].proposal == among.answers[1].proposal


def test_each_player_done_is_told_once():
    ticks: list[int] = []
    answer_roster(read_roster(TEXT), SHEET, seed=1, propose=stand_in, tick=lambda: ticks.append(1))
    assert len(ticks) == 30


def test_a_defect_over_one_player_is_logged_and_the_others_are_answered(caplog):
    def failing(estimate, sheet, **keywords):
        if estimate.readings[0].value_mm > 600.0:
            raise RuntimeError("the contact has no rest")
        return stand_in(estimate, sheet, **keywords)

    roster = read_roster("Name,tape\nTeal,22 5/8\nCoot,24\nWren,22\n")
    ticks: list[int] = []
    answer = answer_roster(roster, SHEET, seed=1, propose=failing, tick=lambda: ticks.append(1))
    assert [each.player.name for each in answer.answers] == ["Teal", "Wren"]
    (problem,) = answer.problems
    assert (problem.row, problem.who) == (3, "Coot")
    assert "RuntimeError: the contact has no rest" in problem.wrong
    assert (answer.asked, len(ticks)) == (3, 3)
    assert "Coot" in caplog.text
    assert "Traceback" in caplog.text


def test_an_interruption_is_no_problem_of_a_player():
    def interrupted(*_args, **_keywords):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        answer_roster(read_roster("Name,tape\nTeal,22\n"), SHEET, seed=1, propose=interrupted)


def test_the_build_now_of_a_row_is_what_its_changes_are_counted_from():
    roster = read_roster(
        'Name,tape,Build now\nTeal,22 5/8,"shell 3, front 1"\nCoot,22 5/8,\nWren,22 5/8,crown 9\n'
        "Coot,221/8,\n"
    )
    answer = answer_roster(roster, SHEET, seed=1, propose=stand_in)
    teal, coot = answer.answers
    assert teal.proposal is not None
    assert coot.proposal is not None
    assert teal.proposal.ranked[0].changes == ()
    assert coot.proposal.ranked[0].changes == (Zone.FRONT,)
    assert coot.current is None
    problem, other = answer.problems
    assert (problem.row, problem.column, problem.value) == (4, "build now", "crown 9")
    assert other.row == 5
