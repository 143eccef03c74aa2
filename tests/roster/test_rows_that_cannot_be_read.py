"""Each thing that goes wrong in a row is named by row and column, and the rest goes on."""

import pytest

from helmwright.roster import fraction_behind, read_roster

HEADER = "Name,Tape (in),Tape 2 (in),Length (in),Breadth (in)\n"
GOOD = "Wren,22 5/8,22 3/4,7 7/8,6 1/8\n"


def problems(row: str):
    roster = read_roster(f"{HEADER}{GOOD}{row}\n{GOOD}")
    assert [player.row for player in roster.players] == [2, 4]
    assert all(problem.row == 3 for problem in roster.problems)
    assert all(problem.who == "Teal" for problem in roster.problems)
    return roster.problems


def test_a_missing_space_in_a_fraction_is_asked_back():
    (problem,) = problems("Teal,221/8,22 1/8,,")
    assert (problem.column, problem.value) == ("Tape (in)", "221/8")
    assert "space" in problem.wrong
    assert problem.right == "22 1/8?"


def test_centimeters_in_an_inch_column_are_asked_back():
    (problem,) = problems("Teal,57.5,,,")
    assert "57.5 in is no head circumference" in problem.wrong
    assert problem.right == "57.5 cm?"


def test_length_and_breadth_in_each_others_columns_are_asked_back():
    (problem,) = problems("Teal,22 5/8,,6 1/8,7 7/8")
    assert problem.column == "Length (in) and Breadth (in)"
    assert "swapped" in problem.wrong
    assert problem.right == "length 7 7/8 and breadth 6 1/8?"


@pytest.mark.parametrize(
    ("date", "meant"),
    [
        ("6/1/2008", "6 1/8"),
        ("22/05/2008", "22 5/8"),
        ("2008-06-01", "6 1/8"),
        ("6/1/08", "6 1/8"),
        ("8-Jul", None),
        ("Jul-08", None),
        ("6/14/2026", None),
    ],
)
def test_a_date_that_was_a_fraction_is_named_and_read_back_where_it_can_be(date, meant):
    (problem,) = problems(f"Teal,22 5/8,,{date},")
    assert (problem.column, problem.value) == ("Length (in)", date)
    assert "date" in problem.wrong
    assert "Text" in problem.right
    assert (f"Was it {meant}?" in problem.right) == (meant is not None)
    assert fraction_behind(date) == meant


def test_a_day_number_of_a_date_is_named_too():
    (problem,) = problems("Teal,22 5/8,,39600,")
    assert "day number" in problem.wrong


def test_nonsense_is_named_with_an_example_of_what_would_do():
    (problem,) = problems("Teal,banana,,,")
    assert "22 5/8" in problem.right


def test_a_number_that_is_nobodys_is_named():
    (problem,) = problems("Teal,22 5/8,,9 3/4,")
    assert problem.column == "Length (in)"


def test_a_stray_comma_is_named_because_the_cells_stand_askew():
    (problem,) = problems("Teal,22 5/8,22 5/8,7 7/8,6 1/8,6 1/8")
    assert "more cells" in problem.wrong


def test_two_bad_cells_are_two_problems_of_one_row():
    assert [p.column for p in problems("Teal,221/8,,banana,")] == ["Tape (in)", "Length (in)"]


def test_readings_hopelessly_far_apart_are_not_averaged():
    (problem,) = problems("Teal,22 1/2,24 1/2,,")
    assert problem.column == "Tape (in) and Tape 2 (in)"
    assert "misread" in problem.wrong


def test_readings_a_little_far_apart_are_answered_and_ask_for_a_third():
    roster = read_roster(f"{HEADER}Teal,22 1/2,23,,\n")
    assert len(roster.players) == 1
    (notice,) = roster.notices
    assert "1/2 in apart" in notice.wrong
    assert "one more" in notice.right


def test_a_reading_that_does_not_go_with_the_others_is_named_and_answered():
    roster = read_roster(f"{HEADER}Teal,24 1/2,24 1/2,7 1/4,5 5/8\n")
    assert len(roster.players) == 1
    assert roster.notices
    assert all("Tape (in)" in notice.column for notice in roster.notices)


@pytest.mark.parametrize(
    ("cells", "column"), [("6.2,215,M", "Height"), ("6-2,950,M", "Weight"), ("6-2,215,Q", "Sex")]
)
def test_what_only_helps_is_left_out_with_a_notice(cells, column):
    roster = read_roster(f"Name,tape,Height,Weight,Sex\nTeal,22 5/8,{cells}\n")
    assert len(roster.players) == 1
    (notice,) = roster.notices
    assert notice.column == column
    assert "left out" in notice.wrong


def test_a_problem_reads_as_a_sentence_with_row_column_and_cell():
    (problem,) = problems("Teal,221/8,,,")
    assert str(problem) == (
        'Row 3 (Teal), Tape (in) "221/8": misses the space before the fraction. 22 1/8?'
    )
