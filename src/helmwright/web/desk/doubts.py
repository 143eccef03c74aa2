"""Entries that a device says in somebody's name: a manager says whether it was that person."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from helmwright.records.actions.speakers import decide
from helmwright.records.readers.doubts import disputed, doubted
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.desk.asked import now


@require_GET
@allowed("doubts")
def doubts(request: HttpRequest) -> HttpResponse:
    """What is to be asked, and what was found to be said by somebody else."""
    page = {"doubted": doubted(), "disputed": disputed(now=now())}
    return render(request, "web/desk/doubts.html", page)


@allowed("doubts-decide")
@require_POST
def doubts_decide(request: HttpRequest) -> HttpResponse:
    """It was the person named, or it was not."""
    holds = {"yes": True, "no": False}.get(request.POST.get("holds", ""))
    entries = _ids(request.POST.getlist("entry"))
    if holds is None or not entries:
        messages.error(request, "Nothing was decided. Say whether it was the person named.")
        return redirect("doubts")
    decide(entries=entries, holds=holds, by=signed_in(request), now=now())
    said = "Kept: it was the person named." if holds else "Kept: it was somebody else."
    messages.success(request, said)
    return redirect("doubts")


def _ids(texts: list[str]) -> list[UUID]:
    """Those that are IDs."""
    found = []
    for text in texts:
        try:
            found.append(UUID(text))
        except ValueError:
            continue
    return found
