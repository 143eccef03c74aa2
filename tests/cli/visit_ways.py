"""Visits played without beliefs: a command, what is typed, what the file holds afterwards."""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result

from helmwright.cli.visit_choices import Chosen
from tests.cli.step_guide import StepGuide

ROSTER = """No,Player,Pos,Tape (in),Length (in),Worn
12,Avocet Brookside,QB,22 5/8,7 7/8,short hair
7,Dunlin Marsh,LB,22 1/4,7 3/4,bare
"""
BEFORE = ["g", "w", "c", "o", "r", "r"]
"""Answers to the checks before the helmet goes on, all good."""

CONTACT = ["s", "1 1/8", "s", "s", "s", "s", "s", "r", "s", "s", "s"]
LATER = ["all good", "all good", "all good"]
TO_ACCEPTANCE = [*BEFORE, "", *CONTACT, *LATER]


def stand_in(patch: pytest.MonkeyPatch) -> None:
    """Lets the guide without beliefs say what comes next, and nothing be expected."""
    patch.setattr(Chosen, "guide", lambda self: StepGuide(self.sheet, self.protocol))
    patch.setattr(Chosen, "expected", lambda *_: lambda _: {})


def written(folder: Path, name: str = "visits/12-avocet-brookside.jsonl") -> list[dict[str, Any]]:
    """What the file of a visit holds, without numbers and times."""
    found = [json.loads(line) for line in (folder / name).read_text("utf-8").splitlines()]
    return [{k: v for k, v in each.items() if k not in ("line", "at")} for each in found]


def names(events: Sequence[dict[str, Any]]) -> list[str]:
    """What happened, in order."""
    return [each["event"] for each in events]


def of_kind(events: Sequence[dict[str, Any]], name: str) -> list[dict[str, Any]]:
    """The events of one name."""
    return [each for each in events if each["event"] == name]


def said(result: Result) -> str:
    """What the screen showed, in one line."""
    return " ".join(result.stdout.split())
