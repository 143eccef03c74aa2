"""Whose an unfinished visit is: a jersey number is no key, a name is, and readings help it."""

import json
from pathlib import Path

import pytest

from helmwright.anatomy import Reading
from helmwright.cli.visit_whose import Sought, name_words
from helmwright.visit.event import Started
from tests.cli.visit_ways import BEFORE, TO_ACCEPTANCE, names, of_kind, said, written

FIRST = "visits/12-avocet-brookside.jsonl"
TAPE, LONG = (Reading("tape_circumference", 575.0),), (Reading("head_length", 200.0),)


def on_roster(folder: Path, *rows: str) -> None:
    """Writes the roster anew."""
    lines = "\n".join(["No,Player,Tape (in),Length (in),Worn", *rows])
    (folder / "roster.csv").write_text(f"{lines}\n", "utf-8")


def files(folder: Path) -> list[str]:
    return sorted(path.name for path in (folder / "visits").iterdir())


def test_a_changed_jersey_number_loses_no_visit_and_is_said(play, tmp_path):
    on_roster(tmp_path, "12,Avocet Brookside,22 5/8,7 7/8,bare")
    play("g", "w")
    on_roster(tmp_path, "88,Avocet Brookside,22 5/8,7 7/8,bare")
    told = said(play(*BEFORE[2:]))
    assert "Going on with the visit of Avocet Brookside; 2 answers are kept." in told
    assert "begun under another number or row than this player has now" in told
    assert "a jersey number tells nobody apart" in told
    assert files(tmp_path) == ["12-avocet-brookside.jsonl"]
    assert len(of_kind(written(tmp_path, FIRST), "answered")) == 6


def test_an_unchanged_number_is_not_spoken_of(play, tmp_path):
    on_roster(tmp_path, "12,Avocet Brookside,22 5/8,7 7/8,bare")
    play("g")
    told = said(play("w"))
    assert "Going on" in told
    assert "another number" not in told
    assert "only number and row" not in told


def test_a_symptom_is_not_forgotten_with_the_number(play, tmp_path):
    on_roster(tmp_path, "12,Avocet Brookside,22 5/8,7 7/8,bare")
    play("symptom sees double", "")
    on_roster(tmp_path, "88,Avocet Brookside,22 5/8,7 7/8,bare")
    refused = play("no")
    assert "for a symptom" in said(refused)
    assert "no visit was begun" in refused.stderr


def test_players_of_one_name_who_change_numbers_keep_their_own_visits(play, tmp_path):
    here, there = "22 5/8,7 7/8,bare", "21 3/4,7 1/2,bare"
    on_roster(tmp_path, f"12,Avocet Brookside,{here}", f"88,Avocet Brookside,{there}")
    play("g", "w", who="row 2")
    play("g", "w", "c", who="row 3")
    on_roster(tmp_path, f"88,Avocet Brookside,{here}", f"12,Avocet Brookside,{there}")
    for row, answers in (("row 2", 2), ("row 3", 3)):
        told = said(play(who=row))
        assert f"{answers} answers are kept" in told
        assert "begun under another number or row" in told
    assert files(tmp_path) == ["12-avocet-brookside.jsonl", "88-avocet-brookside.jsonl"]


def test_where_readings_do_not_tell_players_of_one_name_apart_that_is_said(play, tmp_path):
    on_roster(tmp_path, "12,Avocet Brookside,,,bare", "88,Avocet Brookside,,,bare")
    play("g", who="12")
    assert "only number and row do" in said(play(who="12"))
    other = said(play("g", who="88"))
    assert "Going on" not in other
    assert len(files(tmp_path)) == 2


def test_without_a_name_the_readings_find_the_visit(play, tmp_path):
    on_roster(tmp_path, "12,,22 5/8,7 7/8,bare", "7,,21 3/4,7 1/2,bare")
    play("g", "w", who="12")
    on_roster(tmp_path, "7,,22 5/8,7 7/8,bare", "12,,21 3/4,7 1/2,bare")
    told = said(play(who="7"))
    assert "2 answers are kept" in told
    assert "begun under another number or row" in told
    assert "Going on" not in said(play("g", who="12"))
    assert files(tmp_path) == ["12-visit-2.jsonl", "12.jsonl"]


def test_a_number_alone_does_not_lead_to_a_visit_of_other_readings(play, tmp_path):
    on_roster(tmp_path, "12,,22 5/8,7 7/8,bare")
    play("g", who="12")
    on_roster(tmp_path, "12,,21 3/4,7 1/2,bare")
    refused = play(who="12")
    assert refused.exit_code == 2
    assert "a jersey number tells nobody apart. Give the player a name" in " ".join(
        refused.stderr.split()
    )


def test_of_two_unfinished_visits_the_one_begun_last_goes_on_and_the_other_is_told(play, tmp_path):
    on_roster(tmp_path, "12,Avocet Brookside,22 5/8,7 7/8,bare")
    play("g")
    first = tmp_path / FIRST
    lines = first.read_text("utf-8").splitlines(keepends=True)
    begun = json.loads(lines[0]) | {"at": "2020-01-01T00:00:00+00:00"}
    old = first.with_name("88-avocet-brookside.jsonl")
    old.write_text(json.dumps(begun) + "\n" + "".join(lines[1:]), "utf-8")
    told = said(play("w"))
    assert f"Another unfinished visit of this player is kept in {old}" in told
    assert names(written(tmp_path, FIRST)).count("answered") == 2


def test_the_next_visit_after_a_finished_one_is_called_by_the_new_number(play, tmp_path):
    on_roster(tmp_path, "12,Avocet Brookside,22 5/8,7 7/8,bare")
    play(*TO_ACCEPTANCE)
    on_roster(tmp_path, "88,Avocet Brookside,22 5/8,7 7/8,bare")
    told = said(play("g"))
    assert 'An earlier visit is over ("accepted")' in told
    assert "is taken for what is in the helmet now" in told
    assert files(tmp_path) == ["12-avocet-brookside.jsonl", "88-avocet-brookside.jsonl"]


def begun(who: str, readings: tuple[Reading, ...]) -> Started:
    return Started(who, readings, {"sex": None}, None, "a sheet")


@pytest.mark.parametrize(
    ("sought", "who", "readings", "told"),
    [
        (Sought("1-a", "A", TAPE), "A", LONG, True),
        (Sought("1-a", "A", TAPE), "B", TAPE, False),
        (Sought("1-a", "A", TAPE, (LONG,)), "A", TAPE, True),
        (Sought("1-a", "A", TAPE, (LONG,)), "A", LONG, False),
        (Sought("1-a", "A", TAPE, (TAPE,)), "A", TAPE, None),
        (Sought("1-a", "A", TAPE, (LONG,)), "A", (), None),
        (Sought("1-a", "A", TAPE, None), "A", TAPE, True),
        (Sought("1-a", "A", TAPE, None), "A", LONG, None),
        (Sought("1", "", TAPE), "no. 9", TAPE, True),
        (Sought("1", "", TAPE), "A", TAPE, False),
        (Sought("1", "", TAPE), "no. 1", LONG, None),
        (Sought("1-a", "A", TAPE), "no. 1", TAPE, False),
    ],
)
def test_a_visit_is_told_by_name_then_readings_and_never_by_number(sought, who, readings, told):
    assert sought.tells(begun(who, readings)) is told


def test_a_name_is_its_words_without_capitals_accents_and_marks():
    assert name_words("O'Teal,  ÉTIENNE") == name_words("o teal etienne") != ()
    assert name_words("no. 12") == name_words("row 3") == name_words("...") == ()
