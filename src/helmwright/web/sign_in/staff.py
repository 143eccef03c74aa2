"""Staff: who works in the room, what they may do, and how they sign in."""

from collections.abc import Callable
from uuid import UUID

from django.contrib.auth import update_session_auth_hash
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from helmwright.records.actions.doors import first_reason, set_password, set_pin
from helmwright.records.actions.staff import StaffError, change, erase, join, plain_username
from helmwright.records.meanwhile import MeanwhileError
from helmwright.records.models import Role, Staff
from helmwright.records.pins import WeakPinError
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.meanwhile_words import meanwhile_words
from helmwright.web.opened_mark import WAS, sent_with

NO_NAME = (
    "Both names are needed: the person's, and a short one to sign in with, at most 40 letters."
)

NOT_TYPED = "Nothing was erased: type the sign-in name, {}, letter by letter."

Act = Callable[[], object]


@never_cache
@sensitive_post_parameters("password", "pin")
@allowed("staff")
@require_http_methods(["GET", "POST"])
def staff(request: HttpRequest) -> HttpResponseBase:
    """Everybody; one more."""
    if request.method == "GET":
        return _page(request)
    name, username = request.POST.get("name", "").strip(), request.POST.get("username", "").strip()
    if not (0 < len(name) <= 80 and 0 < len(username) <= 40 and " " not in username):
        return _page(request, trouble=NO_NAME, status=400)
    return _done(
        request,
        lambda: join(
            username=username,
            name=name,
            role=_role(request),
            password=request.POST.get("password") or None,
            pin=request.POST.get("pin", ""),
            by=signed_in(request),
            now=timezone.now(),
        ),
    )


@allowed("staff-role")
@require_POST
def staff_role(request: HttpRequest, person: UUID) -> HttpResponseBase:
    """Another role."""
    row = get_object_or_404(Staff, id=person)
    by, now = signed_in(request), timezone.now()
    opened = sent_with(request.POST).get(WAS)
    try:
        return _done(
            request,
            lambda: change(staff=row, role=_role(request), by=by, now=now, opened=opened),
        )
    except MeanwhileError as error:
        trouble = meanwhile_words(error, lambda each: f"{row.name} is {each.now}", now=now)
        return _page(request, trouble=trouble, status=409, kept=(row.id, _role(request)))


@allowed("staff-active")
@require_POST
def staff_active(request: HttpRequest, person: UUID) -> HttpResponseBase:
    """Gone, or back. Whoever is gone signs in nowhere from this moment on."""
    row = get_object_or_404(Staff, id=person)
    is_active = request.POST.get("active") == "yes"
    by, now = signed_in(request), timezone.now()
    return _done(request, lambda: change(staff=row, is_active=is_active, by=by, now=now))


@allowed("staff-erase")
@require_POST
def staff_erase(request: HttpRequest, person: UUID) -> HttpResponseBase:
    """Both names of somebody who is gone, once the sign-in name was typed."""
    row = get_object_or_404(Staff, id=person)
    if plain_username(request.POST.get("typed", "")) != row.username:
        return _page(request, trouble=NOT_TYPED.format(row.username), status=400)
    by, now = signed_in(request), timezone.now()
    return _done(request, lambda: erase(staff=row, by=by, now=now))


@sensitive_post_parameters("password")
@allowed("staff-password")
@require_POST
def staff_password(request: HttpRequest, person: UUID) -> HttpResponseBase:
    """A new password; every session under the old one ends, but the manager's own."""
    row = get_object_or_404(Staff, id=person)
    answer = _done(
        request, lambda: set_password(staff=row, password=request.POST.get("password", ""))
    )
    if row.id == signed_in(request).id and answer.status_code == 302:
        update_session_auth_hash(request, row)
    return answer


@sensitive_post_parameters("pin")
@allowed("staff-pin")
@require_POST
def staff_pin(request: HttpRequest, person: UUID) -> HttpResponseBase:
    """A new PIN, or none."""
    row = get_object_or_404(Staff, id=person)
    return _done(request, lambda: set_pin(staff=row, pin=request.POST.get("pin", "")))


def _done(request: HttpRequest, act: Act) -> HttpResponseBase:
    """Do it and show everybody; or say why it cannot be done."""
    try:
        act()
    except ValidationError as error:
        return _page(request, trouble=first_reason(error), status=400)
    except (StaffError, WeakPinError) as error:
        return _page(request, trouble=str(error), status=400)
    return redirect("staff")


def _role(request: HttpRequest) -> Role:
    try:
        return Role(request.POST.get("role", ""))
    except ValueError:
        known = ", ".join(Role.values)
        raise StaffError(f"Choose a role: {known}.") from None


def _page(
    request: HttpRequest,
    *,
    trouble: str = "",
    status: int = 200,
    kept: tuple[UUID, Role] | None = None,
) -> HttpResponse:
    """Everybody; `kept` is the role that was chosen for somebody and not given."""
    context = {
        "kept": kept,
        "staff": Staff.objects.order_by("-is_active", "name"),
        "roles": Role.choices,
        "what": WHAT,
        "trouble": trouble,
        "typed": request.POST if "username" in request.POST else {},
    }
    return render(request, "web/doors/staff.html", context, status=status)


WHAT = (
    ("manager", "everything, and who may do what"),
    ("fitter", "readings, fit visits, issue and return"),
    ("student", "stock, counts, moving helmets; no visits"),
    ("athletic trainer", "reads; changes nothing"),
    ("viewer", "reads; changes nothing"),
)
"""What each role may do, in words."""
