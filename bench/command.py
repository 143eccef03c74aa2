"""The bench's command line."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from bench import first_try, gap, room, solvers, speed
from bench.plan import Plan
from bench.report import publish, say

PARTS = {"speed": speed, "solvers": solvers, "gap": gap, "first-try": first_try, "room": room}
USUAL = ("speed", "solvers")


def main(words: Sequence[str]) -> int:
    """Run the parts that are asked for and return the exit status."""
    asked = _parser().parse_args(words)
    names = list(PARTS) if "all" in asked.parts else list(dict.fromkeys(asked.parts)) or USUAL
    plan = Plan(asked.quick, asked.heads, asked.rows, asked.seed)
    for name in names:
        say(f"{name} begins")
        text = PARTS[name].run(plan)
        sys.stdout.write(f"\n## {name}\n\n{text}\n")
        sys.stdout.flush()
        if not plan.quick:
            publish(name, text)
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="start.py bench",
        description="Measures the program. Without a part: speed and solvers, some minutes. "
        "gap takes some ten minutes and first-try half an hour; both go on where they stopped. "
        "room starts the real server on this machine, on each database: some six minutes.",
    )
    parser.add_argument(
        "parts", nargs="*", choices=[*PARTS, "all"], metavar="PART",
        help="speed, solvers, gap, first-try, room or all",
    )  # fmt: skip
    parser.add_argument("--quick", action="store_true", help="tiny sizes; keeps nothing")
    parser.add_argument("--heads", type=int, metavar="N", help="heads in each group")
    parser.add_argument(
        "--rows", type=Path, metavar="FOLDER",
        help="first-try: play on individual survey rows (CSV) instead of drawn heads",
    )  # fmt: skip
    parser.add_argument("--seed", type=int, default=2026, help="of every draw (default 2026)")
    return parser
