"""First builds played against heads, hair, helmets and hands that are not the program's model."""

import os
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from bench import report
from bench.first_try_words import words
from bench.plan import Plan
from bench.policies import POLICIES, Asked
from helmwright.anatomy import MEASURE_KEYS, Sex
from helmwright.catalogue import ModelSheet, load_packaged
from helmwright.fit import Rater
from helmwright.fit.seating import PadLaws
from helmwright.study import people
from helmwright.study.true_helmet import play
from helmwright.study.truth import TrueHead, draw_truth, laws_with_hair

Floats = npt.NDArray[np.float64]

MODEL = "ouzel"
HEADS = 120
TOGETHER = 24
"""Heads played between two savings."""

ALL = tuple(POLICIES)
WOMEN = ("chart", "five", "known")
OTHER = {"us_army_2012": "niosh_2003", "niosh_2003": "us_army_2012"}


@dataclass(frozen=True)
class Group:
    """Heads of one survey and sex, proposed for with the other survey's prior."""

    survey: str
    sex: Sex
    policies: tuple[str, ...]

    @property
    def name(self) -> str:
        """Its name in the result file."""
        return f"{self.survey} {self.sex.value}"


GROUPS = tuple(
    Group(survey, sex, ALL if sex is Sex.MALE else WOMEN)
    for sex in Sex
    for survey in ("niosh_2003", "us_army_2012")
)


def run(plan: Plan) -> str:
    """Play, keep every few heads, and tell."""
    count = plan.heads or (4 if plan.quick else HEADS)
    heads_from = "rows" if plan.rows else "summaries"
    found = {} if plan.quick else report.load("first-try")
    if (found.get("seed"), found.get("heads_from")) != (plan.seed, heads_from):
        found = {"seed": plan.seed, "heads_from": heads_from, "plays": {}}
    for group in GROUPS[: 1 if plan.quick else None]:
        for key in group.policies:
            name = f"{group.name} {key}"
            for plays in played(group, key, count, plan, found["plays"].get(name)):
                found["plays"][name] = plays
                if not plan.quick:
                    report.save("first-try", found)
            told = found["plays"][name]["fits"][:count]
            report.say(f"first-try: {name}: {told.count('1')} of {len(told)} truly fit")
    return words(found, count)


def played(
    group: Group, key: str, count: int, plan: Plan, before: dict[str, Any] | None
) -> Iterator[dict[str, Any]]:
    """The plays of one policy on one group, after every few heads; goes on where it was left."""
    plays = before or {"fits": "", "found": [], "stated": [], "stated_found": [], "changed": []}
    heads = true_heads(group, count, plan.seed, plan.rows)
    sheet = load_packaged(MODEL)
    laws = laws_with_hair(sheet)
    policy = POLICIES[key]
    while len(plays["fits"]) < count:
        begin = len(plays["fits"])
        chosen = range(begin, min(begin + TOGETHER, count))
        with policy.setting(), ThreadPoolExecutor(os.cpu_count() or 1) as pool:
            done = list(
                pool.map(
                    lambda index: _one(group, key, index, heads[index], sheet, laws, plan.seed),
                    chosen,
                )
            )
        plays = {name: plays[name] + _column(name, done) for name in plays}
        yield plays
    yield plays


def _column(name: str, done: Sequence[dict[str, Any]]) -> Any:
    values = [one[name] for one in done]
    return "".join(values) if name == "fits" else values


def true_heads(group: Group, count: int, seed: int, rows: Path | None) -> list[TrueHead]:
    """The group's heads: the same for every policy, and the first ones the same for any count."""
    stream = [seed, list(OTHER).index(group.survey), list(Sex).index(group.sex)]
    most = max(count, HEADS)
    rng = np.random.default_rng(stream)
    if rows is None:
        heads = people.drawn_heads(group.sex, group.survey, most, rng)
    else:
        heads = people.surveyed_heads(rows, group.sex, group.survey, most, rng)
    return [
        draw_truth(measures, np.random.default_rng([*stream, index, 7]))
        for index, measures in enumerate(heads.values[:count])
    ]


def _one(
    group: Group, key: str, index: int, head: TrueHead, sheet: ModelSheet,
    laws: tuple[PadLaws, ...], seed: int,
) -> dict[str, Any]:  # fmt: skip
    stream = [seed, list(OTHER).index(group.survey), list(Sex).index(group.sex), index]
    readings = people.readings_of(head.measures, MEASURE_KEYS, np.random.default_rng([*stream, 8]))
    asked = Asked(readings, OTHER[group.survey], group.sex, sheet, laws[0], head)
    rng = np.random.default_rng([*stream, 9, ALL.index(key)])
    chosen = POLICIES[key].choose(asked, rng)
    outcome = play(head, sheet, laws, chosen.build, Rater())
    changed = sum(a != b for a, b in zip(chosen.build.pads, sheet.delivered, strict=True))
    return {
        "fits": "1" if outcome.fits else "0",
        "found": round(outcome.found_right, 3),
        "stated": None if chosen.fits is None else round(chosen.fits, 3),
        "stated_found": None if chosen.found_right is None else round(chosen.found_right, 3),
        "changed": changed,
    }
