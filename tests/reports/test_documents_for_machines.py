"""JSON with a schema that it keeps, and CSV that runs nothing."""

import csv
import io
import json
from dataclasses import replace
from pathlib import Path

import pytest

from helmwright.fit import MeasureGain, ShellChance
from helmwright.reports import (
    AnswerDocument,
    answer_json,
    answer_schema_text,
    roster_csv,
    roster_page,
)
from helmwright.reports.cautions import IN_A_TABLE
from helmwright.reports.spreadsheet import HEADINGS
from helmwright.roster.formulas import safe
from tests.reports.answers import answered, demo_answer, proposed
from tests.reports.schema_check import faults

SCHEMA_FILE = Path(__file__).parents[2] / "docs" / "reference" / "answer.schema.json"


@pytest.fixture(scope="module")
def schema():
    return json.loads(SCHEMA_FILE.read_text(encoding="utf-8"))


def test_the_documented_schema_is_the_one_that_the_program_keeps():
    assert SCHEMA_FILE.read_text(encoding="utf-8") == answer_schema_text()


def test_the_demonstrations_answer_keeps_the_schema(schema):
    document = json.loads(answer_json(demo_answer()))
    assert faults(document, schema, schema) == []
    assert (document["document"], document["version"]) == ("helmwright answer", 1)
    assert (document["asked"], document["answered"]) == (24, 23)
    assert [problem["row"] for problem in document["problems"]] == [5]


def gain(document):
    """The first measure of the first player who is told to take one."""
    return next(p["proposal"]["next_measures"] for p in document["players"])[0]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda d: d.pop("seed"), "seed is missing"),
        (lambda d: d.update(extra=1), "extra is not known"),
        (lambda d: d.update(version=2), "not 1"),
        (lambda d: d["players"][0].update(row=-1), "below 0"),
        (lambda d: gain(d).update(minutes=0), "none of the forms"),
        (lambda d: d["players"][0]["proposal"].update(suits="yes"), "none of the forms"),
    ],
)
def test_a_document_that_breaks_the_schema_is_caught(schema, change, words):
    document = json.loads(answer_json(demo_answer()))
    change(document)
    assert words in " ".join(faults(document, schema, schema))


def test_a_document_reads_back_to_the_same():
    text = answer_json(demo_answer())
    assert AnswerDocument.model_validate_json(text).model_dump_json(indent=2) + "\n" == text


def test_a_table_has_a_line_for_every_row_in_the_order_of_the_file():
    *lines, caution = csv.DictReader(io.StringIO(roster_csv(demo_answer()), newline=""))
    assert [int(line["row"]) for line in lines] == list(range(3, 27))
    assert (caution["row"], caution["outcome"]) == ("", "caution")
    assert [line["row"] for line in lines if line["outcome"] == "not answered"] == ["5"]
    assert lines[0]["crown (in)"] == "0.875"


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", " ="])
def test_a_cell_that_a_spreadsheet_would_run_is_kept_as_text(start):
    name = f"{start}HYPERLINK(1)"
    assert safe(name).startswith("'")
    text = roster_csv(answered(f'Name,tape\n"{name}",22 5/8\n"{name}",221/8\n'))
    cells = [cell for row in csv.reader(io.StringIO(text, newline="")) for cell in row]
    assert not [cell for cell in cells if cell.lstrip(" ").startswith(("=", "+", "-", "@"))]


def test_every_line_of_the_table_is_as_long_as_its_header():
    rows = list(csv.reader(io.StringIO(roster_csv(demo_answer()), newline="")))
    assert {len(row) for row in rows} == {len(HEADINGS)}


def test_a_table_says_in_one_row_that_it_is_no_safety_score_and_where_the_cautions_are():
    *_, caution = csv.DictReader(io.StringIO(roster_csv(demo_answer()), newline=""))
    assert caution["remarks"] == IN_A_TABLE
    assert "not a safety score" in IN_A_TABLE
    assert "without --csv" in IN_A_TABLE
    assert len(IN_A_TABLE) <= 200


def test_a_row_without_an_answer_keeps_its_jersey_number_in_table_and_document():
    answer = answered("No,Name,tape\n28,Brook,231/8\n7,Teal,22 5/8\n")
    first, *_ = csv.DictReader(io.StringIO(roster_csv(answer), newline=""))
    assert (first["number"], first["name"], first["outcome"]) == ("28", "Brook", "not answered")
    (problem,) = json.loads(answer_json(answer))["problems"]
    assert problem["number"] == "28"


def line_of(proposal) -> dict[str, str]:
    answer = answered("Name,tape\nTeal,22 5/8\n")
    told = replace(answer, answers=(replace(answer.answers[0], proposal=proposal),))
    return next(csv.DictReader(io.StringIO(roster_csv(told), newline="")))


def test_a_table_calls_a_forecast_one():
    read = proposed("Name,tape\nTeal,22 5/8\n")
    assert line_of(read)["outcome"] == "answered"
    assert line_of(replace(read, measured=False))["outcome"] == "forecast, not measured"


def test_a_table_warns_of_what_the_page_warns_of():
    proposal = proposed("Name,tape\nTeal,22 5/8\n", suits=False)
    far = replace(proposal, shells=(ShellChance(6, 0.04),))
    assert line_of(far)["warnings"] == (
        "outside the size chart (96 of 100 heads) | this model suits the head badly"
        " | another shell than the chart's likeliest (6, 4 of 100)"
    )
    assert "outside the size chart" in roster_page_of(far)
    assert not line_of(proposed("Name,tape\nTeal,22 5/8\n"))["warnings"]


def roster_page_of(proposal) -> str:
    answer = answered("Name,tape\nTeal,22 5/8\n")
    return roster_page(replace(answer, answers=(replace(answer.answers[0], proposal=proposal),)))


def test_a_measure_that_is_not_worth_taking_is_in_neither_page_nor_table():
    proposal = proposed("Name,tape\nTeal,22 5/8\n")
    vain = replace(proposal, next_measures=(MeasureGain("brow_to_top", 0.02, 0.03),))
    line = line_of(vain)
    assert (line["measure next"], line["gain of 100"]) == ("", "")
    assert "nothing more" in roster_page_of(vain)


def test_a_document_holds_the_makers_instructions_and_what_is_in_the_helmet_now():
    text = 'Name,tape,build now\nTeal,22 5/8,"shell 4, crown 1 1/8"\nCoot,22,\n'
    document = json.loads(answer_json(answered(text)))
    (instruction,) = document["instructions"]
    assert instruction["about"] == "brow height"
    assert instruction["accept_mm"] == pytest.approx({"low": 19.05, "high": 31.75})
    teal, coot = (player["proposal"] for player in document["players"])
    assert teal["now"]["shell"] == 4
    assert teal["now"]["pads"][0].startswith("1 1/8")
    assert coot["now"] is None
