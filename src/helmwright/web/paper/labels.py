"""Labels of helmets and of drawers."""

from collections.abc import Iterable
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone

from helmwright.records.models import Helmet, Store
from helmwright.records.readers.helmets import HelmetRow, helmet_of_code, helmets, verdict_on
from helmwright.records.readers.stock import store_parts
from helmwright.records.words import us_date
from helmwright.reports.paper import (
    LABEL_SHEETS,
    USUAL_SHEET,
    DrawerLabel,
    HelmetLabel,
    drawer_labels,
    helmet_labels,
)
from helmwright.web.allowed import allowed
from helmwright.web.paper.label_form import LabelForm
from helmwright.web.paper.response import pdf
from helmwright.web.paper.words import model_words


@allowed("paper-label")
def label(_request: HttpRequest, code: str) -> HttpResponse:
    """The label of one helmet, the first on the usual sheet."""
    helmet = helmet_of_code(code)
    if helmet is None:
        raise Http404
    made = helmet_labels([_of_helmet(helmet)], LABEL_SHEETS[USUAL_SHEET])
    return pdf(made, f"label-{helmet.code}")


@allowed("paper-labels")
def labels(request: HttpRequest) -> HttpResponse:
    """Labels of many helmets: those of a store, or those whose codes are asked for."""
    rows = _chosen(helmets(day=timezone.localdate(), search=request.GET.get("find", "")), request)
    form = LabelForm(request.GET if "sheet" in request.GET else None)
    if rows and form.is_valid():
        made = helmet_labels(
            [_of_row(row) for row in rows], form.label_sheet, skip=form.skipped
        )  # fmt: skip
        return pdf(made, "helmet-labels")
    return render(
        request,
        "web/paper_labels.html",
        {
            "form": form,
            "rows": rows,
            "stores": Store.objects.order_by("name"),
            "store": request.GET.get("store", ""),
            "find": request.GET.get("find", ""),
        },
    )


@allowed("paper-drawers")
def drawers(request: HttpRequest) -> HttpResponse:
    """Labels of the drawers of one store."""
    store = get_object_or_404(Store, pk=_store_asked(request))
    parts = dict.fromkeys((row.place, row.size) for row in store_parts(store.pk))
    if not parts:
        raise Http404
    made = drawer_labels(
        [DrawerLabel(place, size, store.name) for place, size in parts], LABEL_SHEETS[USUAL_SHEET]
    )
    return pdf(made, f"drawers-{store.name}".lower().replace(" ", "-"))


def _store_asked(request: HttpRequest) -> UUID:
    try:
        return UUID(request.GET.get("store", ""))
    except ValueError as error:
        raise Http404 from error


def _chosen(rows: Iterable[HelmetRow], request: HttpRequest) -> list[HelmetRow]:
    store = request.GET.get("store", "")
    codes = request.GET.getlist("code")
    return [
        row
        for row in rows
        if (not store or str(row.store) == store) and (not codes or row.code in codes)
    ]


def _of_helmet(helmet: Helmet) -> HelmetLabel:
    lapses = verdict_on(helmet, timezone.localdate()).lapses_on
    model = model_words(helmet.sheet.model, is_invented=helmet.sheet.is_invented)
    return HelmetLabel(helmet.code, model, helmet.shell, us_date(lapses) if lapses else "")


def _of_row(row: HelmetRow) -> HelmetLabel:
    lapses = row.verdict.lapses_on
    model = model_words(row.model, is_invented=row.is_invented)
    return HelmetLabel(row.code, model, row.shell, us_date(lapses) if lapses else "")
