"""Who may see which page: one table, that views and tests read."""

from collections.abc import Callable, Mapping
from functools import wraps
from typing import Any, Concatenate, ParamSpec, cast
from urllib.parse import urlencode

from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponseBase
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone

from helmwright.records.kinds import people, things
from helmwright.records.kinds.roles import EVERYONE, FITTERS, HANDS, MANAGER_ONLY, SEE_BODY
from helmwright.records.models.people import Role, Staff
from helmwright.web.sign_in.onward import own_address
from helmwright.web.sign_in.with_password import wants_password

ALLOWED: Mapping[str, frozenset[Role]] = {
    "now": EVERYONE,
    "now-seen": EVERYONE,
    "doubts": MANAGER_ONLY,
    "doubts-decide": MANAGER_ONLY,
    "roster": EVERYONE,
    "player": EVERYONE,
    "player-add": people.PlayerAdded.ROLES,
    "player-change": people.PlayerChanged.ROLES,
    "player-measure": people.ReadingTaken.ROLES,
    "player-withdraw": people.ReadingWithdrawn.ROLES,
    "player-leave": people.PlayerLeft.ROLES,
    "player-return": people.PlayerCameBack.ROLES,
    "player-guardian": people.GuardianAdded.ROLES,
    "player-consent": people.ConsentGiven.ROLES,
    "player-take-back": people.ConsentWithdrawn.ROLES,
    "player-hold": people.RetentionHeld.ROLES,
    "player-erase": people.PersonErased.ROLES,
    "player-receipt": people.PersonErased.ROLES,
    "player-drawing": EVERYONE,
    "helmets": EVERYONE,
    "helmet": EVERYONE,
    "helmet-add": things.HelmetAdded.ROLES,
    "helmet-act": HANDS,
    "room": MANAGER_ONLY,
    "room-team": people.TeamOpened.ROLES,
    "room-season": people.SeasonOpened.ROLES,
    "room-store": things.StoreOpened.ROLES,
    "room-sheet": things.SheetAdded.ROLES,
    "stores": EVERYONE,
    "store": EVERYONE,
    "store-open": things.StoreOpened.ROLES,
    "store-act": HANDS,
    "store-count": things.PartsCounted.ROLES,
    "day": EVERYONE,
    "day-board": EVERYONE,
    "day-order": EVERYONE,
    "day-stream": EVERYONE,
    "station": HANDS,
    "station-today": HANDS,
    "station-entries": HANDS,
    "station-visit": FITTERS,
    "station-find": HANDS,
    "station-look-over": FITTERS,
    "confirm": EVERYONE,
    "staff": MANAGER_ONLY,
    "staff-role": people.StaffChanged.ROLES,
    "staff-active": people.StaffChanged.ROLES,
    "staff-password": MANAGER_ONLY,
    "staff-pin": MANAGER_ONLY,
    "staff-erase": MANAGER_ONLY,
    "devices": MANAGER_ONLY,
    "device-rename": people.DeviceChanged.ROLES,
    "device-revoke": people.DeviceRevoked.ROLES,
    "take-in": things.TakenIn.ROLES,
    "take-in-preview": things.TakenIn.ROLES,
    "take-in-do": things.TakenIn.ROLES,
    "take-in-result": FITTERS,
    "take-in-undo": things.TakeInUndone.ROLES,
    "take-in-template": FITTERS,
    "take-in-everything": MANAGER_ONLY,
    "paper": EVERYONE,
    "paper-label": HANDS,
    "paper-labels": HANDS,
    "paper-drawers": HANDS,
    "paper-roster": EVERYONE,
    "paper-blank": EVERYONE,
    "paper-card": SEE_BODY,
    "paper-cards": SEE_BODY,
}
"""The name of an address, and the roles that may ask for it. What is not here nobody may see.

An address at which one kind of entry is said is for those who may say it.
"""

WITH_PASSWORD = frozenset(
    {
        "doubts",
        "doubts-decide",
        "staff",
        "staff-role",
        "staff-active",
        "staff-password",
        "staff-pin",
        "staff-erase",
        "devices",
        "device-rename",
        "device-revoke",
        "player-hold",
        "player-erase",
        "player-receipt",
        "take-in-undo",
        "take-in-everything",
    }
)
"""What four digits, read over a shoulder, do not open: who may do what, which devices are known,
what cannot be brought back, and everything at once. A session of a PIN is asked for the password.
"""

OPEN = frozenset({"sign-in", "sign-out", "enroll", "pin", "station-worker", "icon"})
"""Addresses at which nobody need be signed in; what lets in limits how often it may be tried."""

ON_DEVICES = frozenset({"station"})
"""What a device that the room knows may ask for before anybody signs in: it tells of nobody."""

P = ParamSpec("P")
View = Callable[Concatenate[HttpRequest, P], HttpResponseBase]


def allowed(name: str) -> Callable[[View[P]], View[P]]:
    """Let only those pass who may see the page of that name; others sign in, or are refused."""
    roles = ALLOWED[name]

    def around(view: View[P]) -> View[P]:
        @wraps(view)
        def guarded(request: HttpRequest, *args: P.args, **kwargs: P.kwargs) -> HttpResponseBase:
            if not request.user.is_authenticated:
                return redirect_to_login(request.get_full_path())
            if signed_in(request).role not in roles:
                raise PermissionDenied
            if name in WITH_PASSWORD and wants_password(request, now=timezone.now()):
                return _to_confirm(request)
            return view(request, *args, **kwargs)

        cast("Any", guarded).page = name
        return cast("View[P]", guarded)

    return around


def _to_confirm(request: HttpRequest) -> HttpResponseBase:
    """What was sent is not done; the page that it was sent from comes again afterward."""
    if request.method in {"GET", "HEAD"}:
        asked = {"next": request.get_full_path()}
    else:
        from_page = own_address(request, request.headers.get("Referer", ""))
        asked = {"next": from_page, "unsent": "yes"}
    return redirect(f"{reverse('confirm')}?{urlencode(asked)}")


def signed_in(request: HttpRequest) -> Staff:
    """Who is signed in, where somebody is."""
    return cast("Staff", request.user)
