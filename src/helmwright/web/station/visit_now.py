"""Where a visit stands and what comes next, computed where it is due and then kept."""

from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import OperationalError
from django.http import HttpRequest, HttpResponseBase, JsonResponse
from django.utils import timezone

from helmwright.records.actions.visits import say_next
from helmwright.records.models import Visit
from helmwright.records.readers.station_visit import (
    Here,
    begun,
    helmets_for,
    lacking_for,
    own_helmet,
    swaps_in,
    whose,
)
from helmwright.records.readers.visit_events import events_of
from helmwright.web.guiding.asked import Answer, Asked
from helmwright.web.guiding.pool import NoAnswerError, guides
from helmwright.web.station.heard import heard

Json = dict[str, Any]

MOST_TRIES = 5
"""How often others may go on with a visit while what comes next is sought."""

NOT_FOUND = {"error": "There is no such visit here. Begin it first."}
NO_ANSWER = {
    "error": "What comes next was not found in time. Nothing is lost: ask again in a moment.",
    "right": "Ask again; where it does not help, pause the visit and tell the manager.",
}


@heard("station-visit", "GET")
def visit_now(_request: HttpRequest, visit: UUID) -> HttpResponseBase:
    """The visit, and what it waits for."""
    try:
        found = guided(visit)
    except Visit.DoesNotExist:
        return JsonResponse(NOT_FOUND, status=404)
    except (NoAnswerError, OperationalError):
        return JsonResponse(NO_ANSWER, status=503, headers={"Retry-After": "2"})
    return JsonResponse(found)


def guided(visit: UUID) -> Json:
    """What comes next in a visit; what the program has to say is kept first.

    Takes seconds where a build is sought; no transaction is open meanwhile.

    Raises
    ------
    DoesNotExist
        Where there is no such visit, or it has no start yet.
    NoAnswerError
        Where it was not found in time, or others went on again and again.
    """
    for _ in range(MOST_TRIES):
        row = begun(visit)
        events = events_of(row) if row else ()
        if row is None or not events:
            raise Visit.DoesNotExist
        try:
            answer = guides().ask(asked_of(row, events))
        except ValueError as error:
            return _stuck(row, len(events), str(error))
        if not answer.said:
            return _told(row, len(events), answer, now=timezone.now())
        say_next(
            visit=row.id,
            player=row.player_id,
            place=len(events),
            events=answer.said,
            now=timezone.now(),
        )
    raise NoAnswerError("others went on with this visit meanwhile")


def asked_of(row: Visit, events: tuple[Json, ...]) -> Asked:
    """What a process that guides needs to know of a visit."""
    return Asked(
        visit=str(row.id),
        sheet=row.sheet.text,
        digest=row.sheet_id,
        events=events,
        position=row.player.position,
        glasses=row.player.glasses,
    )


def _told(row: Visit, count: int, answer: Answer, *, now: datetime) -> Json:
    here, build, helmet = Here(row), answer.build, row.helmet
    is_over = row.ended_at is not None
    return whose(row) | {
        "count": count,
        "helmet": own_helmet(row, now=now),
        "message": answer.message,
        "proposal": answer.proposal,
        "build": build,
        "drawing": {name: answer.drawing.get(name) for name in ("now", "after")},
        "zones": [{**zone, "here": here.of(zone["zone"], zone["label"])} for zone in answer.zones],
        "helmets": [] if build is None or is_over else helmets_for(row, build, here, now=now),
        "swaps": [] if build is None or helmet is None else swaps_in(helmet, row, build, here),
        "try_ons": answer.try_ons,
        "found": answer.found,
        "other_builds": []
        if is_over
        else [
            {
                **each,
                "lacking": lacking_for(row, each["build"], here, now=now),
                "helmets": helmets_for(row, each["build"], here, now=now),
            }
            for each in answer.other_builds
        ],
        "measure_next": answer.measure_next,
        "told": answer.told,
        "undo": answer.undo,
        "progress": answer.progress,
    }


def _stuck(row: Visit, count: int, why: str) -> Json:
    """The events cannot be guided; the last one may be taken back, or the visit stopped."""
    message = {
        "message": "error",
        "what": why,
        "where": "",
        "right": "Take the last answer back, or stop this visit and begin another.",
        "taken": [],
    }
    return whose(row) | {
        "count": count,
        "helmet": own_helmet(row, now=timezone.now()),
        "message": message,
        "proposal": None,
        "build": row.build,
        "drawing": {"now": None, "after": None},
        "zones": [],
        "helmets": [],
        "swaps": [],
        "try_ons": [],
        "found": [],
        "other_builds": [],
        "measure_next": [],
        "told": {},
        "undo": "The last answer",
        "progress": None,
    }
