"""What a station asks at the beginning of a day, and of a label."""

from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponseBase, JsonResponse
from django.utils import timezone

from helmwright.records.kinds.roles import FITTERS
from helmwright.records.models import Staff
from helmwright.records.readers.station_today import found_by_code, players_today, room
from helmwright.records.words import room_day
from helmwright.web.allowed import signed_in
from helmwright.web.station.heard import heard, station_of

Json = dict[str, Any]

NOT_TOLD: Json = {"readings": [], "symptom": False, "worn": [], "glasses": None}
"""Of a player, to whoever fits nobody."""


@heard("station-today", "GET")
def today(request: HttpRequest) -> HttpResponseBase:
    """The room, its people and its players."""
    now, device, person = timezone.now(), station_of(request), signed_in(request)
    return JsonResponse(
        {
            "server_time": now.isoformat(),
            **room(),
            "device": None
            if device is None
            else {
                "id": str(device.id),
                "name": device.name,
                "store": str(device.store_id) if device.store_id else None,
            },
            "person": {"id": str(person.id), "name": person.name, "role": person.role},
            "players": [_for(person, each) for each in players_today(today=room_day(now))],
        }
    )


def _for(person: Staff, player: Json) -> Json:
    """Heads, health and what is worn are for those who fit; others have the list."""
    return player if person.role in FITTERS else player | NOT_TOLD


@heard("station-find", "GET")
def find(request: HttpRequest) -> HttpResponseBase:
    """The helmet of a label."""
    code = request.GET.get("code", "")
    found = found_by_code(code, player=_whom(request), now=timezone.now())
    if found is None:
        said = "No helmet here has this code. Look at its label, or find the player by number."
        return JsonResponse({"error": said}, status=404)
    return JsonResponse(found)


def _whom(request: HttpRequest) -> UUID | None:
    """For whom a helmet is asked; None where nobody, or no ID, was said."""
    try:
        return UUID(request.GET.get("player", ""))
    except ValueError:
        return None
