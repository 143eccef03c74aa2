"""The study's tables, in Markdown."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np

from helmwright.anatomy import Sex
from helmwright.study.aims import AIMS, Aim
from helmwright.study.dials import TURNED
from helmwright.study.figures import (
    FOUND,
    TRULY,
    Rows,
    Share,
    Stated,
    accepted_when,
    measured,
    stated,
    told,
)
from helmwright.study.plan import TURNED_POLICIES, Part, Plan
from helmwright.study.policies import OURS, POLICIES, RUNGS, Kind, Looks
from helmwright.study.results import Results
from helmwright.study.task import USUAL

LOOKS = {
    Looks.NONE: "none",
    Looks.AGAIN: "bad answers twice",
    Looks.SURPRISE: "what is doubtful",
}
RUNG_NAMES = (
    "tape", "tape, caliper", "these and ear to top", "these and brow to top", "five measures",
)  # fmt: skip
HEADS = (
    "who leads", "looks again at", "n", "try-ons", "median / p90", "found right first",
    "truly right first", "pads changed", "minutes (assumed)", "never", "falsely accepted",
    "clearly wrong", "to a hand",
)  # fmt: skip


PLOTTED = {
    "try-ons": "Share of visits accepted within so many try-ons, by who leads them",
    "measures": "Truly right first tries and mean try-ons by what was measured",
    "reliability": "Stated chances against what came, in fifths, with 95 percent limits",
    "sensitivities": "Mean try-ons under every truth, with 95 percent limits",
}
"""What each plot shows, for whoever does not see it."""


def tables(plan: Plan, results: Results, plots: Mapping[str, str] | None = None) -> str:
    """Every table that the results allow.

    Parameters
    ----------
    plan, results
        What was asked for, and what was played.
    plots
        File names of plots by what they show, to be put below the tables.
    """
    drawn = plots or {}
    parts = [_intro(plan)]
    for title, body, plot in (
        ("What was aimed at", _aims(plan, results), ""),
        ("Is the study itself sane?", _sanity(plan, results), ""),
        ("Visits", _visits(plan, results), "try-ons"),
        ("What a round of checks tells", _rounds(plan, results), ""),
        ("Women", _women(plan, results), ""),
        ("What each measure buys", _ladder(plan, results), "measures"),
        ("Stated chances against what came", _reliability(plan, results), "reliability"),
        ("What the results hang on", _turned(plan, results), "sensitivities"),
    ):
        if body:
            parts.append(f"### {title}\n\n{body}")
            if plot in drawn:
                parts.append(f"![{PLOTTED[plot]}]({drawn[plot]})")
    return "\n\n".join(parts)


def table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A Markdown table."""
    lines = [list(heads), ["---"] * len(heads), *(list(row) for row in rows)]
    return "\n".join("| " + " | ".join(line) + " |" for line in lines)


def _intro(plan: Plan) -> str:
    origin = "drawn from the surveys' published summaries"
    if plan.rows is not None:
        origin = "taken from the surveys' individual rows"
    return (
        f"`{plan.command}`\n\n"
        f"Heads {origin}, the two surveys in turn, each met with the other's prior; men but where "
        f"said. Numbers after ± are standard errors. Shares in percent."
    )


def number(found: Share, digits: int = 2) -> str:
    """A mean with its standard error; a dash where there is nothing to take one of."""
    if found.count == 0:
        return "-"
    return f"{found.value:.{digits}f} ± {found.error:.{digits}f}"


def percent(found: Share) -> str:
    """A share with its standard error, in percent."""
    return number(Share(100 * found.value, 100 * found.error, found.count), 1)


def _row(key: str, visits: Rows) -> list[str]:
    found = told(visits)
    return [
        *_named(key), str(len(visits)), number(found.try_ons),
        f"{found.median:.0f} / {found.p90:.0f}", percent(found.found_first),
        percent(found.right_first), number(found.pads, 1),
        number(measured(found.minutes, POLICIES[key].measures), 1),
        percent(found.never),
        percent(found.false), percent(found.clear), percent(found.felt),
    ]  # fmt: skip


def _named(key: str) -> tuple[str, str]:
    """Who leads, and what is looked at again."""
    policy = POLICIES[key]
    title = policy.title if policy.kind is not Kind.OURS else f"ours, {_rung(key)}"
    return title, LOOKS[policy.looks]


def _rung(key: str) -> str:
    return dict(zip(RUNGS, RUNG_NAMES, strict=True))[key.partition(" ")[0]]


def _visits(plan: Plan, results: Results) -> str:
    players = plan.players(plan.count(Part.HEADLINE))
    rows = [
        _row(key, visits)
        for key in POLICIES
        if (visits := results.visits(players, USUAL, key)) and not _is_lower_rung(key)
    ]
    return table(HEADS, rows) if rows else ""


def _rounds(plan: Plan, results: Results) -> str:
    """How often what is right is accepted, and what is not."""
    players = plan.players(plan.count(Part.HEADLINE))
    rows = []
    for key in POLICIES:
        visits = results.visits(players, USUAL, key)
        if visits and not _is_lower_rung(key):
            right, wrong = (accepted_when(visits, right=which) for which in (True, False))
            share = 100 * right.count / max(right.count + wrong.count, 1)
            rows.append([*_named(key), f"{share:.0f}", percent(right), percent(wrong)])
    heads = ["who leads", "looks again at", "truly right of all try-ons", "of these accepted"]
    return table([*heads, "of the others accepted"], rows) if rows else ""


def _is_lower_rung(key: str) -> bool:
    return POLICIES[key].kind is Kind.OURS and not key.startswith("five")


