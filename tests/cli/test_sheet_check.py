"""`helmwright sheet check`: faults first, then what the helmet can fit."""

import functools

import pytest

from helmwright.catalogue import packaged_text
from helmwright.fit import coverage
from tests.catalogue.plain_sheet import PLAIN


@pytest.fixture
def plain_file(tmp_path):
    path = tmp_path / "plain.toml"
    path.write_text(PLAIN, encoding="utf-8")
    return str(path)


def test_quick_leaves_the_coverage_out(run, plain_file):
    done = run("sheet", "check", plain_file, "--quick")
    assert done.exit_code == 0
    assert "the sheet can be used" in done.stdout
    assert "Coverage" not in done.stdout


def test_the_coverage_follows_with_its_seed(run, plain_file, monkeypatch):
    few = functools.partial(coverage.cover, heads=6)
    monkeypatch.setattr(coverage, "cover", few)
    said = run("sheet", "check", plain_file, "--seed", "3").stdout
    assert "Coverage: heads that at least one build fits" in said
    assert "Between shells 1 and 2" in said
    assert "seed 3" in said


def test_a_sheet_with_faults_gets_no_coverage(run, tmp_path):
    path = tmp_path / "broken.toml"
    path.write_text(PLAIN.replace("format = 1", "format = 2"), encoding="utf-8")
    done = run("sheet", "check", str(path))
    assert done.exit_code == 2
    assert "1 thing to put right" in done.stderr
    assert not done.stdout


def test_a_sheet_without_insides_says_so_where_its_numbers_are_shown(run, tmp_path):
    path = tmp_path / "siskin.toml"
    path.write_text(packaged_text("siskin"), encoding="utf-8")
    said = " ".join(run("sheet", "check", str(path), "--quick").stdout.split())
    assert "Insides not measured: usual ones assumed: inside length, inside breadth" in said
    assert "(assumed)" in said
    assert "Not on the sheet, usual ones assumed: pad areas" in said


def test_the_list_says_for_whom_a_model_is_made_and_what_was_not_measured(run):
    said = run("sheet", "list").stdout
    assert "wren: Wren (invented), not on sale; 4 shells, for 8 to 14 years\n" in said
    assert "siskin: Siskin (invented), not on sale; 4 shells, insides not measured\n" in said
    assert "ouzel: Ouzel (invented), not on sale; 6 shells\n" in said
