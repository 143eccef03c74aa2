"""Which policies are played on how many heads."""

from collections.abc import Iterator, Sequence
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

SEED = 2027
"""Of a run that says no other. Heads of the seeds 77 and 2026 were looked at while the program was
being made; those of this one had no part in it."""


@dataclass(frozen=True)
class Sizes:
    """On how many heads each part is played.

    Parameters
    ----------
    headline
        The main comparison.
    rungs
        What each measure buys, and what is told beside the headline: other looks, the known head,
        women.
    sensitivities
        Every other truth.
    """

    headline: int = 1000
    rungs: int = 250
    sensitivities: int = 150

    def __post_init__(self) -> None:
        """Refuse a part without any head."""
        if min(self.headline, self.rungs, self.sensitivities) < 1:
            raise ValueError(f"each part needs a head at least, got {self}")

    def __str__(self) -> str:
        """As the command takes them."""
        return f"{self.headline},{self.rungs},{self.sensitivities}"

    @classmethod
    def alike(cls, heads: int) -> "Sizes":
        """As many heads for every part."""
        return cls(heads, heads, heads)

    def of(self, part: Part) -> int:
        """Heads of one part."""
        return {
            Part.HEADLINE: self.headline,
            Part.RUNGS: self.rungs,
            Part.SENSITIVITIES: self.sensitivities,
        }[part]

    @property
    def beside(self) -> int:
        """Heads of the headline on which more is played."""
        return min(self.headline, self.rungs)


Want = tuple[Player, str, tuple[str, ...]]
"""A head, a truth by its name, and policies to be played."""


@dataclass(frozen=True)
class Plan:
    """What a run is asked for.

    Parameters
    ----------
    part
        Which part.
    heads
        On how many heads each part is played.
    policies
        Only these; each part's own where None.
    rows
        Folder with individual survey rows; the surveys' published summaries where None.
    seed
        Of every draw.
    """

    part: Part = Part.ALL
    heads: Sizes = Sizes()
    policies: tuple[str, ...] | None = None
    rows: Path | None = None
    seed: int = SEED

    @property
    def origin(self) -> str:
        """Where the heads come from, as the result file says it."""
        return origin_of(self.rows)

    @property
    def command(self) -> str:
        """What was typed, but for files."""
        words = ["helmwright study", f"--part {self.part}"]
        words += [f"--heads {self.heads}"] if self.heads != Sizes() else []
        words += [f"--policies {','.join(self.policies)!r}"] if self.policies else []
        words += ["--rows FOLDER"] if self.rows is not None else []
        return " ".join([*words, f"--seed {self.seed}"])

    def count(self, part: Part) -> int:
        """Heads of one part."""
        return self.heads.of(part)

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

    def wanted(self) -> Iterator[list[Want]]:
        """What is to be played, stage by stage; what an earlier stage has is left out of a later.

        Notes
        -----
        In the order of the tables that matter most, so that a run that is stopped has whole
        tables first.
        """
        before: set[tuple[Player, str, str]] = set()
        for stage in self._stages():
            fresh = [
                (each, name, self._new(each, name, keys, before)) for each, name, keys in stage
            ]
            yield [want for want in fresh if want[2]]

    def _new(
        self, player: Player, truth: str, keys: Sequence[str], before: set[tuple[Player, str, str]]
    ) -> tuple[str, ...]:
        """Those asked for that were not wanted before, which are so from now on."""
        asked = [key for key in keys if self.policies is None or key in self.policies]
        new = tuple(key for key in asked if (player, truth, key) not in before)
        before.update((player, truth, key) for key in new)
        return new

    def _stages(self) -> Iterator[list[Want]]:
        """Every head under every truth with all its policies, stage by stage."""
        heads = self.heads
        if self.has(Part.HEADLINE):
            yield [(each, USUAL, HEADLINE) for each in self.players(heads.headline)]
            yield [(each, USUAL, BESIDE) for each in self.players(heads.beside)]
            yield [(each, USUAL, WOMEN) for each in self.players(heads.beside, Sex.FEMALE)]
        if self.has(Part.RUNGS):
            yield [(each, USUAL, LADDER) for each in self.players(heads.rungs)]
        if self.has(Part.SENSITIVITIES):
            yield [
                (each, truth, TURNED_POLICIES)
                for each in self.players(heads.sensitivities)
                for truth in (USUAL, *TURNED)
            ]

    def tasks(self, results: Results) -> list[Task]:
        """What is still to be played, a task for each head of each stage, in the stages' order."""
        found = []
        for stage in self.wanted():
            lacking: dict[Player, list[tuple[str, tuple[str, ...]]]] = {}
            for player, truth, keys in stage:
                have = results.played(player, truth)
                missing = tuple(key for key in keys if key not in have)
                if missing:
                    lacking.setdefault(player, []).append((truth, missing))
            found += [Task(player, tuple(plays)) for player, plays in lacking.items()]
        return found
