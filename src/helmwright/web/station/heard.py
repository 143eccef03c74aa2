"""The station's messages: JSON both ways, and never a page in the place of an answer."""

from collections.abc import Callable
from functools import wraps
from typing import Any, Concatenate, ParamSpec, cast

from django.http import HttpRequest, HttpResponseBase, JsonResponse
from django.views.decorators.cache import never_cache

from helmwright.records.models import Device
from helmwright.web.allowed import ALLOWED, signed_in

P = ParamSpec("P")
View = Callable[Concatenate[HttpRequest, P], HttpResponseBase]

SIGN_IN = {"error": "sign in"}
NOT_YOURS = {"error": "Your role does not allow this. Ask the manager."}


def heard(name: str, method: str) -> Callable[[View[P]], View[P]]:
    """Let only those pass who may send the message of that name; others are told so."""
    roles = ALLOWED[name]

    def around(view: View[P]) -> View[P]:
        @wraps(view)
        def guarded(request: HttpRequest, *args: P.args, **kwargs: P.kwargs) -> HttpResponseBase:
            if request.method != method:
                return JsonResponse({"error": f"Send this as {method}."}, status=405)
            if not request.user.is_authenticated:
                return JsonResponse(SIGN_IN, status=401)
            if signed_in(request).role not in roles:
                return JsonResponse(NOT_YOURS, status=403)
            return view(request, *args, **kwargs)

        kept = never_cache(guarded)
        cast("Any", kept).page = name
        return cast("View[P]", kept)

    return around


def station_of(request: HttpRequest) -> Device | None:
    """The enrolled device that speaks; None for any other."""
    device: Device | None = getattr(request, "device", None)
    return device
