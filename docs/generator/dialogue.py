"""The worked dialogue in the page about visits in JSON lines, played anew."""

import io
import json
from collections.abc import Callable, Iterator
from typing import Any

from helmwright.cli.choices import DEFAULT_MODEL, DEFAULT_SEED
from helmwright.cli.visit_choices import Asked
from helmwright.cli.visit_dialogue import opened_by
from helmwright.cli.visit_lines import Lines

PAGE = "visit-lines.md"
BEGIN, END = "<!-- dialogue -->\n```text\n", "```\n<!-- end of dialogue -->\n"
START = {
    "message": "start",
    "player": {
        "name": "Avocet Brookside",
        "tape": ["22 5/8", "22 1/2"],
        "length": "7 7/8",
        "breadth": "6 1/8",
        "brow to top": "4",
        "jaw width": "5 3/8",
        "worn": "bare",
    },
}
SHOWN = {
    *("message", "version", "who", "model", "invented", "kept", "next", "shell", "checks", "check"),
    *("build", "changes", "swaps", "zone", "out", "into", "fits", "found_right", "minutes", "why"),
    *("look", "sub_scores", "sub_score", "right", "answered"),
}
"""Fields of the answers that the page shows; it says that the others are left out."""

Send = Callable[[dict[str, Any]], dict[str, Any]]


def program() -> Send:
    """The program at the other end, in this process; each call is one line in and one out."""
    asked = Asked(
        DEFAULT_MODEL, None, None, None, None, None, DEFAULT_SEED, None, None, today="2026-08-01"
    )
    writer = io.BytesIO()
    lines = Lines(lambda message: opened_by(message, asked), writer)

    def send(message: dict[str, Any]) -> dict[str, Any]:
        writer.seek(0)
        writer.truncate()
        lines.take(json.dumps(message).encode())
        told: dict[str, Any] = json.loads(writer.getvalue())
        return told

    return send


def played() -> Iterator[tuple[dict[str, Any], dict[str, Any]]]:
    """What is sent and what is answered: the front is loose until its pad is thicker."""
    send = program()
    pads: dict[str, Any] = {}
    message: dict[str, Any] = START
    while True:
        told = send(message)
        yield message, told
        asked = told
        while "next" in asked:
            asked = asked["next"]
        if asked["message"] == "put on":
            pads, message = asked["build"]["pads"], {"message": "put on"}
        elif asked["message"] in ("checks", "look"):
            checks = asked.get("checks") or [asked["check"]]
            loose = pads.get("front", {}).get("mm", 0.0) < 26.0
            findings = [_finding(check, loose=loose) for check in checks]
            message = {"message": "findings", "findings": findings}
        else:
            return


def _finding(check: dict[str, Any], *, loose: bool) -> dict[str, str]:
    right = next(answer["word"] for answer in check["answers"] if answer["right"])
    word = "loose" if check["check"] == "front" and loose else right
    return {"check": check["check"], "word": word}


def shortened(value: Any) -> Any:
    """An answer with the fields that the page shows, its numbers to two places."""
    if isinstance(value, dict):
        if "title" in value and "answers" in value:
            return {"check": value["check"]}
        kept = {name: shortened(each) for name, each in value.items() if name in SHOWN}
        return {name: each for name, each in kept.items() if name != "checks" or "next" not in kept}
    if isinstance(value, list):
        return [shortened(each) for each in value]
    return round(value, 2) if isinstance(value, float) else value


def dialogue() -> str:
    """The block of the page."""
    lines = (f"> {json.dumps(sent)}\n< {json.dumps(shortened(told))}\n" for sent, told in played())
    return BEGIN + "\n".join(lines) + END


def refreshed(page: str) -> str:
    """The page with its dialogue as it is now."""
    before, _, rest = page.partition(BEGIN)
    _, _, after = rest.partition(END)
    return before + dialogue() + after


def shown(page: str) -> list[tuple[dict[str, Any], dict[str, Any]]]:
    """What the page says is sent and answered."""
    block = page.partition(BEGIN)[2].partition(END)[0]
    lines = [json.loads(line[2:]) for line in block.splitlines() if line]
    return list(zip(lines[::2], lines[1::2], strict=True))
