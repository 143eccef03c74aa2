"""Where to go on after a door; never to another site."""

from django.conf import settings
from django.http import HttpRequest
from django.shortcuts import resolve_url
from django.utils.http import url_has_allowed_host_and_scheme


def onward(request: HttpRequest) -> str:
    """What the page was asked for with, where it is this room's own; else the start."""
    return own_address(request, request.POST.get("next") or request.GET.get("next") or "")


def own_address(request: HttpRequest, asked: str) -> str:
    """That address where it is this room's own; else the start."""
    good = url_has_allowed_host_and_scheme(
        asked, allowed_hosts={request.get_host()}, require_https=request.is_secure()
    )
    return asked if good else resolve_url(settings.LOGIN_REDIRECT_URL)
