"""Ages, births, grades and days of measuring in a roster."""

from datetime import date

import pytest

from helmwright.anatomy import Sex
from helmwright.catalogue import load_packaged
from helmwright.roster import (
    Player,
    Roster,
    answer_player,
    estimate_player,
    read_heading,
    read_roster,
)
from helmwright.roster.answer import _digest
from helmwright.roster.cell import CellError
from helmwright.roster.columns import Field
from helmwright.roster.day import completed_years, read_day
from tests.roster.stand_in import stand_in

TODAY = date(2026, 8, 15)
SCHOOL = (8.0, 14.0)


def roster(heading: str, cell: str, **said) -> Roster:
    text = f"Name\t{heading}\ttape\nTeal\t{cell}\t21\n"
    return read_roster(text, **{"today": TODAY, **said})


def player(heading: str, cell: str, **said) -> Player:
    (each,) = roster(heading, cell, **said).players
    return each


@pytest.mark.parametrize(
    ("cell", "years"),
    [
        *(("12", 12.0), ("12 years", 12.0), ("12 yrs", 12.0), ("12 y", 12.0), ("12.0", 12.0)),
        *(("11.4", 11.4), ("11 y 6 m", 11.0 + 6.5 / 12.0), ("22", 22.0)),
    ],
)
def test_an_age_is_completed_years_or_an_exact_age(cell, years):
    read = player("Age", cell)
    assert read.age_years == pytest.approx(years)
    assert read.ages is None


def test_a_range_of_ages_is_kept_as_one():
    assert player("Age", "8 to 10").ages == (8.0, 10.0)


@pytest.mark.parametrize(
    "heading", ["Age", "AGE (years)", "Age in years", "Player age", "Age (yrs)"]
)
def test_headings_of_an_age_are_known(heading):
    assert read_heading(heading).field is Field.AGE


@pytest.mark.parametrize("cell", ["6", "7.9", "91", "120"])
def test_an_age_of_no_survey_or_of_nobody_keeps_the_row_from_an_answer(cell):
    read = roster("Age", cell)
    assert not read.players
    (problem,) = read.problems
    assert problem.column == "Age"
    assert "outside 8 to 90 years" in problem.wrong


@pytest.mark.parametrize("cell", ["U12", "old enough", "10-Aug"])
def test_a_cell_that_is_no_age_is_left_out_with_a_notice(cell):
    read = roster("Age", cell)
    assert (read.players[0].age_years, read.players[0].ages) == (None, None)
    assert "left out" in read.notices[0].wrong


@pytest.mark.parametrize(
    ("cell", "years"),
    [
        *(("8/15/2014", 12.0), ("8/16/2014", 11.0), ("2014-08-15", 12.0), ("8/16/14", 11.0)),
        *(("Aug 15, 2014", 12.0), ("15-Aug-14", 12.0), ("2014-08-16 00:00:00", 11.0)),
        ("41866", 12.0),
    ],
)
def test_of_a_date_of_birth_only_the_completed_years_are_kept(cell, years):
    read = player("DOB", cell)
    assert read.age_years == years
    assert cell not in repr(read)


def test_a_year_of_birth_leaves_two_ages_open():
    assert player("Birth year", "2014").ages == (11.0, 12.0)


@pytest.mark.parametrize(
    ("cell", "wrong"),
    [
        ("15/8/2014", "no such day"),
        ("8/15/2031", "not come yet"),
        ("2027", "not come yet"),
        ("spring", "no date"),
    ],
)
def test_a_birth_that_cannot_be_is_left_out_with_the_reason(cell, wrong):
    read = roster("Born", cell)
    assert read.players[0].age_years is None
    assert wrong in read.notices[0].wrong


def test_no_remark_carries_a_date_of_birth_on():
    births = ("11\t5/4/2015", "\t9/3/2021", "\t5/41/15")
    text = "Name\tGrade\tDOB\ttape\n" + "".join(f"Teal\t{birth}\t21\n" for birth in births)
    read = read_roster(text, today=TODAY)
    said = [str(each) for each in (*read.notices, *read.problems)]
    assert len(said) == 3
    assert not any(birth in each for each in said for birth in ("5/4/2015", "9/3/2021", "5/41/15"))
    assert any("this does not go with DOB, which is used" in each for each in said)


