"""How far the search's winner lies below the best of a wide enumeration on the same draws."""

import os
import time
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor, as_completed
from dataclasses import dataclass
from threading import Lock
from typing import Any

import numpy as np
import numpy.typing as npt

from bench import report
from bench.enumeration import Enumerated, chances, enumerate_box
from bench.plan import Plan
from helmwright.anatomy import HeadEstimate, Sex, estimate_head
from helmwright.catalogue import ModelSheet, load_packaged
from helmwright.fit import Effort, propose
from helmwright.fit.contact import Trial
from helmwright.fit.covering import worn_tape
from helmwright.fit.proposal import CHART_DRAWS, trial_on
from helmwright.study import people

MODEL = "ouzel"
HEADS, TAPE_ONLY = 20, 4
FRESH = 2000
BOUND = (0.02, 0.08)
"""Mean and worst loss that the search was set to stay under."""

_KEEPING = Lock()


@dataclass(frozen=True)
class Case:
    """One head of the comparison."""

    sex: Sex
    measures: tuple[str, ...]
    index: int

    @property
    def key(self) -> str:
        """Its name in the result file."""
        kind = "tape" if self.measures == people.TAPE else "five"
        return f"{self.sex.value} {kind} {self.index}"


def run(plan: Plan) -> str:
    """Compare, keep each head as it is done, and tell."""
    count = plan.heads or (1 if plan.quick else HEADS)
    found = {} if plan.quick else report.load("gap")
    if found.get("seed") != plan.seed:
        found = {"machine": report.machine(), "seed": plan.seed, "heads": {}}
    cases = cases_of(count, 1 if plan.quick else TAPE_ONLY)
    missing = [case for case in cases if case.key not in found["heads"]]
    for case, record in compared(missing, plan.seed, reach=0 if plan.quick else 1):
        found["heads"][case.key] = record
        report.say(f"gap: {case.key}: {record['lost']:+.3f}, {record['seconds']:.0f} s")
        if not plan.quick:
            report.save("gap", found)
    chosen = {case.key: found["heads"][case.key] for case in cases}
    return words({**found, "heads": chosen})


def cases_of(count: int, tape_only: int) -> list[Case]:
    """Heads of each sex: some with five measures, fewer with the tape alone."""
    sizes = ((people.FIVE, count), (people.TAPE, min(tape_only, count)))
    return [
        Case(sex, measures, index)
        for measures, many in sizes
        for index in range(many)
        for sex in Sex
    ]


def compared(cases: list[Case], seed: int, *, reach: int) -> Iterable[tuple[Case, dict[str, Any]]]:
    """The comparison of every head, as each is done, on every core."""
    pool = ThreadPoolExecutor(os.cpu_count() or 1)
    try:
        jobs = {pool.submit(compare, case, seed, reach=reach): case for case in cases}
        for job in as_completed(jobs):
            yield jobs[job], job.result()
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def compare(case: Case, seed: int, *, reach: int) -> dict[str, Any]:
    """One head: the search, the enumeration on the search's own draws, and both on fresh ones."""
    start = time.perf_counter()
    sheet, key = load_packaged(MODEL), [seed, list(Sex).index(case.sex), case.index]
    rng = np.random.default_rng([*key, 0])
    head = people.drawn_heads(case.sex, "joined", 1, rng).values[0]
    estimate = estimate_head(people.readings_of(head, case.measures, rng), sex=case.sex)
    answer = propose(estimate, sheet, rng=np.random.default_rng([*key, 1]))
    winner, delivered = answer.ranked[0].build, answer.delivered.build
    draws = search_draws(estimate, sheet, winner.shell, np.random.default_rng([*key, 1]))
    ranked = [each.build.pads for each in answer.ranked if each.build.shell == winner.shell]
    whole = enumerate_box(draws, ranked, sheet.delivered, reach=reach)
    shares = chances(draws, ranked)
    builds = [winner.pads, whole.best]
    fresh = fresh_trial(estimate, sheet, winner.shell, np.random.default_rng([*key, 2]))
    anew = chances(fresh, builds)
    return {
        **_counts(whole),
        "delivered": round(chances(draws, [delivered.pads])[0], 4)
        if delivered.shell == winner.shell
        else None,
        "winner": round(shares[0], 4),
        "lost": round(whole.share - shares[0], 4),
        "lost_best_of_ranked": round(whole.share - max(shares), 4),
        "fresh_winner": round(anew[0], 4),
        "fresh_best": round(anew[1], 4),
        "shell": winner.shell,
        "winner_pads": list(winner.pads),
        "best_pads": list(whole.best),
        "seconds": round(time.perf_counter() - start, 1),
    }


