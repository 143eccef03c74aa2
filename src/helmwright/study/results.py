"""The result file: a line of JSON for each head and truth, written as it is played."""

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from helmwright.study.players import Player

Key = tuple[str, str, int, str]
"""Sex, survey, index, truth."""


class ResultsOfAnotherRunError(ValueError):
    """A result file holds heads of another seed, from elsewhere, or played by another program."""


class Results:
    """What was played so far.

    Parameters
    ----------
    path
        Where it is kept; nowhere where None.
    seed, heads
        Of this run: its seed, and "rows" or "summaries".
    program
        Fingerprint of the program that plays; every line kept carries it.

    Raises
    ------
    ResultsOfAnotherRunError
        Where the file holds visits of another run.

    Notes
    -----
    A line is written whole and at once. A run that is killed leaves at most one broken line at the
    end, which is cut off by the next one.
    """

    def __init__(self, path: Path | None, seed: int, heads: str, program: str) -> None:
        self._path, self._seed, self._heads, self._program = path, seed, heads, program
        self._visits: dict[Key, dict[str, Any]] = {}
        if path is not None and path.exists():
            self._load(path)

    def _load(self, path: Path) -> None:
        data = path.read_bytes()
        whole = data[: data.rfind(b"\n") + 1]
        for line in whole.decode("utf-8").splitlines():
            row = json.loads(line)
            self._refuse_another(path, row)
            self._take(row)
        if len(whole) < len(data):
            with path.open("r+b") as file:
                file.truncate(len(whole))

    def _refuse_another(self, path: Path, row: dict[str, Any]) -> None:
        if (row["seed"], row["heads"]) != (self._seed, self._heads):
            raise ResultsOfAnotherRunError(
                f"{path} holds heads from {row['heads']} of seed {row['seed']}, not from "
                f"{self._heads} of seed {self._seed}; name another file with --results"
            )
        if row.get("program") != self._program:
            by = row.get("program", "that left no fingerprint")
            raise ResultsOfAnotherRunError(
                f"{path} holds visits played by the program {by}, and this one is "
                f"{self._program}: what decides a visit has changed between them, so they are not "
                "mixed; name a new file with --results"
            )

    def _take(self, row: dict[str, Any]) -> None:
        key = (row["sex"], row["survey"], row["index"], row["truth"])
        self._visits.setdefault(key, {}).update(row["visits"])

    def add(self, rows: Iterable[dict[str, Any]]) -> None:
        """Keep some rows, each with the program's fingerprint."""
        stamped = ({"program": self._program} | row for row in rows)
        text = "".join(json.dumps(row, separators=(",", ":")) + "\n" for row in stamped)
        if self._path is not None and text:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            with self._path.open("a", encoding="utf-8", newline="\n") as file:
                file.write(text)
        for line in text.splitlines():
            self._take(json.loads(line))

    def played(self, player: Player, truth: str) -> dict[str, Any]:
        """The visits of one head under one truth, by policy."""
        return self._visits.get((player.sex.value, player.survey, player.index, truth), {})

    def visits(self, players: Iterable[Player], truth: str, policy: str) -> list[dict[str, Any]]:
        """The visits of one policy on some heads, as far as they were played."""
        found = (self.played(player, truth).get(policy) for player in players)
        return [visit for visit in found if visit is not None]
