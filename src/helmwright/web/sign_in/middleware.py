"""Which device speaks, and whether somebody who signed in there by PIN is still there."""

from datetime import datetime, timedelta
from typing import Any, cast
from uuid import UUID

from django.conf import settings
from django.contrib.auth import logout
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.crypto import salted_hmac
from django.utils.deprecation import MiddlewareMixin

from helmwright.records.actions.doors import heard, known_device
from helmwright.records.models import Device, Staff

COOKIE = "helmwright_device"
COOKIE_LASTS = timedelta(days=400)
_SALT = "helmwright.device"

BY_PIN = "by_pin"
"""What a session that a PIN opened keeps: the device, the mark of the PIN, the last act."""

CONFIRMED = "with_password_at"
"""When such a session was confirmed with the password; it is then good for more, for a while."""


class DeviceMiddleware(MiddlewareMixin):
    """Sets `request.device`, and ends what a PIN opened once it should not go on.

    Costs a query only for a request that carries the cookie of a device.
    """

    def process_request(self, request: HttpRequest) -> None:
        """Before any view."""
        now = timezone.now()
        device = device_of(request)
        cast("Any", request).device = device
        if device is not None:
            heard(device, now=now)
        kept = request.session.get(BY_PIN)
        if kept is None:
            return
        if not _goes_on(kept, device, request.user, now):
            logout(request)
        elif request.method == "POST":
            request.session[BY_PIN] = {**kept, "at": now.isoformat()}


def device_of(request: HttpRequest) -> Device | None:
    """The device that the cookie names, where the room knows it."""
    shown = request.get_signed_cookie(COOKIE, default="", salt=_SALT)
    name, _, token = (shown or "").partition(" ")
    try:
        return known_device(UUID(name), token)
    except ValueError:
        return None


def remember_device(response: HttpResponse, device: Device, token: str) -> None:
    """Give the device the cookie by which it is known from now on."""
    response.set_signed_cookie(
        COOKIE,
        f"{device.id} {token}",
        salt=_SALT,
        max_age=int(COOKIE_LASTS.total_seconds()),
        httponly=True,
        secure=settings.SESSION_COOKIE_SECURE,
        samesite="Lax",
    )


def begin_by_pin(request: HttpRequest, device: Device, staff: Staff, *, now: datetime) -> None:
    """Note in the session that a PIN opened it, and where."""
    request.session.pop(CONFIRMED, None)
    request.session[BY_PIN] = {
        "device": str(device.id),
        "pin": mark_of(staff),
        "at": now.isoformat(),
    }


def mark_of(staff: Staff) -> str:
    """What changes when the PIN does."""
    return salted_hmac("helmwright.pin", staff.pin).hexdigest()


def _goes_on(kept: dict[str, str], device: Device | None, user: Any, now: datetime) -> bool:
    idle = now - datetime.fromisoformat(kept["at"])
    return (
        device is not None
        and str(device.id) == kept["device"]
        and user.is_authenticated
        and mark_of(user) == kept["pin"]
        and idle < timedelta(minutes=settings.PIN_IDLE_MINUTES)
    )
