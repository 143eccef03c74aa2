"""The station's page, which holds nothing about anybody, and the worker that keeps it."""

import hashlib
import json
from functools import cache
from pathlib import Path

from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import render
from django.templatetags.static import static
from django.urls import reverse
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_safe

from helmwright.web.allowed import ALLOWED, signed_in

STATIC = Path(__file__).parents[1] / "static"
WORKER = Path(__file__).with_name("sw.js")
KEPT = (
    "icon.svg",
    "tokens.css",
    "house.css",
    "mode.js",
    "fonts/*.woff2",
    "vendor/*.js",
    "station/**/*.*",
)
"""Under static/web, what the page is made of."""

PAGE = ("station.html", "in_every_head.html")
"""Templates of the page."""

NOT_KEPT = frozenset({"web/vendor/htmx.min.js"})


@require_safe
@ensure_csrf_cookie
def station(request: HttpRequest) -> HttpResponseBase:
    """The page. On an enrolled device it comes to nobody too: the PIN is asked for in it."""
    if request.user.is_authenticated:
        if signed_in(request).role not in ALLOWED["station"]:
            raise PermissionDenied
    elif getattr(request, "device", None) is None:
        return redirect_to_login(request.get_full_path())
    return render(request, "web/station.html")


@require_safe
def worker(_request: HttpRequest) -> HttpResponse:
    """The service worker of this release; its scope is the station's folder."""
    files = [static(name) for name in kept_files()]
    head = (
        f"const RELEASE = {json.dumps(release())};\n"
        f"const PAGE = {json.dumps(reverse('station'))};\n"
        f"const FILES = {json.dumps(files)};\n"
    )
    answer = HttpResponse(
        head + WORKER.read_text(encoding="utf-8"), content_type="text/javascript; charset=utf-8"
    )
    answer["Cache-Control"] = "no-cache"
    return answer


@cache
def kept_files() -> tuple[str, ...]:
    """Static files that the page is made of, by name."""
    root = STATIC / "web"
    found = {path for pattern in KEPT for path in root.glob(pattern) if path.is_file()}
    names = (path.relative_to(STATIC).as_posix() for path in found)
    return tuple(sorted(set(names) - NOT_KEPT))


@cache
def release() -> str:
    """Digest of the page and all its files: another one is another release."""
    digest = hashlib.sha256(WORKER.read_bytes())
    for name in PAGE:
        digest.update((STATIC.parent / "templates/web" / name).read_bytes())
    for name in kept_files():
        digest.update(f"{static(name)}\n".encode())
        digest.update((STATIC / name).read_bytes())
    return digest.hexdigest()[:16]
