"""The study's plots, as SVG: they need matplotlib, which comes with the extra "study"."""

from collections.abc import Callable, Iterable
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from helmwright.study.dials import TURNED
from helmwright.study.figures import FOUND, TRULY, Rows, stated, told
from helmwright.study.plan import TURNED_POLICIES, Part, Plan
from helmwright.study.policies import OURS, POLICIES, RUNGS, Kind
from helmwright.study.results import Results
from helmwright.study.task import USUAL

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

STYLE: Any = {
    "svg.hashsalt": "helmwright",
    "svg.fonttype": "none",
    "font.family": "sans-serif",
    "font.size": 10.0,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "grid.color": "#dddddd",
    "figure.facecolor": "white",
    "axes.axisbelow": True,
}
"""The same bytes each time, and text that can be searched."""

LOOK = {
    Kind.OURS: {"color": "#0a3d6b", "marker": "o", "linestyle": "-"},
    Kind.ALL_ZONES: {"color": "#b5651d", "marker": "s", "linestyle": "--"},
    Kind.ONE_ZONE: {"color": "#6f6f6f", "marker": "^", "linestyle": ":"},
    Kind.KNOWN: {"color": "#000000", "marker": "D", "linestyle": "-."},
}
"""By shape, dash and lightness as well as by color: readable in gray."""

NAMES = {
    Kind.OURS: "this program, five measures",
    Kind.ALL_ZONES: "chart, every wrong zone",
    Kind.ONE_ZONE: "chart, one zone a try-on",
    Kind.KNOWN: "head and bumps known",
}
SHOWN = (OURS, "known surprise", "all again", "one again")


class PlotsMissingError(RuntimeError):
    """Matplotlib is not installed."""


def draw_plots(plan: Plan, results: Results, folder: Path) -> dict[str, str]:
    """Write every plot that the results allow, and give their file names by what they show.

    Raises
    ------
    PlotsMissingError
        Where matplotlib is not installed.
    """
    if find_spec("matplotlib") is None:
        raise PlotsMissingError(
            'plots need matplotlib; install it with: pip install "helmwright[study]"'
        )
    import matplotlib as mpl  # noqa: PLC0415 - an extra

    written: dict[str, str] = {}
    with mpl.rc_context(STYLE):
        for name, drawn in PLOTS.items():
            figure = drawn(plan, results)
            if figure is not None:
                written[name] = f"study-{name}.svg"
                figure.savefig(
                    folder / written[name], format="svg", metadata={"Date": None, "Creator": None}
                )
    return written


def _figure(width: float, height: float, columns: int = 1) -> "tuple[Figure, list[Axes]]":
    from matplotlib.figure import Figure  # noqa: PLC0415 - an extra

    figure = Figure(figsize=(width, height), layout="constrained")
    axes = figure.subplots(1, columns, sharey=columns > 1, squeeze=False)[0]
    return figure, list(axes)


def _try_ons(plan: Plan, results: Results) -> "Figure | None":
    """Share of visits that were accepted within so many try-ons."""
    players = plan.players(plan.count(Part.HEADLINE))
    found = {key: results.visits(players, USUAL, key) for key in SHOWN}
    if sum(map(bool, found.values())) < 2:
        return None
    figure, (axes,) = _figure(6.4, 4.0)
    for key, visits in found.items():
        if visits:
            counts = np.array(told(visits).counts[:-1])
            share = 100.0 * np.cumsum(counts) / len(visits)
            kind = POLICIES[key].kind
            label = f"{NAMES[kind]} ({len(visits)} heads)"
            axes.plot(np.arange(1, share.size + 1), share, label=label, **_line(kind))
    axes.set(xlabel="try-ons", ylabel="visits accepted within so many [%]", ylim=(0, 102))
    axes.legend(frameon=False, loc="lower right")
    return figure


def _line(kind: Kind) -> dict[str, Any]:
    return {**LOOK[kind], "markersize": 6, "linewidth": 1.6}


