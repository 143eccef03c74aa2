"""Which policies are played on how many heads."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from helmwright.anatomy import Sex
from helmwright.study.dials import TURNED
from helmwright.study.people import SURVEYS
from helmwright.study.players import Player, origin_of
from helmwright.study.policies import OURS, POLICIES, RUNGS, Kind
from helmwright.study.results import Results
from helmwright.study.task import USUAL, Task


class Part(StrEnum):
    """A part of the study."""

    HEADLINE = "headline"
    RUNGS = "rungs"
    SENSITIVITIES = "sensitivities"
    ALL = "all"


RULES = tuple(
    key for key, policy in POLICIES.items() if policy.kind in {Kind.ONE_ZONE, Kind.ALL_ZONES}
)
HEADLINE = (*RULES, OURS)
BESIDE = ("five none", "five again", "known none", "known surprise")
"""The other looks and the bound, beside the headline."""

WOMEN = ("one again", "all again", OURS)
LADDER = tuple(f"{rung} {looks}" for rung in RUNGS for looks in ("none", "surprise"))
TURNED_POLICIES = ("one again", "all again", OURS)
USUAL_HEADS = {Part.HEADLINE: 1000, Part.RUNGS: 250, Part.SENSITIVITIES: 150}


@dataclass(frozen=True)
class Plan:
    """What a run is asked for.

    Parameters
    ----------
    part
        Which part.
    heads
        Heads of the part; each part's own number where None.
    policies
        Only these; each part's own where None.
    rows
        Folder with individual survey rows; the surveys' published summaries where None.
    seed
        Of every draw.
    """

    part: Part = Part.ALL
    heads: int | None = None
    policies: tuple[str, ...] | None = None
    rows: Path | None = None
    seed: int = 2026

    @property
    def origin(self) -> str:
        """Where the heads come from, as the result file says it."""
        return origin_of(self.rows)

    @property
    def command(self) -> str:
        """What was typed, but for files."""
        words = ["helmwright study", f"--part {self.part}"]
        words += [f"--heads {self.heads}"] if self.heads is not None else []
        words += [f"--policies {','.join(self.policies)!r}"] if self.policies else []
        words += ["--rows FOLDER"] if self.rows is not None else []
        return " ".join([*words, f"--seed {self.seed}"])

    def count(self, part: Part) -> int:
        """Heads of one part."""
        return USUAL_HEADS[part] if self.heads is None else self.heads

    def has(self, part: Part) -> bool:
        """Whether a part is asked for."""
        return self.part in {part, Part.ALL}

    def players(self, count: int, sex: Sex = Sex.MALE) -> list[Player]:
        """Heads of both surveys in turn."""
        return [
            Player(
                sex, SURVEYS[number % len(SURVEYS)], number // len(SURVEYS), self.seed, self.rows
            )
            for number in range(count)
        ]

    def wanted(self) -> list[tuple[Player, str, tuple[str, ...]]]:
        """Every head, under every truth, with the policies to play on it."""
        found: dict[tuple[Player, str], dict[str, None]] = {}

        def want(players: Iterable[Player], truth: str, keys: Sequence[str]) -> None:
            mine = [key for key in keys if self.policies is None or key in self.policies]
            for player in players:
                found.setdefault((player, truth), {}).update(dict.fromkeys(mine))

        few = min(self.count(Part.RUNGS), self.count(Part.HEADLINE))
        if self.has(Part.HEADLINE):
            want(self.players(self.count(Part.HEADLINE)), USUAL, HEADLINE)
            want(self.players(few), USUAL, BESIDE)
            want(self.players(few, Sex.FEMALE), USUAL, WOMEN)
        if self.has(Part.RUNGS):
            want(self.players(self.count(Part.RUNGS)), USUAL, LADDER)
        if self.has(Part.SENSITIVITIES):
            players = self.players(self.count(Part.SENSITIVITIES))
            for truth in (USUAL, *TURNED):
                want(players, truth, TURNED_POLICIES)
        return [(player, truth, tuple(keys)) for (player, truth), keys in found.items()]

    def tasks(self, results: Results) -> list[Task]:
        """What is still to be played, a task for each head."""
        lacking: dict[Player, list[tuple[str, tuple[str, ...]]]] = {}
        for player, truth, keys in self.wanted():
            have = results.played(player, truth)
            missing = tuple(key for key in keys if key not in have)
            if missing:
                lacking.setdefault(player, []).append((truth, missing))
        return [Task(player, tuple(plays)) for player, plays in lacking.items()]
