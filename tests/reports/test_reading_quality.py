"""What is printed of readings that cannot be trusted to the last eighth of an inch."""

import dataclasses
import json

import pytest

from helmwright.anatomy import Over, Reading, Sex, estimate_head
from helmwright.fit.outlook import SizeRisk
from helmwright.reports import answer_json, build_page, head_page, roster_page
from helmwright.reports.reading_quality import LEAST_RISK, covering_rows, size_risk_words
from helmwright.roster import PlayerAnswer, RosterAnswer, estimate_player, read_roster
from tests.reports.answers import answered

TEXT = "Name,tape,length,breadth\nTeal,22 7/8,7 7/8,6\n"
REPEATS = (
    "Name,tape,tape 2,measured by\n"
    + "".join(f"P{n} Pond,22 {n}/8,22 {n}/8,Ada\n" for n in range(1, 7))
    + "".join(f"R{n} Rill,22,{'22 5/8' if n % 2 else '21 3/8'},Bo\n" for n in range(6))
)


def risky(text: str, risk: SizeRisk | None) -> RosterAnswer:
    answer = answered(text)
    (each,) = answer.answers
    assert each.proposal is not None
    proposal = dataclasses.replace(each.proposal, size_risk=risk)
    return dataclasses.replace(answer, answers=(dataclasses.replace(each, proposal=proposal),))


def plain(page: str) -> str:
    return " ".join(page.split())


def test_a_reading_on_the_line_is_told_with_both_shells_and_its_chance():
    answer = risky(TEXT, SizeRisk(3, 4, 0.31, 579.4))
    for page in (build_page(answer, 80), roster_page(answer, 80)):
        assert "On the line between" in page
        assert "hells 3 and 4: the tape over what will be worn, 22 13/16 in" in plain(page)
        assert "gives shell 3 by the chart, the wrong size for 31 of 100" in plain(page)
        assert max(map(len, page.splitlines())) <= 80
    assert "Teal, shells 3 and 4" in plain(roster_page(answer, 80))
    (warning,) = json.loads(answer_json(answer))["players"][0]["proposal"]["warnings"]
    assert warning.startswith("on the line between shells 3 and 4: wrong size for 31 of 100")


@pytest.mark.parametrize("risk", [None, SizeRisk(3, 4, LEAST_RISK - 0.01, 575.0)])
def test_a_reading_within_its_band_is_not_spoken_of(risk):
    answer = risky(TEXT, risk)
    assert "On the line" not in build_page(answer, 80) + roster_page(answer, 80)


def test_a_head_at_the_end_of_the_chart_may_belong_to_no_shell():
    assert size_risk_words(SizeRisk(6, 0, 0.4, 639.0)).startswith("shell 6 and no shell: the tape")
    assert "gives no shell by the chart" in size_risk_words(SizeRisk(0, 1, 0.4, 519.0))


def test_who_measured_is_a_table_with_those_past_the_usual():
    page = roster_page(answered(REPEATS), 80)
    rows = {line.split()[0]: line for line in page.splitlines() if "tape around the head" in line}
    assert "past the usual" in rows["Bo"]
    assert "past the usual" not in rows["Ada"]
    assert rows["Ada"].split()[5:8] == ["6", "0.0", "3.0"]
    assert "counts as 12 pairs (assumed)" in plain(page)
    assert max(map(len, page.splitlines())) <= 80
    (notice,) = [n for n in read_roster(REPEATS).notices if n.column == "measured by"]
    assert notice.value == "Bo"
    assert "readings count for less" in notice.wrong


def test_nothing_is_said_of_measurers_where_the_roster_names_none():
    assert "Who measured" not in roster_page(answered(TEXT), 80)


def test_a_persons_repeats_set_the_error_of_all_that_persons_readings():
    players = read_roster(REPEATS).players
    errors = {reading.by: reading.tem_mm or 0.0 for p in players for reading in p.readings}
    assert errors["Ada"] < 3.0 < errors["Bo"]
    ada, bo = (estimate_player(p) for p in (players[0], players[-1]))
    assert ada.sd_of("tape_circumference") < bo.sd_of("tape_circumference")


def test_two_people_who_read_apart_on_the_same_heads_are_named():
    rows = "".join(f"P{n} Pond,22 {n}/8,22 {n + 2}/8,Ada,Bo\n" for n in range(1, 6))
    notices = read_roster(f"Name,tape,tape 2,measured by,measured by\n{rows}").notices
    (gap,) = [notice for notice in notices if "both measured" in notice.wrong]
    assert "on 5 heads that both measured, Bo reads head circumference by tape 1/4 in" in gap.wrong
    assert "nothing was changed" in gap.wrong


def covered(worn: str) -> str:
    text = f"Name,sex,tape,worn\nTeal,M,23 1/4,{worn}\n"
    roster = read_roster(text)
    each = PlayerAnswer(roster.players[0], estimate_player(roster.players[0]), None)
    return head_page(RosterAnswer((each,), (), roster.notices, 1), 80)


def test_the_page_of_a_head_tells_what_of_the_reading_is_hair():
    page = covered("braids and skull cap")
    assert "Braids or locs, " in page
    assert "Skull cap, " in page
    assert "where it starts from is assumed" in plain(page)
    assert "Between head and tape" not in covered("bare")


def test_a_woman_of_whose_hair_nothing_was_said_is_told_so():
    head = estimate_head([Reading("tape_circumference", 560.0)], sex=Sex.FEMALE)
    (row,) = covering_rows(head)
    assert row.kind is Over.UNSTATED
    assert row.low_mm < row.mean_mm < row.high_mm
    assert covering_rows(estimate_head([], sex=Sex.MALE)) == ()


@pytest.mark.parametrize(("age", "tape"), [("", "22 3/4"), ("9", "21")])
def test_hair_of_which_nobody_spoke_is_not_told_of_a_head_that_is_likely_a_mans(age, tape):
    page = head_page(answered(f"Name,age,tape\nTeal,{age},{tape}\n"), 80)
    assert "Sex not stated" in page
    assert "as women of the surveys had it" not in page


def test_the_document_holds_the_same_numbers():
    document = json.loads(answer_json(risky(TEXT, SizeRisk(3, 4, 0.31, 579.4))))
    assert document["players"][0]["proposal"]["size_risk"]["chance"] == 0.31
    measurers = json.loads(answer_json(answered(REPEATS)))["measurers"]
    assert [(each["by"], each["past_usual"]) for each in measurers] == [
        ("Ada", False),
        ("Bo", True),
    ]
    braided = json.loads(answer_json(answered("Name,sex,tape,worn\nTeal,M,23,braids\n")))
    (covering,) = braided["players"][0]["coverings"]
    assert (covering["kind"], covering["worn"]) == ("braids or locs", True)
