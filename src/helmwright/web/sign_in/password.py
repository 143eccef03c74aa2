"""Signing in at the desk, with a password; and out again."""

from datetime import datetime
from typing import Any

from django.conf import settings
from django.contrib.auth import authenticate, login, logout
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import dateformat, timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from helmwright.records.actions.speakers import heard_here
from helmwright.records.actions.staff import plain_username
from helmwright.records.knocks import knock
from helmwright.records.models import Device, Staff
from helmwright.web.sign_in.address import address_of
from helmwright.web.sign_in.limits import QUARTER, of_password
from helmwright.web.sign_in.middleware import BY_PIN
from helmwright.web.sign_in.onward import onward

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
    after = onward(request)
    if request.method == "GET":
        return _page(request, after)
    now = timezone.now()
    shut_until = knock(of_password(address_of(request)), now=now)
    if shut_until:
        return _wait(request, shut_until)
    username = plain_username(request.POST.get("username", ""))
    staff = authenticate(request, username=username, password=request.POST.get("password", ""))
    if not isinstance(staff, Staff):
        return _page(request, after, trouble=WRONG, username=username, status=401)
    login(request, staff)
    # Of the same person the session goes on, with what a PIN left in it.
    if request.session.pop(BY_PIN, None):
        request.session.cycle_key()
    device: Device | None = getattr(request, "device", None)
    if device is not None:
        heard_here(device=device, staff=staff, now=now)
    return redirect(after)


@require_POST
def sign_out(request: HttpRequest) -> HttpResponseBase:
    """The session ends, here and in the database."""
    logout(request)
    return redirect(settings.LOGIN_URL)


def locked_out(request: HttpRequest, *_more: Any) -> HttpResponse:
    """What axes answers instead of the page, once a name was guessed at too often from here."""
    return _wait(request, timezone.now() + QUARTER)


def _wait(request: HttpRequest, until: datetime) -> HttpResponse:
    return _page(request, onward(request), trouble=wait_words(until), status=429)


def wait_words(until: datetime) -> str:
    """That it was tried too often, and when it may be tried again."""
    return WAIT.format(until=dateformat.format(timezone.localtime(until), "g:i A"))


def _page(
    request: HttpRequest, after: str, *, trouble: str = "", username: str = "", status: int = 200
) -> HttpResponse:
    context = {"onward": after, "trouble": trouble, "username": username}
    return render(request, "web/doors/sign_in.html", context, status=status)
