"""Signing in at the desk, with a password; and out again."""

from datetime import datetime
from typing import Any

from django.conf import settings
from django.contrib.auth import authenticate, login, logout
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render, resolve_url
from django.utils import dateformat, timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from helmwright.records.actions.staff import plain_username
from helmwright.records.knocks import knock
from helmwright.records.models import Staff
from helmwright.web.sign_in.address import address_of
from helmwright.web.sign_in.limits import QUARTER, of_password

WRONG = (
    "That name and password do not go together. Check both; in a password small and large letters"
    " differ."
)
WAIT = "Too many tries. Wait until {until}, then try again."


@never_cache
@sensitive_post_parameters("password")
@require_http_methods(["GET", "POST"])
def sign_in(request: HttpRequest) -> HttpResponseBase:
    """The page, and what is typed on it."""
    onward = _onward(request)
    if request.method == "GET":
        return _page(request, onward)
    now = timezone.now()
    shut_until = knock(of_password(address_of(request)), now=now)
    if shut_until:
        return _wait(request, shut_until)
    username = plain_username(request.POST.get("username", ""))
    staff = authenticate(request, username=username, password=request.POST.get("password", ""))
    if not isinstance(staff, Staff):
        return _page(request, onward, trouble=WRONG, username=username, status=401)
    login(request, staff)
    return redirect(onward)


@require_POST
def sign_out(request: HttpRequest) -> HttpResponseBase:
    """The session ends, here and in the database."""
    logout(request)
    return redirect(settings.LOGIN_URL)


def locked_out(request: HttpRequest, *_more: Any) -> HttpResponse:
    """What axes answers instead of the page, once a name was guessed at too often from here."""
    return _wait(request, timezone.now() + QUARTER)


def _wait(request: HttpRequest, until: datetime) -> HttpResponse:
    words = WAIT.format(until=dateformat.format(timezone.localtime(until), "g:i A"))
    return _page(request, _onward(request), trouble=words, status=429)


def _onward(request: HttpRequest) -> str:
    """Where to go on; never to another site."""
    asked = request.POST.get("next") or request.GET.get("next") or ""
    good = url_has_allowed_host_and_scheme(
        asked, allowed_hosts={request.get_host()}, require_https=request.is_secure()
    )
    return asked if good else resolve_url(settings.LOGIN_REDIRECT_URL)


def _page(
    request: HttpRequest, onward: str, *, trouble: str = "", username: str = "", status: int = 200
) -> HttpResponse:
    context = {"onward": onward, "trouble": trouble, "username": username}
    return render(request, "web/doors/sign_in.html", context, status=status)
