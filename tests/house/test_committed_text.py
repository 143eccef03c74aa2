"""What is committed speaks of the project alone."""

import re
from pathlib import Path

import pytest

from tests.house.tree import ROOT, committed_files

# One letter of each stands in brackets, so that this file does not hold the words itself.
FORBIDDEN = {
    "the address of a package registry": (
        r"py[p]i\.org|python[h]osted\.org|npm[j]s\.org|npm[j]s\.com|proxy\.[g]olang\.org|"
        r"deb\.[d]ebian\.org|crates\.[i]o\b|--(extra-)?[i]ndex-url|--[f]ind-links"
    ),
    "a path of one machine": (
        r"(?<![\w.])/(wo[r]k|ro[o]t|opt/wh[e]els|opt/py[p]i|ho[m]e/\w)\b|/tmp/[b]rief|[u]venv|"
        r"\b[A-Z]:\\Us[e]rs"
    ),
    "who or what wrote it": r"(?i)\b(sub-?[a]gents?|cl[a]ude|anthr[o]pic|chat[g]pt|co[p]ilot)\b",
    "a page that is not here": r"(?i)seed[ ]document|design\.[m]d|settled\.[m]d|facts\.[m]d",
}
SHARED_DATA = re.compile(r"\.\./sh[a]red|\bsh[a]red/")
BINARY = {".ttf"}
MAY_NAME_SHARED_DATA = {"tests/conftest.py"}


def texts() -> list[tuple[str, str]]:
    read = (path for path in committed_files() if path.suffix not in BINARY)
    return [(name_of(path), text) for path in read if (text := text_of(path))]


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def text_of(path: Path) -> str:
    """The file's text, or nothing where it is no text."""
    try:
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return ""


@pytest.mark.parametrize("what", FORBIDDEN)
def test_no_committed_file_holds(what: str):
    pattern = re.compile(FORBIDDEN[what])
    found = [f"{name}: {match[0]}" for name, text in texts() if (match := pattern.search(text))]
    assert not found


def test_only_the_one_fixture_knows_of_data_beside_the_checkout():
    found = {name for name, text in texts() if SHARED_DATA.search(text)}
    assert found <= MAY_NAME_SHARED_DATA


@pytest.mark.parametrize(
    ("what", "text"),
    [
        ("the address of a package registry", "https://" + "pypi" + ".org/simple"),
        ("the address of a package registry", "--index" + "-url x"),
        ("a path of one machine", "see /wo" + "rk/main"),
        ("who or what wrote it", "by a Sub" + "agent"),
        ("a page that is not here", "see design" + ".md 3"),
    ],
)
def test_the_patterns_catch_what_they_are_for(what: str, text: str):
    assert re.search(FORBIDDEN[what], text)


def test_every_committed_text_ends_with_one_line_end_and_uses_no_carriage_return():
    wrong = [
        name
        for name, text in texts()
        if "/vendor/" not in name  # taken as published
        and ("\r" in text or not text.endswith("\n") or text.endswith("\n\n"))
    ]
    assert not wrong
