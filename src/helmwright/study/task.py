"""One head's visits under several policies: what one worker does at a time."""

from collections.abc import Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from typing import Any

from helmwright.study.dials import AS_ASSUMED, TURNED, Dials
from helmwright.study.frictionless import without_friction
from helmwright.study.known import by_knowing
from helmwright.study.ours import FirstProposals, by_guide
from helmwright.study.players import Met, Player, meet, origin_of
from helmwright.study.policies import POLICIES, Kind, Looks, Policy
from helmwright.study.rules import all_zones, one_zone
from helmwright.study.visits import Visit, by_rule

USUAL = "as assumed"
DIALS: dict[str, Dials] = {USUAL: AS_ASSUMED, **TURNED}
"""Every truth by its name in tables and files."""

_RULES = {Kind.ONE_ZONE: one_zone, Kind.ALL_ZONES: all_zones}


@dataclass(frozen=True)
class Task:
    """Some policies on one head, under one truth or several.

    Parameters
    ----------
    player
        Whose head.
    plays
        For each truth by its name: the policies by their keys.
    """

    player: Player
    plays: tuple[tuple[str, tuple[str, ...]], ...]


def played(task: Task) -> list[dict[str, Any]]:
    """The head's visits, a row for the result file for each truth.

    What a first proposal does not depend on leaves it as it is: visits with other looks, and
    under truths that neither readings nor program know of, begin from the same one.
    """
    usual = FirstProposals()
    rows = []
    for name, keys in task.plays:
        dials = DIALS[name]
        first = FirstProposals() if dials.first_differs else usual
        with without_friction() if dials.frictionless else nullcontext():
            visits = _visits(task.player, dials, keys, first)
        rows.append(_row(task.player, name, visits))
    return rows


def _row(player: Player, truth: str, visits: dict[str, Visit]) -> dict[str, Any]:
    return {
        "seed": player.seed,
        "heads": origin_of(player.rows),
        "sex": player.sex.value,
        "survey": player.survey,
        "index": player.index,
        "truth": truth,
        "visits": {key: visit.row() for key, visit in visits.items()},
    }


def _visits(
    player: Player, dials: Dials, keys: Sequence[str], first: FirstProposals
) -> dict[str, Visit]:
    met = meet(player, dials)
    return {key: _visit(met, POLICIES[key], first) for key in keys}


def _visit(met: Met, policy: Policy, first: FirstProposals) -> Visit:
    if policy.kind is Kind.OURS:
        return by_guide(met, policy, first)
    if policy.kind is Kind.KNOWN:
        return by_knowing(met, policy)
    again = policy.looks is Looks.AGAIN
    return by_rule(_RULES[policy.kind], met.delivered, met.wearer, met.fitter, again=again)
