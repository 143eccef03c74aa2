"""Staff of every role, and devices, for tests of pages."""

from datetime import UTC, datetime

from django.test import Client
from django.utils import timezone

from helmwright.records.actions.doors import make_code, set_pin
from helmwright.records.actions.staff import join
from helmwright.records.models import Role, Staff
from helmwright.web.sign_in.middleware import COOKIE

PASSWORD = "kingfisher on a post"  # noqa: S105 - of nobody
PIN = "2705"
NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)


def member(role=Role.MANAGER, username="", **changes) -> Staff:
    """Somebody of that role, who signs in by its word."""
    username = username or str(role)
    said = {"name": f"{username.title()} Fordham", "password": PASSWORD, "by": None, "now": NOW}
    return join(username=username, role=role, **{**said, **changes})


def with_pin(role=Role.FITTER, username="", pin=PIN) -> Staff:
    somebody = member(role, username)
    set_pin(staff=somebody, pin=pin)
    return somebody


def station(client: Client, by: Staff, name="Station 1") -> None:
    """Make the client a device that the room knows."""
    code = make_code(name=name, store=None, by=by, now=timezone.now())
    answer = client.post("/enroll/", {"code": code})
    assert answer.status_code == 302, answer.content
    assert COOKIE in answer.cookies
