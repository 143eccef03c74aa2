"""What is said where something is refused before any page is reached."""

from django.http import HttpRequest, HttpResponse, HttpResponseBadRequest, JsonResponse
from django.shortcuts import render
from django.template.loader import render_to_string

FORGED = (
    "This page was open too long, or it was not sent from this room's own page. Nothing was"
    " changed. Load the page again and repeat what you did."
)


def forged(request: HttpRequest, reason: str = "") -> HttpResponse:
    """The mark against forged requests was missing or wrong."""
    if reads_json(request):
        return JsonResponse({"error": FORGED, "reason": reason}, status=403)
    return render(request, "403.html", {"words": FORGED}, status=403)


def unreadable(_request: HttpRequest, exception: Exception) -> HttpResponse:
    """It came by another room's name, or broken; nothing about the asker is known by then."""
    del exception  # named by Django; not for the page
    return HttpResponseBadRequest(render_to_string("400.html"))


def reads_json(request: HttpRequest) -> bool:
    """Whether a program of ours asks, and no person's browser."""
    return request.content_type == "application/json" or "application/json" in (
        request.headers.get("Accept") or ""
    )
