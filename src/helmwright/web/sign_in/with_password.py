"""What a PIN does not open: the password is asked for beside it, and then for a while not again."""

from datetime import datetime, timedelta

from django.http import HttpRequest

from helmwright.web.sign_in.middleware import BY_PIN, CONFIRMED

LASTS = timedelta(minutes=15)


def wants_password(request: HttpRequest, *, now: datetime) -> bool:
    """Whether a PIN alone opened this session, and no password was typed in it a while ago."""
    if BY_PIN not in request.session:
        return False
    at = request.session.get(CONFIRMED)
    return at is None or not timedelta(0) <= now - datetime.fromisoformat(at) < LASTS


def confirmed(request: HttpRequest, *, now: datetime) -> None:
    """The password was typed just now."""
    request.session[CONFIRMED] = now.isoformat()
