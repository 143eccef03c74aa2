"""The page about visits in JSON lines says what the program does."""

import re
from typing import Any, get_args

import pytest

from docs.generator import dialogue
from docs.generator.pages import REFERENCE
from helmwright.visit.lines_in import InMessage
from helmwright.visit.lines_out import OutMessage
from tests.reports.schema_check import faults
from tests.visit.pipe import SCHEMA

PAGE = (REFERENCE / dialogue.PAGE).read_text(encoding="utf-8")
NEAR = 0.03
"""Chances are counted on draws, whose last digits differ from machine to machine."""


def differences(shown: Any, told: Any, place: str = "$") -> list[str]:
    """Where an answer is not what the page shows of it."""
    if isinstance(shown, dict) and isinstance(told, dict):
        found = [f"{place}: no {name}" for name in shown if name not in told]
        both = (name for name in shown if name in told)
        return found + [d for n in both for d in differences(shown[n], told[n], f"{place}.{n}")]
    if isinstance(shown, list) and isinstance(told, list) and len(shown) == len(told):
        pairs = enumerate(zip(shown, told, strict=True))
        return [d for at, (s, t) in pairs for d in differences(s, t, f"{place}[{at}]")]
    if isinstance(shown, float):
        return [] if shown == pytest.approx(told, abs=NEAR) else [f"{place}: {shown}, not {told}"]
    return [] if shown == told else [f"{place}: {shown!r}, not {told!r}"]


def test_the_worked_dialogue_is_what_the_program_answers():
    exchanges, send = dialogue.shown(PAGE), dialogue.program()
    assert len(exchanges) > 5
    for sent, shown in exchanges:
        assert faults(sent, SCHEMA["$defs"]["in"], SCHEMA) == []
        told = send(sent)
        assert differences(shown, told) == [], "'python3 start.py docs' plays it anew"
        assert faults(told, SCHEMA["$defs"]["out"], SCHEMA) == []
    assert exchanges[-1][1]["message"] == "accepted"
    assert "proposal" in [shown["message"] for _, shown in exchanges]


def test_a_page_that_was_changed_by_hand_is_noticed():
    told = {"message": "put on", "build": {"shell": 3}, "fits": 0.5, "checks": [{"check": "a"}]}
    assert differences({"message": "put on", "fits": 0.52}, told) == []
    assert differences({"message": "look"}, told)
    assert differences({"fits": 0.6}, told)
    assert differences({"build": {"shell": 4}}, told)
    assert differences({"checks": []}, told)
    assert differences({"why": ""}, told)


def test_a_page_with_a_fresh_dialogue_keeps_the_rest(monkeypatch):
    monkeypatch.setattr(dialogue, "dialogue", lambda: dialogue.BEGIN + "> {}\n" + dialogue.END)
    page = f"above\n{dialogue.BEGIN}old\n{dialogue.END}below\n"
    assert dialogue.refreshed(page) == f"above\n{dialogue.BEGIN}> {{}}\n{dialogue.END}below\n"


def rows(heading: str) -> dict[str, str]:
    """First and second cell of the rows of the table under a heading."""
    section = PAGE.partition(f"## {heading}\n")[2].partition("\n## ")[0]
    found = re.findall(r"^\| (`.*?) \| (.*?) \|", section, re.MULTILINE)
    return {name: fields for cell, fields in found for name in re.findall(r"`([^`]+)`", cell)}


def forms(union: Any) -> dict[str, Any]:
    """The forms of a union by what their messages are called."""
    return {
        get_args(form.model_fields["message"].annotation)[0]: form
        for form in get_args(get_args(union)[0])
    }


def test_the_page_names_every_message_with_its_fields():
    sent = rows("What may be sent")
    assert sent.keys() == forms(InMessage).keys()
    for name, form in forms(InMessage).items():
        fields = set(form.model_fields) - {"message"}
        assert fields <= set(re.findall(r"`([^`]+)`", sent[name])), name
    assert rows("What is answered").keys() == forms(OutMessage).keys()
