"""A build's drawing, its card and the roster's paper go into files of their own."""

import xml.etree.ElementTree as ET

import pypdfium2
import pytest

BUILD = ("build", "--name", "Reed Avocet", "--tape", "22 5/8", "--length", "7 7/8")
ROSTER = "Name,tape,length,breadth\nTeal,22 5/8,7 7/8,6 1/8\nPlover,221/8,,\n"


@pytest.fixture
def team(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "team.csv").write_text(ROSTER, encoding="utf-8")
    return "team.csv"


def test_the_drawing_is_written_beside_the_page_and_told(run, tmp_path):
    place = tmp_path / "reed.svg"
    done = run(*BUILD, "--svg", str(place))
    assert done.exit_code == 0
    assert "Best build: shell" in done.stdout
    assert f"drawing: {place}" in done.stderr
    title = ET.parse(place).getroot().findtext("{http://www.w3.org/2000/svg}title")  # noqa: S314
    assert title is not None
    assert title.startswith("Reed Avocet: Ouzel (invented), not on sale; shell ")


def test_a_card_is_two_pages_for_one_player(run, tmp_path):
    place = tmp_path / "reed.pdf"
    done = run(*BUILD, "--card", str(place))
    assert done.exit_code == 0
    assert f"fit cards: {place}" in done.stderr
    assert len(pypdfium2.PdfDocument(place)) == 2


def test_cards_and_sheet_are_written_for_those_who_are_answered(run, team, tmp_path):
    done = run("roster", team, "--cards", "cards.pdf", "--roster-sheet", "sheet.pdf")
    assert done.exit_code == 1
    assert "fit cards: cards.pdf" in done.stderr
    assert "roster sheet: sheet.pdf" in done.stderr
    assert "Likeliest fault" in done.stdout
    assert len(pypdfium2.PdfDocument(tmp_path / "cards.pdf")) == 2
    assert len(pypdfium2.PdfDocument(tmp_path / "sheet.pdf")) == 1


def test_where_nobody_is_answered_no_card_is_written(run, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "team.csv").write_text("Name,tape\nPlover,221/8\n", encoding="utf-8")
    done = run("roster", "team.csv", "--cards", "cards.pdf")
    assert done.exit_code == 2
    assert "cards.pdf is not written, for nobody was answered" in done.stderr
    assert not (tmp_path / "cards.pdf").exists()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((*BUILD, "--svg", "none/x.svg"), "give another --svg FILE"),
        ((*BUILD, "--svg", "same.out", "--out", "same.out"), "--out and --svg name one file"),
        ((*BUILD, "--svg", "same.out", "--card", "./same.out"), "--card and --svg name one file"),
        (("roster", "team.csv", "--cards", "team.csv"), "--cards team.csv is a file that is read"),
        (("roster", "--template", "--cards", "x.pdf"), "there is nobody to print a card for"),
    ],
)
def test_a_bad_place_is_told_at_once(run, team, tmp_path, words, told):
    done = run(*words)
    assert done.exit_code == 2
    assert told in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == [team]
    assert (tmp_path / team).read_text(encoding="utf-8") == ROSTER
