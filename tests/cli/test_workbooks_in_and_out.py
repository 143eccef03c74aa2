"""Workbooks at the command line: which tab, in which form the answer goes where."""

import json

import pytest

from helmwright.cli.form import Form, chosen_form
from helmwright.cli.stop import NothingRan
from helmwright.roster import read_roster_file
from tests.roster.workbooks import compound, put, sheet_of, xlsx

ROWS: list[list[str | float]] = [
    ["No", "Name", "tape (in)"],
    [7, "Teal", 22.625],
    [8, "Coot", "221/8"],
]


@pytest.fixture
def workbook(tmp_path):
    path = tmp_path / "team.xlsx"
    path.write_bytes(sheet_of(ROWS))
    return path


def test_a_workbook_is_answered_as_a_text_would_be(run, workbook):
    done = run("roster", str(workbook))
    assert done.exit_code == 1
    assert "Teal" in done.stdout
    assert 'Row 3 (Coot), tape (in) "221/8"' in done.stdout
    assert not done.stderr


def test_a_workbook_may_come_from_standard_input(run, workbook):
    assert "Teal" in run("roster", "-", given=workbook.read_bytes()).stdout


def test_of_several_tabs_the_one_that_is_read_is_named_and_may_be_chosen(run, workbook):
    def fill(book):
        put(book, book.add_worksheet("Heads"), ROWS)
        put(book, book.add_worksheet("Old"), [["Name", "tape"], ["Rail", 22.5]])

    workbook.write_bytes(xlsx(fill))
    done = run("roster", str(workbook))
    assert f'helmwright: {workbook}: read from the tab "Heads"' in done.stderr
    assert '"Old" looks like a roster too' in " ".join(done.stdout.split())
    other = run("roster", str(workbook), "--tab", "old")
    assert other.exit_code == 0
    assert "Rail" in other.stdout


def test_a_name_that_ends_in_xlsx_gets_a_workbook(run, workbook, tmp_path):
    out = tmp_path / "builds.xlsx"
    done = run("roster", str(workbook), "--out", str(out))
    assert done.exit_code == 1
    assert "1 of 2 rows answered" in done.stderr
    roster = read_roster_file(out.read_bytes())
    assert roster.table is not None
    assert roster.table.tab == "Builds"
    assert [player.name for player in roster.players] == ["Teal"]


def test_the_demonstration_goes_into_a_workbook_too(run, tmp_path):
    out = tmp_path / "demo.XLSX"
    assert run("roster", "--demo", "--out", str(out)).exit_code == 1
    assert len(read_roster_file(out.read_bytes()).players) == 23


def test_the_endings_of_tables_and_documents_are_understood_as_well(run, workbook, tmp_path):
    table, document = tmp_path / "builds.csv", tmp_path / "builds.json"
    run("roster", str(workbook), "--out", str(table))
    run("roster", str(workbook), "--out", str(document))
    assert table.read_bytes().startswith(b"\xef\xbb\xbfrow,")
    assert json.loads(document.read_text(encoding="utf-8"))["answered"] == 1


def test_the_workbook_that_is_read_is_never_written_over(run, workbook):
    before = workbook.read_bytes()
    done = run("roster", str(workbook), "--out", str(workbook))
    assert done.exit_code == 2
    assert "is a file that is read" in done.stderr
    assert workbook.read_bytes() == before


@pytest.mark.parametrize(
    ("out", "option", "form"),
    [
        (None, "", Form.PAGE),
        ("page.txt", "", Form.PAGE),
        ("page", "", Form.PAGE),
        ("a.CSV", "", Form.TABLE),
        ("a.xlsx", "", Form.WORKBOOK),
        ("a.json", "csv", Form.TABLE),
        ("a.txt", "json", Form.DOCUMENT),
    ],
)
def test_an_option_goes_before_the_ending_of_a_name(out, option, form):
    assert chosen_form(out, as_json=option == "json", as_csv=option == "csv") is form


@pytest.mark.parametrize(
    ("out", "option", "words"),
    [
        ("a.xlsx", "csv", "leave --csv out"),
        ("a.xlsx", "json", "leave --json out"),
        ("a.xls", "", "written as .xlsx"),
        ("a.ods", "", "written as .xlsx"),
        ("a.pdf", "", "written by --cards FILE"),
    ],
)
def test_a_name_that_would_hold_something_else_is_refused(out, option, words):
    with pytest.raises(NothingRan, match=words):
        chosen_form(out, as_json=option == "json", as_csv=option == "csv")


def test_a_template_that_ends_in_xlsx_is_a_workbook_to_be_filled_in(run, tmp_path):
    out = tmp_path / "mine.xlsx"
    assert run("roster", "--template", "--out", str(out)).exit_code == 0
    assert run("roster", str(out)).stderr.startswith(f"helmwright: {out}: there is no row below")
    assert run("roster", "--template", "--out", str(tmp_path / "mine.json")).exit_code == 2
    assert run("roster", "--template", "--tab", "Heads").exit_code == 2


@pytest.mark.parametrize(
    ("data", "words", "said"),
    [
        (compound({"EncryptedPackage": b"x"}), (), "locked with a password"),
        (b"PK\x03\x04", (), "cannot be opened"),
        (sheet_of(ROWS), ("--tab", "Squad"), 'no tab "Squad"; it has "Heads"'),
        (b"Name,tape\nTeal,22\n", ("--tab", "Heads"), "only a workbook has tabs"),
    ],
)
def test_a_file_that_cannot_be_read_ends_with_two_and_one_line(run, workbook, data, words, said):
    workbook.write_bytes(data)
    done = run("roster", str(workbook), *words)
    assert done.exit_code == 2
    assert said in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert not done.stdout
