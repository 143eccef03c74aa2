"""What a form of the desk says happened, on its way into the ledger."""

from collections.abc import Callable
from datetime import UTC, datetime
from urllib.parse import urlencode

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest
from django.urls import NoReverseMatch, reverse

from helmwright.records import saying
from helmwright.records.kinds import Payload
from helmwright.records.ledger import SameIdError, alone
from helmwright.records.taking_in.upload import ROLES
from helmwright.web.allowed import signed_in
from helmwright.web.desk.once import SENT_BEFORE, once


def say(
    request: HttpRequest, payload: Payload, words: str, unless: Callable[[], None] | None = None
) -> bool:
    """Keep it, and tell the person what became of it; whether it took effect.

    Raises PermissionDenied for a role that may not say such a thing, and whatever `unless` raises,
    which looks at the records while nobody else changes them.
    """
    try:
        with alone():
            if unless is not None:
                unless()
            kept = saying.say(
                payload, by=signed_in(request), now=datetime.now(UTC), entry=once(request)
            )
    except SameIdError:
        messages.error(request, SENT_BEFORE)
        return False
    except saying.MayNotSayError as error:
        raise PermissionDenied(str(error)) from error
    if kept.is_taken:
        messages.success(request, words)
    else:
        messages.error(request, f"Kept, but without effect: {kept.entry.note}")
    return kept.is_taken


def may_say(request: HttpRequest, kind: type[Payload]) -> bool:
    """Whether who is signed in has a role for that kind of entry."""
    return signed_in(request).role in kind.ROLES


def address_of(name: str, *parts: str) -> str:
    """Where a page is; empty while it is not built."""
    try:
        return reverse(name, args=parts)
    except NoReverseMatch:
        return ""


def take_in_address(request: HttpRequest, what: str) -> str:
    """Where a file of that kind is taken in; empty for a role that may not."""
    may = signed_in(request).role in ROLES[what]
    return f"{reverse('take-in')}?{urlencode({'what': what})}" if may else ""
