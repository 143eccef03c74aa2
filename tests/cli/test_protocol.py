"""`helmwright protocol`: the usual checks out, a file of one's own in."""

from dataclasses import replace

import pytest

from helmwright.catalogue import load_packaged
from helmwright.fit.finding import Grade
from helmwright.reports.protocol_page import protocol_page
from helmwright.reports.visit_end_page import found_lines
from helmwright.visit.check import Stage
from helmwright.visit.protocol import protocol_for, usual_protocol, usual_protocol_text
from helmwright.visit.sub_scores import sub_scores
from helmwright.visit.summary import VisitSummary


@pytest.fixture
def own(tmp_path):
    def writing(text: str) -> str:
        path = tmp_path / "ours.toml"
        path.write_text(text, encoding="utf-8")
        return str(path)

    return writing


def test_what_is_shown_can_be_checked_and_used(run, tmp_path):
    out = str(tmp_path / "ours.toml")
    assert run("protocol", "show", "--out", out).exit_code == 0
    assert run("protocol", "show").stdout == usual_protocol_text()
    done = run("protocol", "check", out)
    assert done.exit_code == 0
    assert "the protocol can be used" in done.stdout


@pytest.mark.parametrize("columns", ["60", "80"])
def test_the_page_tells_every_check_within_its_width(run, own, monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", columns)
    said = run("protocol", "check", own(usual_protocol_text()), "--model", "redstart").stdout
    assert all(check.title in said for check in usual_protocol().checks)
    assert max(map(len, said.splitlines())) <= int(columns)
    assert "They have no total." in " ".join(said.split())


def test_the_makers_instruction_is_shown_as_the_makers(run, own):
    said = run("protocol", "check", own(usual_protocol_text())).stdout
    assert "The maker says: Invented example: the front edge sits" in " ".join(said.split())
    plain = run("protocol", "check", own(usual_protocol_text()), "--model", "siskin").stdout
    assert "The maker says" not in plain


def test_a_file_with_faults_is_told_its_lines_and_prints_no_page(run, own):
    done = run("protocol", "check", own(usual_protocol_text().replace("format = 1", "format = 9")))
    assert done.exit_code == 2
    assert "1 thing to put right" in done.stderr
    assert not done.stdout


def test_a_file_that_leaves_a_padded_zone_out_is_refused_by_the_zones_name(run, own):
    sections = usual_protocol_text().split("[[check]]")
    kept = [each for each in sections if 'key = "nape"' not in each]
    done = run("protocol", "check", own("[[check]]".join(kept)))
    assert done.exit_code == 2
    assert "zone nape is not checked in stage contact" in done.stderr


def test_a_file_that_is_not_there_is_named(run):
    done = run("protocol", "check", "nowhere.toml")
    assert done.exit_code == 2
    assert "nowhere.toml" in done.stderr


def test_a_protocol_that_leaves_whole_scores_out_says_so_when_it_is_checked_and_when_it_ends():
    usual = protocol_for(load_packaged("ouzel"))
    thin = replace(usual, checks=usual.stage(Stage.CONTACT))
    missed = "No check is about stability, integrity, accessory"
    assert missed in " ".join(protocol_page(thin, 80).split())
    assert "No check is about" not in protocol_page(usual, 80)
    right = {check.key: Grade.RIGHT for check in thin.checks}
    told = VisitSummary("Avocet Brookside", (), (), (), None, right, sub_scores(thin, right))
    assert missed in " ".join(" ".join(found_lines(told, thin, 80)).split())
    whole = {check.key: Grade.RIGHT for check in usual.checks}
    told = replace(told, scores=sub_scores(usual, whole))
    assert "No check is about" not in " ".join(found_lines(told, usual, 80))


def test_a_source_is_named_by_its_citation_and_not_by_its_key(run, own):
    said = " ".join(run("protocol", "check", own(usual_protocol_text())).stdout.split())
    assert "Source: The 13 items of the youth football helmet checklist" in said
    assert "Source: common practice, no source." in said
    assert "youth_checklist_2020" not in said


@pytest.mark.parametrize("words", [("protocol", "show"), ("sheet", "stock")])
def test_a_file_that_is_there_is_written_over_only_on_demand(run, tmp_path, words):
    path = tmp_path / "ours"
    path.write_text("mine", "utf-8")
    refused = run(*words, "--out", str(path))
    assert refused.exit_code == 2
    assert "is there already and was left as it is" in " ".join(refused.stderr.split())
    assert path.read_text("utf-8") == "mine"
    done = run(*words, "--out", str(path), "--replace")
    assert done.exit_code == 0
    assert path.read_text("utf-8") == run(*words).stdout
