"""One store: what it holds, what came and went, and what is done there."""

from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import groupby
from uuid import UUID

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.safestring import SafeString
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from helmwright.records.actions.stock import Counted, CountRefusedError, PartOf, take_stock
from helmwright.records.kinds.things import PartsCounted
from helmwright.records.models import Sheet, Store
from helmwright.records.readers.need import thickness_mm
from helmwright.records.readers.opening import Lack
from helmwright.records.readers.stock import PartRow, history_by_day, movements, store_parts
from helmwright.records.sheets import sheet_of
from helmwright.records.words import counted
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.desk.acts import may_say, say, take_in_address
from helmwright.web.desk.first_steps import lacked
from helmwright.web.desk.part_words import place_words, size_words
from helmwright.web.desk.stock_history import history_steps
from helmwright.web.desk.stock_take import Line, StockTake
from helmwright.web.desk.store_forms import ACTS, ActForm


@dataclass(frozen=True, slots=True)
class Shown:
    """One part of the list."""

    row: PartRow
    size: SafeString


@dataclass(frozen=True, slots=True)
class Place:
    """The parts of one place in one model, thin to thick."""

    model: str
    words: str
    parts: tuple[Shown, ...]


@require_GET
@allowed("store")
def store(request: HttpRequest, store_id: UUID) -> HttpResponse:
    """The page."""
    return _page(request, get_object_or_404(Store, pk=store_id))


@require_POST
@allowed("store-act")
def store_act(request: HttpRequest, store_id: UUID, act: str) -> HttpResponse:
    """Parts came, went elsewhere, or went for good."""
    found = get_object_or_404(Store, pk=store_id)
    if act not in ACTS:
        raise Http404
    kind, words = ACTS[act]
    form = kind(request.POST, store=found)
    if not form.is_valid():
        return _page(request, found, wrong=(act, form))
    say(request, form.payload(), words)
    return redirect("store", found.id)


@require_http_methods(["GET", "POST"])
@allowed("store-count")
def store_count(request: HttpRequest, store_id: UUID) -> HttpResponse:
    """A stock-take: counts, then the differences, then all of it saved or nothing."""
    found = get_object_or_404(Store, pk=store_id)
    if not may_say(request, PartsCounted):
        raise PermissionDenied
    rows = store_parts(found.id)
    take = StockTake.of(rows, Sheet.objects.filter(is_current=True), request.POST)
    if request.method == "POST" and take.is_whole and "save" in request.POST:
        if not take.counted:
            messages.error(request, "Nothing was counted, so nothing is saved.")
        elif _saved(request, found, take.counted):
            return redirect("store", found.id)
    is_told = request.method == "POST" and take.is_whole and bool(take.counted)
    missing = lacked(request, Lack.SHEET) if not take.lines else []
    page = {"store": found, "take": take, "is_told": is_told, "missing": missing}
    return render(request, "web/desk/store_count.html", page, status=422 if take.wrong else 200)


def _saved(request: HttpRequest, found: Store, lines: list[Line]) -> bool:
    counts = [
        Counted(PartOf(line.sheet, line.place, line.key_size), line.count or 0, line.expected)
        for line in lines
    ]
    try:
        take_stock(store=found.id, counts=counts, by=signed_in(request), now=datetime.now(UTC))
    except CountRefusedError as error:
        messages.error(request, str(error))
        return False
    other = sum(line.difference != 0 for line in lines)
    many = counted(len(lines), "part", "parts")
    messages.success(request, f"The count is saved: {many} counted, {other} corrected.")
    return True


def _page(
    request: HttpRequest, found: Store, wrong: tuple[str, ActForm] | None = None
) -> HttpResponse:
    rows = store_parts(found.id)
    chosen = _chosen(rows, request.GET.get("part", ""))
    page = {
        "store": found,
        "places": _places(rows),
        "to_count": [row for row in rows if row.is_to_be_counted],
        "chosen": chosen,
        "history": _history(found, chosen) if chosen else None,
        "acts": _acts(request, found, wrong),
        "may_count": may_say(request, PartsCounted),
        "take_in": take_in_address(request, "stock"),
        "missing": [] if rows else lacked(request, Lack.SHEET),
    }
    return render(request, "web/desk/store.html", page, status=422 if wrong else 200)


def _chosen(rows: list[PartRow], asked: str) -> PartRow | None:
    return next((row for row in rows if str(row.part) == asked), None)


def _places(rows: list[PartRow]) -> list[Place]:
    sheets = {row.digest: sheet_of(row) for row in Sheet.objects.filter(is_current=True)}
    found = []
    for (model, place), group in groupby(rows, key=lambda row: (row.model, row.place)):
        parts = tuple(
            Shown(row, size_words(row.size, thickness_mm(sheets[row.sheet], place, row.size)))
            for row in group
        )
        found.append(Place(model, place_words(place).capitalize(), parts))
    return found


def _history(found: Store, row: PartRow) -> dict[str, object]:
    last = list(movements(found.id, row.part, most=30))
    return {
        "drawing": history_steps(history_by_day(found.id, row.part)),
        "movements": last,
        "words": f"{place_words(row.place)} {row.size}",
    }


def _acts(
    request: HttpRequest, found: Store, wrong: tuple[str, ActForm] | None
) -> list[dict[str, object]]:
    shown = []
    for act, (kind, _) in ACTS.items():
        is_wrong = wrong is not None and wrong[0] == act
        if not may_say(request, kind.kind):
            continue
        form = wrong[1] if wrong is not None and is_wrong else kind(store=found)
        shown.append({"name": act, "form": form, "is_open": is_wrong})
    return shown
