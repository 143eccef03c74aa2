"""Ages on the command line."""

import json
from dataclasses import replace
from datetime import date

import pytest

from helmwright.catalogue import load_packaged
from helmwright.cli.ages import chosen_ages


def test_a_boy_s_head_says_the_age_and_what_is_assumed_of_youths(run):
    done = run("head", "--tape", "20 3/4", "--age", "10", "--sex", "M")
    assert done.exit_code == 0
    assert done.stdout.startswith("10 years, male\n")
    assert "Youths: eyebrow, jaw and chin are carried down from adults" in done.stdout


def test_an_adult_s_page_says_nothing_of_youths(run):
    done = run("head", "--tape", "22 3/4", "--age", "24")
    assert "24 years" in done.stdout
    assert "Youths" not in done.stdout
    assert "Age not stated" not in run("head", "--tape", "22 3/4").stdout


def test_the_one_player_of_a_command_is_no_row_of_a_file(run):
    done = run("head", "--tape", "22 1/4", "--sex", "F")
    page = " ".join((done.stdout + done.stderr).split())
    assert "nothing was said of the hair of this player" in page
    assert "row 0" not in page


def test_a_range_of_ages_tells_which_year_the_readings_make_likeliest(run):
    done = run("head", "--tape", "20", "--ages", "8-14")
    assert "8 to 14 years" in done.stdout
    page = " ".join(done.stdout.split())
    assert "Age not stated; 8 years is likeliest by the readings" in page
    assert "Sex not stated; the chance of a boy's head is" in page


def test_readings_of_a_year_ago_give_a_larger_head(run):
    def girth(*words: str) -> float:
        done = run("head", "--tape", "21 1/4", "--age", "12", "--sex", "M", "--json", *words)
        (player,) = json.loads(done.stdout)["players"]
        return next(
            row["mean_mm"] for row in player["head"] if row["measure"] == "tape_circumference"
        )

    plain, old = girth(), girth("--measured", "12 months")
    dated = girth("--measured", "8/1/2025", "--today", "2026-08-01")
    assert old == dated
    assert 2.0 < old - plain < 6.0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--ages", "young"), "write it like --ages 8-12"),
        (("--ages", "5-9"), "heads are modeled from 8 years on"),
        (("--ages", "12-8"), "youngest first"),
        (("--today", "8/1/2026"), "write it like 2026-08-15"),
        (("--age", "5"), "heads are modeled from 8 years on"),
    ],
)
def test_ages_and_days_that_cannot_be_are_refused_with_what_would_be_right(run, words, said):
    done = run("head", "--tape", "21", *words)
    assert done.exit_code == 2
    assert said in done.stderr.lower() or said in done.stderr


def test_a_roster_of_youths_says_which_range_the_ages_come_from(run, tmp_path):
    path = tmp_path / "club.csv"
    path.write_text("No,Name,tape (in)\n7,Teal Marsh,20 3/4\n", encoding="utf-8")
    done = run("roster", str(path), "--ages", "8-12", "--json")
    answer = json.loads(done.stdout)
    (notice,) = answer["notices"]
    said = "Teal Marsh states no age and may be 8 to 12 years old, the range asked for"
    assert said in notice["wrong"]
    assert any("Youths" in said for said in answer["assumed"])
    assert [player["age"] for player in answer["players"]] == ["8 to 12 years"]
    page = " ".join(run("roster", str(path), "--ages", "8-12").stdout.split())
    assert "how fast one head grows is assumed too" in page


def test_a_sheet_s_own_ages_stand_where_the_options_say_none():
    ouzel = load_packaged("ouzel")
    made = replace(ouzel, ages=(8.0, 14.0))
    from_sheet = chosen_ages(None, "2026-08-15", made)
    assert from_sheet.range == (8.0, 14.0)
    assert f"for which the sheet of {ouzel.model} says it is made" in from_sheet.said_by
    assert from_sheet.today == date(2026, 8, 15)
    assert chosen_ages("9-10", None, made).range == (9.0, 10.0)
    assert chosen_ages(None, None, ouzel).range is None


def test_a_sheet_for_younger_children_than_the_surveys_have_is_cut_to_what_they_have():
    ouzel = load_packaged("ouzel")
    assert chosen_ages(None, None, replace(ouzel, ages=(5.0, 14.0))).range == (8.0, 14.0)
    assert chosen_ages(None, None, replace(ouzel, ages=(5.0, 7.0))).range is None


def test_the_clock_is_read_where_no_day_is_given():
    assert abs((chosen_ages(None, None).today - date.today()).days) <= 1  # noqa: DTZ011
