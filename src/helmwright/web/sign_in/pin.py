"""Signing in at a station, by PIN, on a device that the room knows."""

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.contrib.auth import login
from django.http import HttpRequest, JsonResponse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods

from helmwright.records.actions.doors import is_pin_of
from helmwright.records.actions.speakers import heard_here
from helmwright.records.kinds.roles import HANDS
from helmwright.records.knocks import forget, knock
from helmwright.records.models import Device, Staff
from helmwright.web.sign_in.limits import of_pin
from helmwright.web.sign_in.middleware import begin_by_pin

BACKEND = "django.contrib.auth.backends.ModelBackend"

UNKNOWN_DEVICE = (
    "This device is not known to the room, so it takes no PIN. Sign in with a password, or have"
    " the manager enroll it under Devices."
)
NO_FORM = "Wanted: staff, an ID as a text, and pin, digits as a text."
WRONG = "That PIN is not right."


@dataclass(frozen=True, slots=True)
class Shown:
    """What was typed at a station."""

    staff: UUID
    pin: str


@never_cache
@require_http_methods(["GET", "POST"])
def pin(request: HttpRequest) -> JsonResponse:
    """Who has a PIN; and whoever types it has the station from now on.

    The session before it ends. A device that the room knows is told names before anybody signs in.
    """
    device: Device | None = getattr(request, "device", None)
    if device is None:
        return JsonResponse({"error": UNKNOWN_DEVICE}, status=403)
    if request.method == "GET":
        return JsonResponse({"device": device.name, "people": _with_pin()})
    shown = _shown(request.body)
    if shown is None:
        return JsonResponse({"error": NO_FORM}, status=400)
    return _judged(request, device, shown, now=timezone.now())


def _with_pin() -> list[dict[str, str]]:
    people = Staff.objects.filter(is_active=True, role__in=HANDS).exclude(pin="").order_by("name")
    return [
        {"id": str(each.id), "name": each.name, "role": each.get_role_display()} for each in people
    ]


def _judged(request: HttpRequest, device: Device, shown: Shown, *, now: datetime) -> JsonResponse:
    limits = of_pin(device.id, shown.staff)
    shut_until = knock(limits, now=now)
    if shut_until:
        return JsonResponse({"until": shut_until.isoformat()}, status=429)
    staff = Staff.objects.filter(id=shown.staff, is_active=True).first()
    if not is_pin_of(staff, shown.pin) or staff is None:
        return JsonResponse({"error": WRONG}, status=401)
    forget(limits[0])
    login(request, staff, backend=BACKEND)
    begin_by_pin(request, device, staff, now=now)
    heard_here(device=device, staff=staff, now=now)
    return JsonResponse({"id": str(staff.id), "name": staff.name, "role": staff.role})


def _shown(body: bytes) -> Shown | None:
    try:
        said: Any = json.loads(body)
        return Shown(UUID(said["staff"]), str(said["pin"]))
    except (ValueError, KeyError, TypeError, AttributeError):
        return None
