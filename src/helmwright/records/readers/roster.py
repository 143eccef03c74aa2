"""The whole roster: where each player stands, and how large each head is on one scale.

A fixed number of queries, however many players there are.
"""

import json
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, TypeVar
from uuid import UUID

from django.db.models import Q

from helmwright.records.models import Issue, Player, Private, Reading, Visit, VisitStep
from helmwright.records.readers.refit import refit_reasons
from helmwright.records.readers.standing import Standing, VisitFact, standing
from helmwright.records.readers.tape_size import TapeSize, tape_size

MANY = 50
"""From so many players on, the tables are read whole."""

ON_ROSTER = Q(is_here=True, erased_at=None)
NOT_ERASED = Q(erased_at=None)
"""Those on the roster, and with them those who left it."""

R = TypeVar("R", Reading, Visit, Issue)


@dataclass(frozen=True, slots=True)
class HeldHelmet:
    """A helmet in a player's hands."""

    code: str
    model: str
    shell: int
    purpose: str


@dataclass(frozen=True, slots=True)
class PlayerRow:
    """One player, as a list shows them.

    Parameters
    ----------
    player
        The row itself.
    standing
        Word and mark.
    why
        What the visit waits for, or why a refit is due; may be empty.
    held
        Helmets of the player now.
    shell, found_right
        Of the last proposal; None where there was none.
    size
        On the tape; None where no survey has such people.
    is_shared_number
        Whether another player wears the number too.
    """

    player: Player
    standing: Standing
    why: str
    held: tuple[HeldHelmet, ...]
    shell: int | None
    found_right: float | None
    size: TapeSize | None
    is_shared_number: bool

    @property
    def is_measured(self) -> bool:
        """Whether anything was read off the head."""
        return self.size is not None and self.size.origin != "forecast"


@dataclass(frozen=True, slots=True)
class _Acts:
    """Everything about one player that the other tables hold."""

    readings: Sequence[Reading]
    visits: Sequence[Visit]
    issues: Sequence[Issue]


def player_rows(*, today: date, who: Q | None = None) -> list[PlayerRow]:
    """Everybody on the roster, or those of `who`; in the order of number and name."""
    players = list(Player.objects.filter(ON_ROSTER if who is None else who))
    acts = _acts_of(players)
    worn_then = worn_at_visits(
        [one.visit_id for each in acts.values() for one in each.issues if one.visit_id]
    )
    numbers: dict[str, int] = defaultdict(int)
    for player in players:
        numbers[player.number] += bool(player.number) and player.is_here
    rows = [
        _row(
            player,
            acts[player.pk],
            worn_then,
            is_shared_number=numbers[player.number] > 1,
            today=today,
        )
        for player in players
    ]
    return sorted(rows, key=lambda row: by_number(row.player))


def by_number(player: Player) -> tuple[bool, int, str, str]:
    """Order of a list: 2 before 11, those without a number last."""
    digits = "".join(filter(str.isdigit, player.number))
    return not player.number, int(digits or 0), player.number, player.name.lower()


def worn_at_visits(visits: Sequence[UUID]) -> Mapping[UUID, tuple[str, ...] | None]:
    """What was to be worn under the helmet when each visit began, where that is not erased."""
    steps = dict(VisitStep.objects.filter(visit__in=visits, place=0).values_list("entry", "visit"))
    bodies = Private.objects.filter(entry__in=list(steps)).values_list("entry", "body")
    return {steps[entry]: _worn(json.loads(body)) for entry, body in bodies}


def _worn(said: Mapping[str, Any]) -> tuple[str, ...] | None:
    worn = said.get("worn")
    return None if worn is None else tuple(worn)


def _acts_of(players: Sequence[Player]) -> dict[UUID, _Acts]:
    """Readings, visits and issues of all, three queries."""
    wanted = {player.pk for player in players}
    # A list of many IDs is longer than the table.
    some = Q(player__in=wanted) if len(wanted) < MANY else Q()
    issues = Issue.objects.select_related("helmet", "helmet__sheet", "season")
    readings = _by_player(Reading.objects.filter(some, is_withdrawn=False).order_by("at", "id"))
    visits = _by_player(Visit.objects.filter(some).order_by("began_at"))
    held = _by_player(issues.filter(some).order_by("since"))
    return {pk: _Acts(readings[pk], visits[pk], held[pk]) for pk in wanted}


def _by_player(rows: Iterable[R]) -> dict[UUID, list[R]]:
    found: dict[UUID, list[R]] = defaultdict(list)
    for row in rows:
        found[row.player_id].append(row)
    return found


def _row(
    player: Player,
    acts: _Acts,
    worn_then: Mapping[UUID, tuple[str, ...] | None],
    *,
    is_shared_number: bool,
    today: date,
) -> PlayerRow:
    held = [issue for issue in acts.issues if issue.until is None]
    reasons = [why for issue in held for why in refit_reasons(player, issue, worn_then)]
    last = acts.visits[-1] if acts.visits else None
    stands = standing(
        is_measured=bool(acts.readings),
        visits=[_fact(visit) for visit in acts.visits],
        issued_at=acts.issues[-1].since if acts.issues else None,
        is_held=bool(held),
        refit_why=reasons,
    )
    return PlayerRow(
        player=player,
        standing=stands,
        why=reasons[0] if stands.word == "refit due" else (last.waits_for if last else ""),
        held=tuple(_held(issue) for issue in held),
        shell=_shell(last),
        found_right=last.found_right if last else None,
        size=tape_size(player, acts.readings, today),
        is_shared_number=is_shared_number,
    )


def _fact(visit: Visit) -> VisitFact:
    return VisitFact(visit.state, visit.began_at, visit.found_right is not None, visit.try_ons > 0)


def _held(issue: Issue) -> HeldHelmet:
    helmet = issue.helmet
    return HeldHelmet(helmet.code, helmet.sheet.model, helmet.shell, issue.purpose)


def _shell(visit: Visit | None) -> int | None:
    build = visit.build if visit else None
    return build.get("shell") if isinstance(build, dict) else None
