"""Everything that a station needs for a day: few queries, however many players there are."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date, datetime
from typing import Any, Protocol, TypeVar
from uuid import UUID

from helmwright.anatomy import MEASURES, Over, spoken_name
from helmwright.anatomy.reading import repeat_limit
from helmwright.records.models import (
    Consent,
    Helmet,
    Issue,
    Player,
    Reading,
    Sheet,
    Staff,
    Store,
    Team,
    Visit,
)
from helmwright.records.readers.helmet_refusal import helmet_refusal
from helmwright.records.readers.people import is_minor
from helmwright.records.readers.refit import refit_reasons
from helmwright.records.readers.roster import worn_at_visits
from helmwright.records.readers.standing import VisitFact, standing
from helmwright.records.signature import LEAST_DRAWN, LEAST_LETTERS
from helmwright.records.visit_symptom import open_symptoms
from helmwright.records.warning import CONSENT_TEXT, WARNING

Json = dict[str, Any]
FITTING = "fitting"


class OfPlayer(Protocol):
    """A row of one player."""

    player_id: UUID


Row = TypeVar("Row", bound=OfPlayer)


def room() -> Json:
    """The room itself: its name, its staff, its stores, the models it fits, the measures."""
    team = Team.objects.order_by("name").first()
    return {
        "room": team.name if team else "Helmwright",
        "people": [_person(each) for each in Staff.objects.filter(is_active=True).order_by("name")],
        "stores": [
            {"id": str(each.id), "name": each.name}
            for each in Store.objects.filter(is_closed=False).order_by("name")
        ],
        "sheets": [
            {"digest": each.digest, "model": each.model, "invented": each.is_invented}
            for each in Sheet.objects.filter(is_current=True).defer("text").order_by("model")
        ],
        "measures": [
            {
                "key": each.key,
                "name": spoken_name(each.key),
                "how": each.how,
                "low_mm": each.low_mm,
                "high_mm": each.high_mm,
                "apart_mm": round(repeat_limit(each.key), 3),
            }
            for each in MEASURES
        ],
        "warning": {
            "version": WARNING.version,
            "language": WARNING.language,
            "text": WARNING.text,
        },
        "consent_text": CONSENT_TEXT,
        "signature": {"letters": LEAST_LETTERS, "drawn": LEAST_DRAWN},
    }


def players_today(*, today: date) -> list[Json]:
    """Everybody on the roster, with readings, visits and helmets; eight queries."""
    players = list(Player.objects.filter(is_here=True, erased_at=None).order_by("number", "name"))
    readings = _by_player(Reading.objects.filter(is_withdrawn=False).order_by("at", "id"))
    visits = _by_player(Visit.objects.order_by("began_at"))
    issues = _by_player(Issue.objects.select_related("helmet", "season").order_by("since"))
    worn_then = worn_at_visits(
        [one.visit_id for rows in issues.values() for one in rows if one.visit_id]
    )
    symptoms = open_symptoms()
    consents = set(
        Consent.objects.filter(about=FITTING, withdrawn_at=None).values_list("player", flat=True)
    )
    return [
        _player(
            each,
            readings[each.pk],
            visits[each.pk],
            issues[each.pk],
            worn_then,
            has_consent=each.pk in consents,
            has_symptom=each.pk in symptoms,
            today=today,
        )
        for each in players
    ]


def found_by_code(code: str, *, player: UUID | None, now: datetime) -> Json | None:
    """The helmet of a label's code, who has it or is being fitted with it, and why not to take it.

    Parameters
    ----------
    code
        In letters of any case.
    player
        Whom it is meant for; what this one holds already may be taken. None where nobody was said.
    """
    helmet = Helmet.objects.filter(code=code.strip().upper()).first()
    if helmet is None:
        return None
    issue = Issue.objects.filter(helmet=helmet, until=None).first()
    visit = Visit.objects.filter(helmet=helmet, ended_at=None).first()
    whose = issue.player_id if issue else visit.player_id if visit else None
    pads = helmet.builds.filter(until=None).values_list("pads", flat=True).first()
    why = helmet_refusal(helmet, player, now=now)
    return {
        "helmet": {
            "id": str(helmet.id),
            "code": helmet.code,
            "shell": helmet.shell,
            "pads": pads or {},
            "sheet": helmet.sheet_id,
            "store": str(helmet.store_id),
            "good": not why,
            "why": why,
        },
        "player": str(whose) if whose else None,
        "visit": str(visit.id) if visit else None,
    }


def _player(
    player: Player,
    readings: list[Reading],
    visits: list[Visit],
    issues: list[Issue],
    worn_then: Mapping[UUID, tuple[str, ...] | None],
    *,
    has_consent: bool,
    has_symptom: bool,
    today: date,
) -> Json:
    held = [one for one in issues if one.until is None]
    going_on = next((one for one in visits if one.ended_at is None), None)
    stands = standing(
        is_measured=bool(readings),
        visits=[_fact(one) for one in visits],
        issued_at=issues[-1].since if issues else None,
        is_held=bool(held),
        refit_why=[why for one in held for why in refit_reasons(player, one, worn_then)],
    )
    unsigned = visits[-1] if visits and stands.mark == "fitted" else None
    visit = going_on or unsigned
    return {
        "id": str(player.id),
        "number": player.number,
        "name": player.name,
        "position": player.position,
        "standing": stands.word,
        "mark": stands.mark,
        "helmet": held[-1].helmet.code if held else None,
        "visit": str(visit.id) if visit else None,
        "worn": player.worn,
        "glasses": player.glasses,
        "minor": is_minor(player, today),
        "consent": has_consent,
        "symptom": has_symptom,
        "readings": [_reading(one) for one in readings],
    }


def _fact(visit: Visit) -> VisitFact:
    return VisitFact(visit.state, visit.began_at, visit.found_right is not None, visit.try_ons > 0)


def _reading(row: Reading) -> Json:
    return {
        "id": str(row.id),
        "measure": row.measure,
        "value_mm": row.value_mm,
        "over": row.over or str(Over.UNSTATED),
        "beneath": row.beneath or None,
        "at": row.at.isoformat(),
    }


def _person(staff: Staff) -> Json:
    return {
        "id": str(staff.id),
        "name": staff.name,
        "role": staff.role,
        "has_pin": bool(staff.pin),
    }


def _by_player(rows: Iterable[Row]) -> dict[UUID, list[Row]]:
    found: dict[UUID, list[Row]] = defaultdict(list)
    for row in rows:
        found[row.player_id].append(row)
    return found
