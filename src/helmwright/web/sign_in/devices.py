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
from helmwright.records.meanwhile import Fields, Meanwhile, MeanwhileError, changed_fields
from helmwright.records.models import Device, Store
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.meanwhile_words import meanwhile_words
from helmwright.web.opened_mark import WAS, sent_with
from helmwright.web.sign_in.address import address_of
from helmwright.web.sign_in.limits import of_code
from helmwright.web.sign_in.middleware import remember_device

Typed = Mapping[str, Any]
NONE: Typed = MappingProxyType({})
TOO_OFTEN = "Too many codes were tried. Wait a quarter of an hour, then have a new one made."
MOST_LETTERS = 40
NO_NAME = "Give the device a name that is written on it, such as Station 3; 40 letters at most."


@never_cache
@allowed("devices")
@require_http_methods(["GET", "POST"])
def devices(request: HttpRequest) -> HttpResponseBase:
    """Those that are known; a code for one more."""
    if request.method == "GET":
        return _page(request)
    said = _said(request)
    if not _is_name(said["name"]):
        return _page(request, trouble=NO_NAME, status=400, typed=said)
    name, store_id = str(said["name"]), said["store"]
    store = Store.objects.filter(id=store_id).first() if store_id else None
    try:
        code = make_code(name=name, store=store, by=signed_in(request), now=timezone.now())
    except NameInUseError as error:
        return _page(request, trouble=str(error), status=409, typed=said)
    return _page(request, code=f"{code[:4]} {code[4:]}", name=name)


@allowed("device-rename")
@require_POST
def device_rename(request: HttpRequest, device: UUID) -> HttpResponseBase:
    """Another name, or another store."""
    row = get_object_or_404(Device, id=device, revoked_at=None)
    said, opened, now = _said(request), sent_with(request.POST).get(WAS), timezone.now()
    if not _is_name(said["name"]):
        return _page(request, trouble=NO_NAME, status=400, typed=_kept(row, opened, said))
    try:
        rename(device=row.id, opened=opened, said=said, by=signed_in(request), now=now)
    except NameInUseError as error:
        trouble = str(error)
    except MeanwhileError as error:
        trouble = meanwhile_words(error, _shown, now=now)
    else:
        return redirect("devices")
    return _page(request, trouble=trouble, status=409, typed=_kept(row, opened, said))


def _said(request: HttpRequest) -> dict[str, str | None]:
    """Name and store as they are written."""
    store = _uuid(request.POST.get("store", ""))
    return {
        "name": request.POST.get("name", "").strip(),
        "store": str(store) if store else None,
    }


def _is_name(name: str | None) -> bool:
    return bool(name) and len(name or "") <= MOST_LETTERS


def _kept(row: Device, opened: Fields | None, said: Fields) -> Typed:
    """What was changed on the page, over what stands there by now."""
    row.refresh_from_db()
    stands = {"name": row.name, "store": str(row.store_id) if row.store_id else None}
    return {**stands, **changed_fields(opened or stands, said), "device": row.id}


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
