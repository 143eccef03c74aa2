"""The tables of first builds."""

from itertools import pairwise
from typing import Any

import numpy as np
import numpy.typing as npt

from bench import report
from bench.policies import POLICIES

Floats = npt.NDArray[np.float64]

TITLES = {"us_army_2012": "Army 2012", "niosh_2003": "NIOSH 2003"}
STEPS = (0.0, 0.2, 0.3, 0.4, 0.5, 0.6, 1.0)
"""Edges between which stated chances are put together."""

RELIABILITY = ("tape", "caliper", "height", "five")


def words(found: dict[str, Any], count: int) -> str:
    """What was played and how it came out, and how stated chances held."""
    plays = found["plays"]
    origin = _origin(found["heads_from"])
    intro = f"{count} heads a row and survey, {origin}; seed {found['seed']}."
    parts = [f"{intro} Percentages with their standard errors."]
    for sex in ("male", "female"):
        parts += [
            _group(plays, sex, survey, count) for survey in TITLES if _has(plays, survey, sex)
        ]
    parts.append("Stated against true, all groups and readings of this program put together:")
    parts.append(reliability(plays, count))
    return "\n\n".join(parts)


def _origin(heads_from: str) -> str:
    if heads_from == "rows":
        return "taken at random from the survey's individual rows"
    return "drawn from the survey's published summary"


def _has(plays: dict[str, Any], survey: str, sex: str) -> bool:
    return any(key.startswith(f"{survey} {sex} ") for key in plays)


def _group(plays: dict[str, Any], sex: str, survey: str, count: int) -> str:
    other = next(title for key, title in TITLES.items() if key != survey)
    title = f"{'Men' if sex == 'male' else 'Women'} of {TITLES[survey]}, prior of {other}:"
    rows = [
        _row(policy.name, plays[name], count)
        for key, policy in POLICIES.items()
        if (name := f"{survey} {sex} {key}") in plays
    ]
    heads = [
        "first build by", "n", "truly fits", "stated", "found right", "stated", "pads changed",
    ]  # fmt: skip
    return f"{title}\n\n{report.table(heads, rows)}"


def _row(name: str, plays: dict[str, Any], count: int) -> list[str]:
    fits = _bits(plays["fits"][:count])
    found = np.array(plays["found"][:count])
    return [
        name,
        str(fits.size),
        percent(fits),
        _stated(plays["stated"][:count]),
        percent(found),
        _stated(plays["stated_found"][:count]),
        f"{np.mean(plays['changed'][:count]):.1f}",
    ]


def _bits(text: str) -> Floats:
    return np.array([float(each) for each in text])


def percent(values: Floats) -> str:
    """Mean of shares with its standard error, in percent."""
    error = values.std() / np.sqrt(values.size)
    return f"{100 * values.mean():.0f} ± {100 * error:.1f}"


def _stated(values: list[float | None]) -> str:
    known = [value for value in values if value is not None]
    return f"{100 * np.mean(known):.0f}" if known else "-"


def reliability(plays: dict[str, Any], count: int) -> str:
    """Stated chances of truly fitting and of being found right, against what happened."""
    chosen = [each for key, each in plays.items() if key.rsplit(" ", 1)[-1] in RELIABILITY]
    rows = []
    for what, stated_key, true_key in (
        ("truly fits", "stated", "fits"),
        ("found right", "stated_found", "found"),
    ):
        stated = np.concatenate([np.array(each[stated_key][:count]) for each in chosen])
        true = np.concatenate([_true(each[true_key][:count]) for each in chosen])
        rows += _bins(what, stated, true)
    return report.table(["chance", "stated between", "n", "stated", "true", "difference"], rows)


def _true(values: str | list[float]) -> Floats:
    return _bits(values) if isinstance(values, str) else np.array(values)


def _bins(what: str, stated: Floats, true: Floats) -> list[list[str]]:
    rows = []
    edges = [*pairwise(STEPS), (0.0, 1.01)]
    for low, high in edges:
        inside = (stated >= low) & (stated < high)
        if inside.any():
            whole = (low, high) == edges[-1]
            gap = 100 * (stated[inside] - true[inside])
            error = gap.std() / np.sqrt(gap.size)
            rows.append(
                [
                    what,
                    "all" if whole else f"{100 * low:.0f} and {100 * high:.0f} %",
                    str(int(inside.sum())),
                    f"{100 * stated[inside].mean():.1f}",
                    f"{100 * true[inside].mean():.1f}",
                    f"{gap.mean():+.1f} ± {error:.1f}",
                ]
            )
    return rows
