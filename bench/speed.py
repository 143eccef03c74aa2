"""How long answers take: one player, whole rosters, the first answer of a fresh process."""

import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import numpy as np

from bench import report
from bench.plan import Plan
from helmwright.anatomy import Sex, estimate_head
from helmwright.catalogue import load_packaged
from helmwright.fit import CLOSE_LOOK, Effort, propose
from helmwright.roster import Player, Roster, answer_roster
from helmwright.study import people

MODEL = "ouzel"
PLAYERS, ROSTERS = 40, (30, 60, 120)
MIX = (people.TAPE, people.TAPE, people.CALIPER, people.HEIGHT, people.FIVE)
"""What the players of a roster were measured by, in turn."""
UNDRIVEN = Effort(driven_builds=0)
"""Without what drives the chances."""

_HEADINGS = {
    "tape_circumference": "Tape (mm)",
    "head_length": "Length (mm)",
    "head_breadth": "Breadth (mm)",
    "brow_to_top": "Brow to top (mm)",
    "jaw_pad_width": "Jaw width (mm)",
}


def run(plan: Plan) -> str:
    """Measure, keep and tell."""
    count = plan.heads or (2 if plan.quick else PLAYERS)
    sizes = (2, 4) if plan.quick else ROSTERS
    found: dict[str, Any] = {
        "machine": report.machine(),
        "seed": plan.seed,
        "players": count,
        "one": {
            "tape only": one_player(people.TAPE, count, plan.seed),
            "five measures": one_player(people.FIVE, count, plan.seed),
            "five measures, closely": one_player(people.FIVE, count, plan.seed, CLOSE_LOOK),
            "five measures, no drivers": one_player(people.FIVE, count, plan.seed, UNDRIVEN),
        },
        "roster": {str(size): roster_seconds(size, plan.seed) for size in sizes},
        "fresh": fresh_process(max(sizes), plan.seed),
    }
    if not plan.quick:
        report.save("speed", found)
    return words(found)


def one_player(
    measures: tuple[str, ...], count: int, seed: int, effort: Effort | None = None
) -> list[float]:
    """Seconds of each player's answer on one thread, all shells that the chart makes possible."""
    rng = np.random.default_rng([seed, len(measures)])
    sheet = load_packaged(MODEL)
    heads = people.drawn_heads(Sex.MALE, "joined", count + 1, rng)
    seconds = []
    for place, head in enumerate(heads.values):
        estimate = estimate_head(people.readings_of(head, measures, rng), sex=Sex.MALE)
        start = time.perf_counter()
        propose(estimate, sheet, rng=np.random.default_rng([seed, place]), effort=effort)
        seconds.append(round(time.perf_counter() - start, 3))
    report.say(f"one player, {len(measures)} measures: {np.median(seconds[1:]):.2f} s")
    return seconds[1:]


def players(count: int, seed: int) -> tuple[Player, ...]:
    """Players of a roster, with mixed readings."""
    rng = np.random.default_rng([seed, 120])
    heads = people.drawn_heads(Sex.MALE, "joined", count, rng)
    return tuple(
        Player(
            row=row + 2, name=f"Player {row + 1}", sex=Sex.MALE,
            readings=people.readings_of(head, MIX[row % len(MIX)], rng),
        )
        for row, head in enumerate(heads.values)
    )  # fmt: skip


def roster_seconds(count: int, seed: int) -> float:
    """Seconds of a whole roster on every core, as the command runs it, warm."""
    roster, sheet = Roster(players(count, seed)), load_packaged(MODEL)
    start = time.perf_counter()
    answer_roster(roster, sheet, seed=seed)
    seconds = time.perf_counter() - start
    report.say(f"roster of {count}: {seconds:.1f} s")
    return round(seconds, 2)


def roster_file(count: int, seed: int) -> str:
    """The same roster as a manager's file."""
    once = list(_HEADINGS.values())
    lines = [",".join(["Name", "Sex", *once, *(f"{heading} 2" for heading in once)])]
    for player in players(count, seed):
        first: dict[str, str] = {}
        second: dict[str, str] = {}
        for reading in player.readings:
            place = second if reading.measure in first else first
            place[reading.measure] = f"{reading.value_mm:.0f}"
        cells = [values.get(key, "") for values in (first, second) for key in _HEADINGS]
        lines.append(",".join([player.name, "M", *cells]))
    return "\n".join(lines) + "\n"


def fresh_process(size: int, seed: int) -> dict[str, dict[str, Any]]:
    """Seconds and peak memory of whole commands in processes of their own."""
    tape = ["build", "--tape", "22 5/8", "--sex", "M"]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "roster.csv"
        path.write_text(roster_file(size, seed), encoding="utf-8")
        roster = ["roster", str(path), "--out", str(Path(folder) / "answer.txt")]
        nothing_kept = {"NUMBA_CACHE_DIR": str(Path(folder) / "kept")}
        return {
            "first answer, nothing compiled yet": _command(tape, nothing_kept),
            "first answer, compiled before": _command(tape, nothing_kept),
            f"roster of {size}, whole command": _command(roster, nothing_kept),
        }


def _command(words: list[str], environment: dict[str, str]) -> dict[str, Any]:

    start = time.perf_counter()
    done = subprocess.run(
        [sys.executable, str(Path(__file__).with_name("fresh.py")), *words],
        env={**os.environ, **environment}, capture_output=True, encoding="utf-8", check=True,
    )  # fmt: skip
    seconds = time.perf_counter() - start
    report.say(f"{words[0]} in a fresh process: {seconds:.1f} s")
    return {"seconds": round(seconds, 2), **json.loads(done.stderr.splitlines()[-1])}


def words(found: dict[str, Any]) -> str:
    """The tables."""
    one = [
        [name, f"{np.median(s):.2f}", f"{np.quantile(s, 0.9):.2f}", f"{max(s):.2f}"]
        for name, s in found["one"].items()
    ]
    rosters = [
        [size, f"{seconds:.1f}", f"{seconds / int(size):.3f}"]
        for size, seconds in found["roster"].items()
    ]
    fresh = [
        [name, f"{each['seconds']:.1f}", _memory(each["peak_mb"])]
        for name, each in found["fresh"].items()
    ]
    return "\n\n".join(
        [
            f"Measured on {report.machine_words(found['machine'])}; seed {found['seed']}.",
            f"One player, one thread, warm, {found['players']} heads drawn from the prior (men):",
            report.table(["readings", "median [s]", "90 % [s]", "worst [s]"], one),
            "Whole rosters on every core, warm, mixed readings (two in five tape only):",
            report.table(["players", "seconds", "seconds a player"], rosters),
            "Whole commands in a process of their own, from start to end:",
            report.table(["command", "seconds", "peak memory [MB]"], fresh),
        ]
    )


def _memory(peak_mb: float | None) -> str:
    return "not measured here" if peak_mb is None else f"{peak_mb:.0f}"
