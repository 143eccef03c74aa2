"""The youth tutorial can be followed, and a person is done with it in a quarter of an hour."""

import re
from itertools import pairwise

import pytest

from docs.tutorials.blocks import BLOCK, answers_of
from docs.tutorials.effort import SLOWEST_KEY, effort_of, effort_table, sections
from docs.tutorials.refresh import HERE, commands, write_workbook
from docs.tutorials.rise import rise_table
from helmwright.catalogue import parse_sheet
from helmwright.roster import TEMPLATE, read_roster_file

PAGE = (HERE / "a-youth-team.md").read_text(encoding="utf-8")
COUNTED = PAGE.partition("<!-- effort -->")[0]
MINUTES = 15.0


@pytest.fixture
def followed(run, tmp_path, monkeypatch):
    """The folder of somebody who has done everything on the page, with what each command ended."""
    monkeypatch.chdir(tmp_path)
    ends = []
    for block in BLOCK.finditer(PAGE):
        if block["kind"] == "workbook":
            write_workbook(tmp_path / block["what"], block["body"])
        elif block["kind"] == "run":
            given = "".join(f"{answer}\n" for answer in answers_of(block)).encode()
            (words,) = commands(block[0])
            ends.append(run(*words[1:], given=given or None).exit_code)
    return tmp_path, ends


def test_every_command_of_the_page_runs_and_leaves_what_the_page_promises(followed):
    folder, ends = followed
    assert ends == [0] * 7
    assert (folder / "cards.pdf").read_bytes().startswith(b"%PDF")
    assert len(read_roster_file((folder / "builds.xlsx").read_bytes()).players) == 12
    table = rise_table(
        "| player | a | b | c |",
        [folder / name for name in ("tape.json", "five.json", "inside.json")],
    )
    assert len(table.splitlines()) == 2 + 12 + 1


def test_the_sheet_is_typed_in_from_a_chart_and_bags_alone_and_takes_insides_later(followed):
    folder, _ = followed
    plain, measured = (
        parse_sheet((folder / name).read_text(encoding="utf-8"), name=name)
        for name in ("crossbill.toml", "crossbill-inside.toml")
    )
    assert list(plain.ages or ()) == [8, 14]
    assert plain.insides is not None
    assert plain.insides.guessed
    assert measured.insides is None or not measured.insides.guessed
    assert [shell.chart_low_mm for shell in plain.shells] == [
        shell.chart_low_mm for shell in measured.shells
    ]


@pytest.mark.parametrize(("name", "readings"), [("team.xlsx", 2), ("measured.xlsx", 6)])
def test_the_rosters_on_the_page_are_read_without_a_problem(tmp_path, name, readings):
    (block,) = (b for b in BLOCK.finditer(PAGE) if b["what"] == name)
    write_workbook(tmp_path / name, block["body"])
    roster = read_roster_file((tmp_path / name).read_bytes())
    assert not roster.problems
    assert [len(player.readings) for player in roster.players] == [readings] * 12
    assert all(player.age_years for player in roster.players)


def test_the_misread_length_of_the_page_is_asked_about(tmp_path):
    (block,) = (b for b in BLOCK.finditer(PAGE) if b["what"] == "measured.xlsx")
    write_workbook(tmp_path / "measured.xlsx", block["body"])
    notices = read_roster_file((tmp_path / "measured.xlsx").read_bytes()).notices
    (length,) = (notice for notice in notices if notice.who == "Hoopoe Birchley")
    assert (length.column, length.value) == ("Length (in)", "7")
    assert "about 7 5/8 in" in length.wrong
    assert "about 7 5/8 in is to be expected" in PAGE
    assert [notice.who for notice in notices if notice is not length] == ["Lapwing Eastmere"]


def test_the_rosters_columns_stand_as_in_the_empty_roster():
    for block in BLOCK.finditer(PAGE):
        if block["kind"] == "workbook":
            heads = block["body"].splitlines()[0].split(",")
            assert heads == list(TEMPLATE)[: len(heads)]


def test_an_average_typist_is_done_in_a_quarter_of_an_hour_and_the_page_says_so():
    efforts = [effort_of(body) for _, body in sections(COUNTED)]
    minutes = sum(effort.minutes() for effort in efforts)
    assert 5.0 < minutes < 0.85 * MINUTES
    assert sum(effort.minutes(SLOWEST_KEY) for effort in efforts) > MINUTES
    table = effort_table(COUNTED)
    assert f"<!-- effort -->\n{table}" in PAGE
    assert f"| {minutes:.1f} |" in table.splitlines()[-1]


def test_the_chances_on_the_page_rise_with_what_is_measured():
    (mean,) = re.findall(r"^\| \*\*mean\*\* \| (.*) \|$", PAGE, re.MULTILINE)
    pairs = [tuple(map(int, cell.split("/"))) for cell in mean.split("|")]
    assert len(pairs) == 3
    for before, after in pairwise(pairs):
        assert all(old < new for old, new in zip(before, after, strict=True))
