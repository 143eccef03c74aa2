"""The pages keep in step with the code, and with each other."""

import importlib
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from docs.generator import commands, exports, nomenclature, pages, sources
from docs.generator.__main__ import main as generate
from docs.generator.figures import all_records, uses
from docs.generator.markdown import table
from helmwright.catalogue.zone import ZONES
from helmwright.cli import main as program
from tests.house.tree import ROOT, committed_files

LINK = re.compile(r"\[[^\]]*\]\(([^)#\s]+)(?:#[^)]*)?\)")
FENCED = re.compile(r"```.*?```", re.DOTALL)


def reference(name: str) -> str:
    return (ROOT / "docs" / "reference" / name).read_text(encoding="utf-8")


def test_the_generated_pages_are_fresh():
    assert pages.stale() == [], "'python3 start.py docs' writes them anew"


def test_a_page_that_was_changed_by_hand_is_stale(tmp_path: Path, monkeypatch, capsys):
    monkeypatch.setattr(pages, "pages", lambda: {"a.md": "right\n", "b.md": "right\n"})
    (tmp_path / "a.md").write_text("wrong\n", encoding="utf-8")
    (tmp_path / "b.md").write_text("right\n", encoding="utf-8")
    assert pages.stale(tmp_path) == ["a.md"]
    monkeypatch.setattr("docs.generator.__main__.stale", lambda: pages.stale(tmp_path))
    assert generate(["--check"]) == 1
    assert "a.md is out of date" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("path", "text"), list(commands.help_texts()), ids=[path for path, _ in commands.help_texts()]
)
def test_what_help_prints_is_what_the_page_says(path: str, text: str):
    _, *words = path.split()
    answer = CliRunner().invoke(
        program, [*words, "--help"], prog_name="helmwright", terminal_width=commands.WIDTH
    )
    assert answer.exit_code == 0
    assert answer.output.rstrip() == text
    assert f"## {path}\n\n```text\n{text}\n```" in reference("commands.md")


@pytest.mark.parametrize("room", exports.rooms())
def test_a_room_says_what_it_offers_and_the_page_lists_it(room: str):
    module = importlib.import_module(room)
    assert module.__doc__
    section = reference("exports.md").partition(f"## {room}\n")[2].partition("\n## ")[0]
    listed = re.findall(r"^\| `(\w+)` \|", section, re.MULTILINE)
    assert listed == list(dict.fromkeys(module.__all__))


def test_the_page_of_sources_names_every_record_and_every_figure():
    page = reference("sources.md")
    assert all(f"### {key}\n" in page for key in all_records())
    assert all(f"`{use.place}`" in page for use in uses())


def test_every_source_that_the_code_leans_on_is_on_record():
    known = all_records().values()
    assert [use.place for use in uses() if use.source not in known] == []


def test_assumptions_stand_under_their_own_heading():
    page = sources.page(pages.OUTSIDE)
    assert page.index("\n## Assumed\n") < page.index("\n### assumed\n")


def test_the_page_of_names_has_every_zone_and_every_word():
    page = reference("nomenclature.md")
    words = nomenclature.read_words(ROOT / "docs" / "reference" / "words.toml")
    assert all(f"| {name} |" in page for name in [*ZONES, *words])


def test_the_words_are_in_alphabetical_order():
    words = list(nomenclature.read_words(ROOT / "docs" / "reference" / "words.toml"))
    assert words == sorted(words, key=str.lower)


def test_a_bar_in_a_cell_does_not_end_it():
    assert table(["a"], [["|x|\ny"]]).endswith("| \\|x\\| y |")


def test_links_between_pages_lead_somewhere():
    broken = [
        f"{page.relative_to(ROOT)}: {target}"
        for page in committed_files()
        if page.suffix == ".md"
        for target in LINK.findall(FENCED.sub("", page.read_text(encoding="utf-8")))
        if "://" not in target and not (page.parent / target).exists()
    ]
    assert not broken


def test_every_page_is_in_the_index():
    index = ROOT / "docs" / "README.md"
    listed = {(index.parent / target) for target in LINK.findall(index.read_text(encoding="utf-8"))}
    pages_there = {path for path in committed_files() if path.suffix == ".md"}
    pages_of_docs = {path for path in pages_there if path.is_relative_to(index.parent)}
    assert pages_of_docs - listed == {index}