def test_without_a_day_of_today_a_birth_is_asked_to_be_an_age():
    read = roster("Born", "2014", today=None)
    assert read.players[0].ages is None
    assert read.notices[0].right == "give the age in years instead"


@pytest.mark.parametrize(
    ("heading", "cell", "ages"),
    [
        *(("Grade", "6", (11.0, 12.0)), ("Grade", "6th", (11.0, 12.0))),
        *(("Class", "9th grade", (14.0, 15.0)), ("Class", "grade 12", (17.0, 18.0))),
        *(("Grade", "Jr.", (16.0, 17.0)), ("Class", "HS senior", (17.0, 18.0))),
        *(("Class", "high school freshman", (14.0, 15.0)), ("Class", "college junior", None)),
        *(("Yr", "R-So", None), ("Class", "Gr", None), ("Class", "redshirt freshman", None)),
    ],
)
def test_a_grade_leaves_two_years_open_and_a_college_class_means_an_adult(heading, cell, ages):
    read = roster(heading, cell)
    assert read.players[0].ages == ages
    assert not read.notices


def test_a_bare_class_is_asked_about_unless_the_ages_say_that_it_is_a_school():
    read = roster("Class", "Sr")
    assert read.players[0].ages is None
    assert "high school or of a college" in read.notices[0].wrong
    assert player("Class", "Sr", ages=(14.0, 18.0)).ages == (17.0, 18.0)


@pytest.mark.parametrize("cell", ["2", "13", "kindergarten"])
def test_a_grade_that_is_not_read_is_left_out_with_a_notice(cell):
    assert "left out" in roster("Grade", cell).notices[0].wrong


def test_ages_that_do_not_go_together_are_named_and_the_surest_is_used():
    text = "Name\tGrade\tBorn\tAge\ttape\nTeal\t11\t2014\t12\t21\n"
    read = read_roster(text, today=TODAY)
    assert read.players[0].age_years == 12.0
    (notice,) = read.notices
    assert (notice.column, notice.value) == ("Grade", "11")
    assert "Age 12, which is used" in notice.wrong


@pytest.mark.parametrize("cell", ["6th grade", "6th", "grade 6", "Freshman", "Jr."])
def test_a_grade_under_age_is_sent_to_its_own_column(cell):
    (notice,) = roster("Age", cell).notices
    assert notice.wrong == "this is a grade, no age, left out"
    assert notice.right == "write years here, or put it in a column headed Grade"


def test_players_without_an_age_take_the_range_that_is_given_and_a_notice_counts_them():
    text = "Name\tAge\ttape\nTeal\t\t21\nCoot\t\t21\nRail\t13\t21 1/4\n"
    read = read_roster(text, ages=SCHOOL, ages_from="the range asked for")
    assert [each.ages for each in read.players] == [SCHOOL, SCHOOL, None]
    said = "2 players (Teal, Coot) state no age and may be 8 to 14 years old, the range asked for"
    assert said in str(read.notices[0])
    assert not read_roster("Name\tAge\ttape\nRail\t13\t21 1/4\n", ages=SCHOOL).notices


@pytest.mark.parametrize(
    ("heading", "cell", "months"),
    [
        *(("Measured on", "2/15/2026", 6.0), ("Date measured", "2025-08-15", 12.0)),
        *(("Measured", "5 months ago", 5.0), ("Months ago", "5", 5.0), ("Measured", "3 mo", 3.0)),
        *(("Measured", "2 years ago", 24.0), ("Measured on", "1.5 yr", 18.0)),
        *(("Measured", "8/15/2026", 0.0), ("Measured (months ago)", "14", 14.0)),
    ],
)
def test_the_day_of_measuring_makes_readings_so_many_months_old(heading, cell, months):
    assert [each.months_ago for each in player(heading, cell).readings] == [months]


@pytest.mark.parametrize("cell", ["9/15/2026", "spring", "5", "1/1/1950"])
def test_a_day_of_measuring_that_cannot_be_is_left_out_with_a_notice(cell):
    read = roster("Measured on", cell)
    assert read.players[0].readings[0].months_ago == 0.0
    assert "taken as measured today" in read.notices[0].wrong


@pytest.mark.parametrize("cell", ["9/15/2026", "spring", "1/1/1950"])
def test_a_child_whose_day_of_measuring_cannot_be_is_not_answered(cell):
    read = roster("Measured on", cell, ages=(9.0, 12.0))
    (problem,) = read.problems
    assert "still grows needs the day of its readings" in problem.wrong
    assert not read.players


