"""JSON with a schema that it keeps, and CSV that runs nothing."""

import csv
import io
import json
from pathlib import Path

import pytest

from helmwright.reports import AnswerDocument, answer_json, answer_schema_text, roster_csv
from helmwright.reports.spreadsheet import HEADINGS, safe
from tests.reports.answers import answered, demo_answer
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


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda d: d.pop("seed"), "seed is missing"),
        (lambda d: d.update(extra=1), "extra is not known"),
        (lambda d: d.update(version=2), "not 1"),
        (lambda d: d["players"][0].update(row=-1), "below 0"),
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
    lines = list(csv.DictReader(io.StringIO(roster_csv(demo_answer()), newline="")))
    assert [int(line["row"]) for line in lines] == list(range(3, 27))
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
