"""By how much the chances rise from one answer to another, player by player."""

import json
from collections.abc import Mapping
from pathlib import Path


def rise_table(before: Path, after: Path) -> str:
    """Both chances of every player in two JSON documents of one roster, and their means."""
    old, new = _chances(before), _chances(after)
    rows = {who: (*old[who], *new[who]) for who in old if who in new}
    means = [sum(column) / len(rows) for column in zip(*rows.values(), strict=True)]
    head = "| player | found right | truly fits | found right, more measures | truly fits |"
    lines = [_row(who, chances) for who, chances in rows.items()]
    return "\n".join([head, f"|{' --- |' * 5}", *lines, _row("**mean**", means)]) + "\n"


def _chances(document: Path) -> Mapping[str, tuple[float, float]]:
    """Found right and truly fits of the best build, by name."""
    players = json.loads(document.read_text(encoding="utf-8"))["players"]
    best = {each["name"]: each["proposal"]["ranked"][0] for each in players}
    return {
        who: (build["found_right"]["value"], build["truly_fits"]["value"])
        for who, build in best.items()
    }


def _row(who: str, chances: tuple[float, ...] | list[float]) -> str:
    return f"| {who} | {' | '.join(f'{100 * chance:.0f}' for chance in chances)} |"
