"""`helmwright study`: what the method is worth, against heads that are not its model's."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from pathlib import Path
from typing import TYPE_CHECKING

import click

from helmwright.cli.stop import NothingRan, interruptible, tell

if TYPE_CHECKING:
    from helmwright.study import Plan, Results
    from helmwright.study.plan import Sizes

PARTS = ("headline", "rungs", "sensitivities", "all")


@click.command(short_help="Plays fit visits against simulated heads and fitters.")
@click.option(
    "--part",
    type=click.Choice(PARTS),
    default="headline",
    show_default=True,
    help="The main comparison, what each measure buys, what the results hang on, or all.",
)
@click.option(
    "--heads",
    metavar="N[,N,N]",
    help="Heads of every part; or of headline, rungs and sensitivities. Else 1000,250,150.",
)
@click.option("--policies", metavar="LIST", help="Only these, by their keys, with commas between.")
@click.option(
    "--rows",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    metavar="FOLDER",
    help="Individual survey rows (CSV); else heads are drawn from the published summaries.",
)
@click.option("--seed", type=click.IntRange(min=0), default=2027, show_default=True)
@click.option(
    "--results",
    "results_file",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE",
    help="Keep every head's visits here, and go on from what is there.",
)
@click.option(
    "--page",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    metavar="FILE",
    help="Put the tables between the markers of this page, and the plots beside it.",
)
def study(
    *,
    part: str,
    heads: str | None,
    policies: str | None,
    rows: Path | None,
    seed: int,
    results_file: Path | None,
    page: Path | None,
) -> None:
    """Play fit visits led by rules of thumb, by this program, and by one that knows the head.

    Heads, hair, pads, hands and fitters are drawn from a truth that is not the program's model.
    All policies meet the same heads and the same luck. A thousand heads take hours; with --results
    a run that was stopped goes on where it was, as long as the program is the same.
    docs/explanation/study.md says what is assumed.
    """
    from helmwright.cli.terminal import progress
    from helmwright.study.fingerprint import fingerprint
    from helmwright.study.page import MissingMarkersError, check, put
    from helmwright.study.plan import Part, Plan
    from helmwright.study.results import Results, ResultsOfAnotherRunError
    from helmwright.study.run import run
    from helmwright.study.tables import tables

    try:
        check(page)
    except MissingMarkersError as error:
        raise NothingRan(str(error)) from error
    plan = Plan(Part(part), _sizes(heads), _listed(policies), rows, seed)
    kept = "stopped; what was played is kept" if results_file else "stopped; nothing was kept"
    with interruptible(kept):
        try:
            results = Results(results_file, seed, plan.origin, fingerprint())
        except ResultsOfAnotherRunError as error:
            raise NothingRan(str(error)) from error
        tasks = plan.tasks(results)
        with progress(len(tasks), "Playing visits on heads") as tick:
            run(tasks, results, tick)
    if page is None:
        click.echo(tables(plan, results))
    else:
        put(tables(plan, results, _plots(plan, results, page.parent)), page)
        tell(f"tables are in {page}")


def _sizes(heads: str | None) -> "Sizes":
    from helmwright.study.plan import Sizes

    if heads is None:
        return Sizes()
    counts = [int(word) if word.strip().isdecimal() else 0 for word in heads.split(",")]
    if len(counts) not in {1, 3} or min(counts) < 1:
        raise NothingRan(
            f'--heads "{heads}": one number for every part, such as 60, or three for headline, '
            "rungs and sensitivities, such as 600,150,60, would be right"
        )
    return Sizes(*counts) if len(counts) == 3 else Sizes.alike(counts[0])


def _listed(policies: str | None) -> tuple[str, ...] | None:
    from helmwright.study.policies import POLICIES

    if policies is None:
        return None
    keys = tuple(key.strip() for key in policies.split(","))
    unknown = [key for key in keys if key not in POLICIES]
    if unknown:
        listed = ", ".join(POLICIES)
        raise NothingRan(f'there is no policy "{unknown[0]}"; policies are {listed}')
    return keys


def _plots(plan: "Plan", results: "Results", folder: Path) -> dict[str, str]:
    from helmwright.study.plots import PlotsMissingError, draw_plots

    try:
        return draw_plots(plan, results, folder)
    except PlotsMissingError as error:
        tell(f"{error}; the tables come without")
        return {}
