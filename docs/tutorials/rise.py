"""By how much the chances rise from one answer to the next, player by player."""

import json
from collections.abc import Mapping, Sequence
from pathlib import Path

Chances = tuple[float, float]
"""Found right and truly fits of the best build."""


def rise_table(head: str, documents: Sequence[Path]) -> str:
    """Both chances of every player in JSON documents of one roster, of 100, and their means.

    `head` is the table's heading line, with a column for the player and one for each document.
    """
    told = [_chances(document) for document in documents]
    rows = {who: [each[who] for each in told] for who in told[0]}
    means = [_mean(list(each.values())) for each in told]
    lines = [_row(who, chances) for who, chances in rows.items()]
    rule = f"|{' --- |' * (len(documents) + 1)}"
    return "\n".join([head, rule, *lines, _row("**mean**", means)]) + "\n"


def _chances(document: Path) -> Mapping[str, Chances]:
    """The chances by name."""
    players = json.loads(document.read_text(encoding="utf-8"))["players"]
    best = {each["name"]: each["proposal"]["ranked"][0] for each in players}
    return {
        who: (build["found_right"]["value"], build["truly_fits"]["value"])
        for who, build in best.items()
    }


def _mean(chances: Sequence[Chances]) -> Chances:
    found, fits = zip(*chances, strict=True)
    return sum(found) / len(found), sum(fits) / len(fits)


def _row(who: str, chances: Sequence[Chances]) -> str:
    cells = (f"{100 * found:.0f} / {100 * fits:.0f}" for found, fits in chances)
    return f"| {who} | {' | '.join(cells)} |"
