"""Devices: which ones the room knows, and how one becomes known."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from helmwright.records.actions.doors import (
    NameInUseError,
    NoSuchCodeError,
    enroll,
    make_code,
    rename,
    revoke,
)
from helmwright.records.knocks import knock
from helmwright.records.meanwhile import Meanwhile, MeanwhileError
from helmwright.records.models import Device, Store
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.sign_in.address import address_of
from helmwright.web.sign_in.limits import of_code
from helmwright.web.sign_in.meanwhile_words import meanwhile_words
from helmwright.web.sign_in.middleware import remember_device

Typed = Mapping[str, Any]
NONE: Typed = MappingProxyType({})
TOO_OFTEN = "Too many codes were tried. Wait a quarter of an hour, then have a new one made."
NO_NAME = "Give the device a name that is written on it, such as Station 3; 40 letters at most."


@never_cache
@allowed("devices")
@require_http_methods(["GET", "POST"])
def devices(request: HttpRequest) -> HttpResponseBase:
    """Those that are known; a code for one more."""
    if request.method == "GET":
        return _page(request)
    name = request.POST.get("name", "").strip()
    store_id = _uuid(request.POST.get("store", ""))
    store = Store.objects.filter(id=store_id).first() if store_id else None
    if not name or len(name) > 40:
        return _page(request, trouble=NO_NAME, status=400)
    try:
        code = make_code(name=name, store=store, by=signed_in(request), now=timezone.now())
    except NameInUseError as error:
        return _page(request, trouble=str(error), status=409)
    return _page(request, code=f"{code[:4]} {code[4:]}", name=name)


@allowed("device-rename")
@require_POST
def device_rename(request: HttpRequest, device: UUID) -> HttpResponseBase:
    """Another name, or another store."""
    row = get_object_or_404(Device, id=device, revoked_at=None)
    name = request.POST.get("name", "").strip()
    if not name or len(name) > 40:
        return _page(request, trouble=NO_NAME, status=400)
    now = timezone.now()
    store = _uuid(request.POST.get("store", ""))
    said = {"name": name, "store": str(store) if store else None}
    try:
        rename(device=row.id, opened=_opened(request), said=said, by=signed_in(request), now=now)
    except NameInUseError as error:
        return _page(request, trouble=str(error), status=409)
    except MeanwhileError as error:
        trouble = meanwhile_words(error, _shown, now=now)
        return _page(request, trouble=trouble, status=409, typed={**said, "device": row.id})
    return redirect("devices")


def _opened(request: HttpRequest) -> dict[str, str | None] | None:
    """Name and store as the page had them; None where it did not tell."""
    if "was-name" not in request.POST:
        return None
    return {"name": request.POST["was-name"], "store": request.POST.get("was-store") or None}


def _shown(each: Meanwhile) -> str:
    """What stands there by now, as it is read."""
    if each.name == "store":
        store = Store.objects.filter(id=each.now).first() if each.now else None
        return f"its store is {store}" if store else "it has no store"
    return f"it is called {each.now}"


@allowed("device-revoke")
@require_POST
def device_revoke(request: HttpRequest, device: UUID) -> HttpResponseBase:
    """Lost or given away: it is heard no more."""
    row = get_object_or_404(Device, id=device, revoked_at=None)
    revoke(device=row.id, by=signed_in(request), now=timezone.now())
    return redirect("devices")


@never_cache
@require_http_methods(["GET", "POST"])
def enroll_here(request: HttpRequest) -> HttpResponseBase:
    """On the device itself: the code is typed, and the room knows it."""
    if request.method == "GET":
        return render(request, "web/doors/enroll.html", {"device": _device(request)})
    now = timezone.now()
    if knock(of_code(address_of(request)), now=now):
        return render(request, "web/doors/enroll.html", {"trouble": TOO_OFTEN}, status=429)
    try:
        enrolled = enroll(code=request.POST.get("code", ""), now=now)
    except NoSuchCodeError as error:
        return render(request, "web/doors/enroll.html", {"trouble": str(error)}, status=400)
    response = redirect("/station/")
    remember_device(response, enrolled.device, enrolled.token)
    return response


def _page(
    request: HttpRequest,
    *,
    trouble: str = "",
    code: str = "",
    name: str = "",
    status: int = 200,
    typed: Typed = NONE,
) -> HttpResponse:
    context = {
        "devices": Device.objects.select_related("store").order_by("revoked_at", "name"),
        "stores": Store.objects.filter(is_closed=False).order_by("name"),
        "this": _device(request),
        "trouble": trouble,
        "code": code,
        "name": name,
        "typed": typed,
        "origin": f"{request.scheme}://{request.get_host()}",
    }
    return render(request, "web/doors/devices.html", context, status=status)


def _device(request: HttpRequest) -> Device | None:
    device: Device | None = getattr(request, "device", None)
    return device


def _uuid(text: str) -> UUID | None:
    try:
        return UUID(text)
    except ValueError:
        return None