def _counts(whole: Enumerated) -> dict[str, Any]:
    return {
        "builds": whole.builds,
        "rests": whole.rests,
        "best": round(whole.share, 4),
    }


def search_draws(
    estimate: HeadEstimate, sheet: ModelSheet, shell: int, rng: np.random.Generator
) -> Trial:
    """The very draws that a proposal from this generator searches on, in one shell.

    A proposal draws heads for the chart first, then those of its race.
    """
    worn_tape(estimate, CHART_DRAWS, rng)
    return trial_on(estimate, sheet, shell, Effort().race, rng)


def fresh_trial(
    estimate: HeadEstimate, sheet: ModelSheet, shell: int, rng: np.random.Generator
) -> Trial:
    """Draws that neither the search nor the enumeration has seen."""
    return trial_on(estimate, sheet, shell, FRESH, rng)


def words(found: dict[str, Any]) -> str:
    """The tables."""
    records = found["heads"]
    groups = {
        f"{sex}, {name}": [r for key, r in records.items() if key.startswith(f"{sex} {kind}")]
        for sex in (each.value for each in Sex)
        for kind, name in (("five", "five measures"), ("tape", "tape only"))
    }
    rows = [_row(name, group) for name, group in [*groups.items(), ("all", list(records.values()))]]
    heads = [
        "heads", "n", "delivered", "search", "best of all", "lost: mean", "worst",
        "best of the ranked: mean", "worst", "fresh draws: search", "best of all", "difference",
    ]  # fmt: skip
    builds = [record["builds"] for record in records.values()]
    return (
        f"Search against {min(builds):,} to {max(builds):,} builds a head, {Effort().race} draws; "
        f"fresh draws: {FRESH:,}. Seed {found['seed']}; "
        f"{np.median([r['seconds'] for r in records.values()]):.0f} s a head and core (median) on "
        f"{report.machine_words(found['machine'])}. It was set to lose less than "
        f"{BOUND[0]:.2f} on average and {BOUND[1]:.2f} at worst.\n\n" + report.table(heads, rows)
    )


def _row(name: str, group: list[dict[str, Any]]) -> list[str]:
    if not group:
        return [name, "0", *["-"] * 10]

    def column(key: str) -> npt.NDArray[np.float64]:
        return np.array([record[key] for record in group if record[key] is not None])

    after = column("fresh_best") - column("fresh_winner")
    error = after.std(ddof=1) / np.sqrt(after.size) if after.size > 1 else 0.0
    delivered = column("delivered")
    return [
        name,
        str(len(group)),
        f"{delivered.mean():.3f}" if delivered.size else "-",
        f"{column('winner').mean():.3f}",
        f"{column('best').mean():.3f}",
        f"{column('lost').mean():.3f}",
        f"{column('lost').max():.3f}",
        f"{column('lost_best_of_ranked').mean():.3f}",
        f"{column('lost_best_of_ranked').max():.3f}",
        f"{column('fresh_winner').mean():.3f}",
        f"{column('fresh_best').mean():.3f}",
        f"{after.mean():+.3f} (SE {error:.3f})",
    ]
