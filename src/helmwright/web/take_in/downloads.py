"""Empty lists to fill in, and everything that the room knows."""

import zipfile
from contextlib import ExitStack
from tempfile import TemporaryFile
from typing import IO

from django.http import Http404, HttpRequest, HttpResponse, StreamingHttpResponse
from django.utils import timezone
from django.views.decorators.http import require_GET

from helmwright import __version__
from helmwright.records.export import export_everything
from helmwright.records.models import Sheet
from helmwright.records.sheets import sheet_of
from helmwright.reports.workbook import (
    helmet_template_workbook,
    stock_template_workbook,
    template_workbook,
)
from helmwright.roster import helmet_template, roster_template, stock_template
from helmwright.web.allowed import allowed
from helmwright.web.take_in.pieces import Pieces

XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
CSV = "text/csv; charset=utf-8"


@require_GET
@allowed("take-in-template")
def template(request: HttpRequest, name: str) -> HttpResponse:
    """An empty list as XLSX or CSV: roster, helmets, or stock of one model."""
    what, _, form = name.partition(".")
    if what not in ("roster", "helmets", "stock") or form not in ("xlsx", "csv"):
        raise Http404("There is no such empty list.")
    content = _stock(request, form) if what == "stock" else _EMPTY[name]()
    answer = HttpResponse(content, content_type=XLSX if form == "xlsx" else CSV)
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer


_EMPTY = {
    "roster.xlsx": template_workbook,
    "roster.csv": roster_template,
    "helmets.xlsx": helmet_template_workbook,
    "helmets.csv": helmet_template,
}


def _stock(request: HttpRequest, form: str) -> bytes | str:
    sheets = Sheet.objects.filter(is_current=True).order_by("model")
    asked = request.GET.get("sheet", "")
    row = sheets.filter(digest=asked).first() if asked else sheets.first()
    if row is None:
        raise Http404("There is no such model in the room.")
    sheet = sheet_of(row)
    return stock_template_workbook(sheet) if form == "xlsx" else stock_template(sheet)


@require_GET
@allowed("take-in-everything")
def everything(request: HttpRequest) -> StreamingHttpResponse:
    """Every table as CSV and the ledger as lines, of one moment, in one ZIP."""
    _ = request
    packed = _packed()
    answer = StreamingHttpResponse(Pieces(packed), content_type="application/zip")
    name = f"helmwright-{timezone.localdate():%Y-%m-%d}.zip"
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    answer["Content-Length"] = str(packed.tell())
    answer["Cache-Control"] = "private, no-store"
    return answer


def _packed() -> IO[bytes]:
    """A file without a name, open; where packing fails it is gone."""
    with ExitStack() as held:
        file = held.enter_context(TemporaryFile())
        with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as folder:
            export_everything(
                lambda name: folder.open(name, "w"), release=__version__, now=timezone.now()
            )
        held.pop_all()
        return file