def test_a_reading_from_before_what_is_known_of_growth_keeps_the_row_from_an_answer():
    # Of the age of 9 the oldest is nearly 10, and was not yet 6 more than four years ago.
    text = "Name\tAge\tMonths ago\ttape\nTeal\t9\t47\t20 3/4\nCoot\t9\t49\t20 3/4\n"
    read = read_roster(text)
    assert [each.name for each in read.players] == ["Teal"]
    (problem,) = read.problems
    assert "was not yet 6" in problem.wrong
    assert "measure again" in problem.right


def test_old_readings_of_youths_are_said_to_be_old_and_those_of_adults_are_not():
    text = "Name\tAge\tMonths ago\ttape\nTeal\t12\t14\t21 1/4\nCoot\t25\t14\t22 1/2\n"
    read = read_roster(text)
    (notice,) = read.notices
    assert notice.row == 2
    assert "measured 14 months ago" in notice.wrong
    assert "(assumed)" in notice.wrong
    assert notice.right == "measure again"


def test_a_head_that_is_large_for_the_age_is_asked_about_and_answered():
    read = roster("Age", "9")
    assert not read.notices
    large = read_roster("Name\tSex\tAge\ttape\nTeal\tM\t9\t23\n")
    (notice,) = large.notices
    assert "large for 9 years" in notice.wrong
    assert "Is the age right?" in notice.right
    assert large.players[0].age_years == 9.0


def test_a_child_has_a_child_s_weight_and_height_and_an_adult_has_not():
    text = "Name\tAge\tHeight\tWeight\ttape\nTeal\t8\t3-10\t55\t20 3/4\nCoot\t\t3-10\t55\t22\n"
    child, adult = read_roster(text).players
    assert child.weight_kg == pytest.approx(24.9, abs=0.1)
    assert child.stature_mm == pytest.approx(1168.4)
    assert (adult.weight_kg, adult.stature_mm) == (None, None)
    assert estimate_player(child).mean_of("head_breadth") < 145.0


def test_the_age_is_part_of_what_the_draws_follow_from():
    plain = Player(row=2, sex=Sex.MALE)
    aged = Player(row=2, sex=Sex.MALE, age_years=12.0)
    ranged = Player(row=2, sex=Sex.MALE, ages=SCHOOL)
    assert len({_digest(each) for each in (plain, aged, ranged)}) == 3


def test_everybody_of_a_file_without_ages_is_answered_as_before():
    (each,) = read_roster("Name\tSex\tWeight\ttape\nTeal\tM\t180\t22 1/2\n").players
    assert estimate_player(each).belief.labels == ("male",)
    assert not estimate_player(each).age_chances


def test_readings_of_a_whole_team_of_youths_are_held_against_youths():
    # Three millimeters over the ellipse is little in boys and, of twenty, too little in men.
    row = "{name}\t{age}\tM\t522 mm\t187 mm\t145 mm\n"
    header = "Name\tAge\tSex\ttape\tlength\tbreadth\n"
    boys = read_roster(header + "".join(row.format(name=f"P{i}", age=11) for i in range(20)))
    men = read_roster(header + "".join(row.format(name=f"P{i}", age=25) for i in range(20)))
    assert not [each for each in boys.notices if each.row == 0]
    assert [each for each in men.notices if each.row == 0]


def test_a_completed_year_is_counted_on_the_birthday_and_not_a_day_before():
    born = date(2012, 2, 29)
    assert completed_years(born, date(2026, 2, 28)) == 13
    assert completed_years(born, date(2026, 3, 1)) == 14
    assert read_day("3/1/99", today=TODAY) == date(1999, 3, 1)
    with pytest.raises(CellError, match="no such day"):
        read_day("2/30/2014", today=TODAY)


def test_a_youth_and_an_adult_of_the_same_readings_get_different_heads_and_builds(plain_answer):
    boy, man = plain_answer
    assert boy.head.mean_of("jaw_pad_width") < man.head.mean_of("jaw_pad_width") - 5.0


@pytest.fixture
def plain_answer():
    sheet = load_packaged("ouzel")
    (boy,) = roster("Age", "11").players
    (man,) = roster("Age", "30").players
    return tuple(answer_player(each, sheet, seed=1, propose=stand_in) for each in (boy, man))
