"""The how-to names every key that the reader of a protocol file knows, and its words."""

import re
from pathlib import Path

import pytest

from helmwright.catalogue import ZONES
from helmwright.catalogue.reading.table import Table
from helmwright.fit.finding import Sign
from helmwright.visit.check import Part, Stage, SubScore
from helmwright.visit.protocol import parse_protocol, usual_protocol_text
from helmwright.visit.reading import GRADES, ON_THE_SPOT

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs/how-to/write-your-own-protocol.md").read_text(encoding="utf-8")
CHECK = r"\[\[check\]\]"
HEAD = """\
format = 1
name = "ours"
minutes_worn = 5
symptom_stop = "Stop."

[[symptom]]
word = "headache"
says = "Any."

"""


def rows(section: str) -> dict[str, str]:
    """The rows of a section's table by their key."""
    found = re.search(rf"^### `{section}`\n.*?(?=^### |\Z)", PAGE, re.DOTALL | re.MULTILINE)
    assert found, section
    return table(found[0])


def table(text: str) -> dict[str, str]:
    lines = re.findall(r"^\| (`[^|]+`) \|(.*)$", text, re.MULTILINE)
    return {key: row for keys, row in lines for key in re.findall(r"`(\w+)`", keys)}


def test_every_key_that_the_reader_knows_is_on_the_page_and_no_other(monkeypatch):
    asked: dict[str, set[str]] = {}
    close = Table.close

    def noting(section: Table) -> bool:
        words = [part for part in section.path if isinstance(part, str)]
        asked.setdefault(words[-1] if words else "", set()).update(section.asked)
        return close(section)

    monkeypatch.setattr(Table, "close", noting)
    parse_protocol(usual_protocol_text(), name="usual")
    top = table(PAGE[PAGE.index("## The file") : PAGE.index("### `[[check]]`")])
    assert asked.pop("") == top.keys()
    assert asked.pop("symptom") == {"word", "says", "heard_as"}
    names = {"check": CHECK, "answers": "answers", "length": "length"}
    assert asked.keys() == names.keys()
    for section, keys in asked.items():
        assert keys == rows(names[section]).keys()


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("stage", list(Stage)),
        ("sign", list(Sign)),
        ("zone", list(ZONES)),
        ("sub_score", list(SubScore)),
        ("repeat_after", list(Part)),
        ("changes", ON_THE_SPOT),
    ],
)
def test_the_words_that_a_key_takes_are_on_the_page(key, words):
    allowed = {word.strip() for word in rows(CHECK)[key].split("|")[1].split(",")}
    assert allowed == set(words)


def test_the_grades_are_on_the_page():
    allowed = rows("answers")["grade"].split("|")[1]
    assert [word.strip() for word in allowed.split(",")] == list(GRADES)


def test_the_example_of_the_page_is_read_without_a_fault():
    (example,) = re.findall(r"^```toml\n(.*?)^```", PAGE, re.DOTALL | re.MULTILINE)
    (check,) = parse_protocol(HEAD + example, name="example").checks
    assert check.key == "front"
