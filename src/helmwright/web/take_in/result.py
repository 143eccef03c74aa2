"""What became of a file, and undoing it."""

from collections.abc import Iterator
from dataclasses import dataclass
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from helmwright.records.actions.take_in import NotUndoneError, undo_take_in
from helmwright.records.models import Helmet, Player, Store, TakeIn, TakeInRow
from helmwright.records.projection.take_back import undoings
from helmwright.records.readers.taking_in import made_by
from helmwright.web.allowed import ALLOWED, allowed, signed_in
from helmwright.web.take_in.words import WHAT, made_words


@dataclass(frozen=True, slots=True)
class Stays:
    """Something that stays, or would, and why."""

    called: str
    address: str
    why: str


@require_GET
@allowed("take-in-result")
def result(request: HttpRequest, take_in_id: UUID) -> HttpResponse:
    """The page."""
    found = get_object_or_404(TakeIn.objects.select_related("by"), pk=take_in_id)
    may_undo = signed_in(request).role in ALLOWED["take-in-undo"]
    page = {
        "file": found,
        "kind": WHAT[found.what],
        "made": made_words(made_by(found)),
        "stays": list(_stayed(found) if found.undone_at else _would_stay(found)),
        "may_undo": may_undo and not found.undone_at,
    }
    return render(request, "web/take_in/result.html", page)


@require_POST
@allowed("take-in-undo")
def undo(request: HttpRequest, take_in_id: UUID) -> HttpResponse:
    """Take back whatever nothing later leans on."""
    found = get_object_or_404(TakeIn, pk=take_in_id)
    try:
        undo_take_in(take_in=found.pk, by=signed_in(request), now=timezone.now())
    except NotUndoneError as error:
        messages.error(request, str(error))
    else:
        messages.success(request, "The file is undone.")
    return redirect("take-in-result", found.pk)


def _would_stay(take_in: TakeIn) -> Iterator[Stays]:
    for each in undoings(take_in):
        if each.why_it_stays:
            yield _stays(each.rows[0], each.why_it_stays)


def _stayed(take_in: TakeIn) -> Iterator[Stays]:
    seen: set[tuple[UUID, int | None]] = set()
    for row in take_in.made.exclude(left="").select_related("part"):
        if (row.subject, row.part_id) not in seen:
            seen.add((row.subject, row.part_id))
            yield _stays(row, row.left)


def _stays(row: TakeInRow, why: str) -> Stays:
    what = row.take_in.what
    if what == "roster":
        player = Player.objects.get(id=row.subject)
        return Stays(str(player), reverse("player", args=[player.pk]), why)
    if what == "helmets":
        helmet = Helmet.objects.get(id=row.subject)
        return Stays(helmet.code, reverse("helmet", args=[helmet.code]), why)
    store = Store.objects.get(id=row.subject)
    return Stays(f"{row.part}, {store.name}", reverse("store", args=[store.pk]), why)
