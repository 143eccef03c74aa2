"""The pages that are named at the top of every other one, and the mark that all of them bear."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponsePermanentRedirect
from django.shortcuts import redirect
from django.templatetags.static import static
from django.urls import NoReverseMatch, reverse
from django.views.decorators.http import require_safe

from helmwright.records.models import Team
from helmwright.web.allowed import ALLOWED, signed_in
from helmwright.web.sign_in.address import is_plain_beyond_loopback

TOP = (
    ("now", "Now"),
    ("roster", "Roster"),
    ("helmets", "Helmets"),
    ("stores", "Stores"),
    ("day", "Fitting day"),
    ("paper", "Paper"),
    ("staff", "Staff"),
    ("devices", "Devices"),
    ("room", "Room"),
)
"""Name of the address, and its word."""


@dataclass(frozen=True, slots=True)
class Page:
    """One word at the top."""

    word: str
    address: str
    is_here: bool


@require_safe
def icon(_request: HttpRequest) -> HttpResponsePermanentRedirect:
    """The mark of the room, for what no page names it to: a PDF in a window of its own."""
    return redirect(static("web/icon.svg"), permanent=True)


def room(request: HttpRequest) -> Mapping[str, Any]:
    """What the top of every page shows."""
    team = Team.objects.order_by("name").first()
    return {
        "room_name": team.name if team else "Helmwright",
        "pages": _pages(request),
        "is_plain_http": is_plain_beyond_loopback(request),
    }


def _pages(request: HttpRequest) -> list[Page]:
    if not request.user.is_authenticated:
        return []
    role, found = signed_in(request).role, []
    for name, word in TOP:
        if role not in ALLOWED[name]:
            continue
        try:
            address = reverse(name)
        except NoReverseMatch:
            continue
        is_here = request.path == address or (address != "/" and request.path.startswith(address))
        found.append(Page(word, address, is_here))
    return found