def _reliability(plan: Plan, results: Results) -> "Figure | None":
    """Stated chances against what came, in fifths."""
    visits = results.visits(plan.players(plan.count(Part.HEADLINE)), USUAL, OURS)
    if len(visits) < 2:
        return None
    figure, panels = _figure(8.0, 4.2, 2)
    for axes, what, title in zip(
        panels, (TRULY, FOUND), ("truly fits", "is found right"), strict=True
    ):
        whole = stated(visits, what)
        axes.fill_between([0, 100], [-5, 95], [5, 105], color="#e6e6e6", label="within 5 points")
        axes.plot([0, 100], [0, 100], color="#888888", linewidth=1.0)
        for fifth in whole.fifths():
            if fifth.any():
                gap = whole.difference(fifth)
                axes.errorbar(
                    100 * whole.stated[fifth].mean(), 100 * whole.came[fifth].mean(),
                    yerr=196 * gap.error, color="#0a3d6b", marker="o", capsize=3,
                )  # fmt: skip
        axes.set(xlim=(0, 100), ylim=(0, 100), xlabel=f"stated: {title} [%]", aspect="equal")
    panels[0].set_ylabel("came [%]")
    panels[0].legend(frameon=False, loc="upper left")
    return figure


def _measures(plan: Plan, results: Results) -> "Figure | None":
    """First tries and try-ons by what was measured."""
    players = plan.players(plan.count(Part.RUNGS))
    found = {rung: results.visits(players, USUAL, f"{rung} surprise") for rung in RUNGS}
    known = results.visits(players, USUAL, "known surprise")
    rows = [(RUNGS[rung][0], visits) for rung, visits in found.items() if visits]
    rows += [(NAMES[Kind.KNOWN], known)] if known else []
    if len(rows) < 2:
        return None
    figure, (first, tries) = _figure(8.0, 2.8, 2)
    for place, (_, visits) in enumerate(rows):
        came = told(visits)
        _dot(first, place, 100 * came.right_first.value, 100 * came.right_first.error, "o")
        _dot(tries, place, came.try_ons.value, came.try_ons.error, "s")
    first.set(xlabel="truly right at the first try [%]")
    tries.set(xlabel="try-ons, mean")
    _name_rows(first, [name for name, _ in rows])
    return figure


def _dot(axes: "Axes", place: float, value: float, error: float, marker: str) -> None:
    axes.errorbar(
        value, place, xerr=1.96 * error, color="#0a3d6b", marker=marker, capsize=3, linestyle=""
    )


def _name_rows(axes: "Axes", names: list[str]) -> None:
    axes.set_yticks(range(len(names)), names)
    axes.set_ylim(len(names) - 0.5, -0.5)


def _sensitivities(plan: Plan, results: Results) -> "Figure | None":
    """Try-ons under every truth."""
    players = plan.players(plan.count(Part.SENSITIVITIES))
    rows = [
        (truth, found)
        for truth in (USUAL, *TURNED)
        if any((found := _under(players, results, truth)).values())
    ]
    if len(rows) < 2:
        return None
    figure, (axes,) = _figure(7.2, 0.4 * len(rows) + 1.2)
    for shift, key in zip((-0.18, 0.0, 0.18), reversed(TURNED_POLICIES), strict=True):
        kind = POLICIES[key].kind
        some = [
            (place + shift, told(f[key]).try_ons) for place, (_, f) in enumerate(rows) if f[key]
        ]
        axes.errorbar(
            [each.value for _, each in some], [place for place, _ in some],
            xerr=[1.96 * each.error for _, each in some], label=NAMES[kind], capsize=2,
            color=LOOK[kind]["color"], marker=LOOK[kind]["marker"], linestyle="", markersize=5,
        )  # fmt: skip
    axes.set(xlabel="try-ons, mean; never fitted counts as nine", xlim=(1, 9))
    _name_rows(axes, [truth for truth, _ in rows])
    figure.legend(frameon=False, loc="outside upper center", ncols=3, fontsize=8)
    return figure


def _under(players: Iterable[Any], results: Results, truth: str) -> dict[str, Rows]:
    return {key: results.visits(players, truth, key) for key in TURNED_POLICIES}


PLOTS: "dict[str, Callable[[Plan, Results], Figure | None]]" = {
    "try-ons": _try_ons,
    "measures": _measures,
    "reliability": _reliability,
    "sensitivities": _sensitivities,
}
"""Every plot by its name."""