def _women(plan: Plan, results: Results) -> str:
    players = plan.players(plan.heads.beside, Sex.FEMALE)
    rows = [
        _row(key, visits) for key in POLICIES if (visits := results.visits(players, USUAL, key))
    ]
    return table(HEADS, rows) if rows else ""


def _ladder(plan: Plan, results: Results) -> str:
    """Every rung on the same heads."""
    players = plan.players(plan.count(Part.RUNGS))
    rows = []
    for looks in (Looks.NONE, Looks.SURPRISE):
        for rung in RUNGS:
            key = f"{rung} {looks}"
            if visits := results.visits(players, USUAL, key):
                rows.append(_row(key, visits))
    return table(HEADS, rows) if len(rows) > 1 else ""


def _aims(plan: Plan, results: Results) -> str:
    rows = [row for aim in AIMS if (row := _aim_row(aim, plan, results))]
    heads = ["aim", "at most", "ambitious", "found", "n", "verdict"]
    return table(heads, rows) if rows else ""


def _aim_row(aim: Aim, plan: Plan, results: Results) -> list[str]:
    keys = [aim.policy, *([aim.against] if aim.against else [])]
    players = [
        player
        for player in plan.players(plan.count(Part.HEADLINE))
        if set(keys) <= set(results.played(player, USUAL))
    ]
    if not players:
        return []
    mine, theirs = (results.visits(players, USUAL, key) for key in (keys[0], keys[-1]))
    found = aim.measure(mine, theirs)
    told_as = percent if aim.percent else number
    return [
        aim.title, _limit(aim, aim.limit), _limit(aim, aim.ambitious), told_as(found),
        str(found.count), verdict(aim, found),
    ]  # fmt: skip


def _sanity(plan: Plan, results: Results) -> str:
    """Truly right first tries that must come out if the play is what it should be."""
    whole, few = (plan.players(plan.count(p)) for p in (Part.HEADLINE, Part.SENSITIVITIES))
    rows = []
    for title, wanted, players, truth, key in (
        ("chart's shell as delivered", "12 to 20 %", whole, USUAL, "one again"),
        ("head and bumps known", "85 to 95 %", whole, USUAL, "known surprise"),
        ("ours, five measures", "much more than the next", few, USUAL, OURS),
        ("the same without friction", "collapses", few, "program without friction", OURS),
    ):
        if visits := results.visits(players, truth, key):
            found = told(visits)
            shown = (str(len(visits)), percent(found.right_first), number(found.try_ons))
            rows.append([title, wanted, *shown])
    heads = ["first build by", "truly right wanted", "n", "truly right first", "try-ons"]
    return table(heads, rows) if rows else ""


def _limit(aim: Aim, limit: float | None) -> str:
    if limit is None:
        return "-"
    word = "at least " if aim.at_least else ""
    return f"{word}{100 * limit:g} %" if aim.percent else f"{word}{limit:g}"


def verdict(aim: Aim, found: Share) -> str:
    """Met or missed, by how much."""
    if not np.isfinite(found.value):
        return "-"
    missed = aim.missed_by(found)
    if missed > 0:
        return f"missed by {_amount(aim, missed)}"
    if aim.ambitious is None:
        return "met"
    further = aim.missed_by(found, aim.ambitious)
    if further <= 0:
        return "met, ambitious too"
    return f"met; ambitious missed by {_amount(aim, further)}"


def _amount(aim: Aim, by: float) -> str:
    return f"{100 * by:.1f} points" if aim.percent else f"{by:.2f}"


def _reliability(plan: Plan, results: Results) -> str:
    visits = results.visits(plan.players(plan.count(Part.HEADLINE)), USUAL, OURS)
    rows = []
    for name, what in (("fits", TRULY), ("found right", FOUND)):
        whole = stated(visits, what)
        if whole.stated.size == 0:
            return ""
        rows.append(_stated_row(name, "all", whole, None))
        for place, fifth in enumerate(whole.fifths(), start=1):
            rows.append(_stated_row(name, f"fifth {place}", whole, fifth))
        for title, span in (("first", (1, 1)), ("second", (2, 2)), ("later", (3, 99))):
            rows.append(_stated_row(name, f"{title} try-on", stated(visits, what, span), None))
    return table(["chance", "try-ons", "n", "stated", "came", "difference"], rows)


def _stated_row(name: str, which: str, found: Stated, inside: Any) -> list[str]:
    gap = found.difference(inside)
    chosen = slice(None) if inside is None else inside
    if gap.count == 0:
        return [name, which, "0", "-", "-", "-"]
    return [
        name, which, str(gap.count), f"{100 * found.stated[chosen].mean():.1f}",
        f"{100 * found.came[chosen].mean():.1f}", f"{100 * gap.value:+.1f} ± {100 * gap.error:.1f}",
    ]  # fmt: skip


def _turned(plan: Plan, results: Results) -> str:
    players = plan.players(plan.count(Part.SENSITIVITIES))
    rows = []
    for truth in (USUAL, *TURNED):
        found = [results.visits(players, truth, key) for key in TURNED_POLICIES]
        if any(found):
            rows.append([truth, *(cell for visits in found for cell in _cells(visits))])
    heads = ["truth"]
    for key in TURNED_POLICIES:
        heads += [f"{_short(key)}: try-ons", "truly right first", "falsely accepted", "never"]
    return table(heads, rows) if len(rows) > 1 else ""


def _cells(visits: Rows) -> list[str]:
    if not visits:
        return ["-"] * 4
    found = told(visits)
    return [
        number(found.try_ons), percent(found.right_first), percent(found.false),
        percent(found.never),
    ]  # fmt: skip


def _short(key: str) -> str:
    return {Kind.ONE_ZONE: "one zone", Kind.ALL_ZONES: "every wrong zone"}.get(
        POLICIES[key].kind, "ours"
    )
