"""A program at the other end of the pipe: a head that wants certain pads, and answers by rule."""

import json
import subprocess
import sys
import threading
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from tests.reports.schema_check import faults
from tests.visit.pipe import SCHEMA

PATIENCE_S = 600.0
"""After so long a program that does not answer is ended, so that no test hangs."""

AVOCET = {
    "name": "Avocet Brookside",
    "tape": ["22 5/8", "22 1/2"],
    "length": "7 7/8",
    "breadth": "6 1/8",
    "brow to top": "4",
    "jaw width": "5 3/8",
    "worn": "bare",
}


class Program:
    """`helmwright visit --jsonl` as a process of its own; every line is held to the schema."""

    def __init__(self, *words: str) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-m", "helmwright", "visit", "--jsonl", *words],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            encoding="utf-8",
        )
        self._watch = threading.Timer(PATIENCE_S, self._process.kill)
        self._watch.start()

    def __enter__(self) -> "Program":
        return self

    def __exit__(self, *_: object) -> None:
        self.kill()

    def send(self, message: str, **fields: Any) -> dict[str, Any]:
        """One line in, one line out."""
        sent = {"message": message, **fields}
        assert faults(sent, SCHEMA["$defs"]["in"], SCHEMA) == []
        assert self._process.stdin is not None
        self._process.stdin.write(json.dumps(sent) + "\n")
        self._process.stdin.flush()
        return self.read()

    def read(self) -> dict[str, Any]:
        assert self._process.stdout is not None
        told: dict[str, Any] = json.loads(self._process.stdout.readline())
        assert faults(told, SCHEMA["$defs"]["out"], SCHEMA) == []
        return told

    def kill(self) -> None:
        """Ends it at once, as a power cut would."""
        self._watch.cancel()
        self._process.kill()
        self._process.communicate()

    def close(self) -> int:
        """Ends the input, and waits; the exit status."""
        self._watch.cancel()
        rest, _ = self._process.communicate(timeout=PATIENCE_S)
        assert rest == ""
        return self._process.returncode


class Wearer:
    """Answers what is asked: zones by the pads that the head wants, all else right."""

    def __init__(self, **wanted_mm: float) -> None:
        self.wanted = {zone.replace("_", " "): mm for zone, mm in wanted_mm.items()}
        self.worn: dict[str, Any] = {}
        self.proposals: list[dict[str, Any]] = []

    def answer(self, told: dict[str, Any]) -> tuple[str, dict[str, Any]] | None:
        """The message that answers; None at the end of the visit."""
        asked = told
        while "next" in asked:
            if asked["message"] == "proposal":
                self.proposals.append(asked)
            asked = asked["next"]
        match asked["message"]:
            case "checks":
                return "findings", {"findings": [*map(self._finding, asked["checks"])]}
            case "look":
                return "findings", {"findings": [self._finding(asked["check"])]}
            case "put on":
                self.worn = asked["build"]["pads"]
                return "put on", {}
            case "measure":
                return "skip", {}
            case "paused":
                return "resume", {}
        return None

    def play(self, program: Program, told: dict[str, Any], most: int = 80) -> list[dict[str, Any]]:
        """Answers until the end, or so many times; everything that was told."""
        heard = [told]
        while len(heard) <= most and (said := self.answer(heard[-1])) is not None:
            message, fields = said
            heard.append(program.send(message, **fields))
        return heard

    def _finding(self, check: dict[str, Any]) -> dict[str, Any]:
        zone = check["check"]
        if zone in self.wanted:
            amiss = self.worn[zone]["mm"] - self.wanted[zone]
            if abs(amiss) > 2.5:
                return {"check": zone, "word": "loose" if amiss < 0 else "tight"}
        return {"check": zone, "word": next(a["word"] for a in check["answers"] if a["right"])}


def events(path: Path, without: Sequence[str] = ()) -> list[dict[str, Any]]:
    """What a visit's file says happened, line numbers and times left out."""
    lines = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    return [
        {name: value for name, value in line.items() if name not in ("at", "line")}
        for line in lines
        if line["event"] not in without
    ]
