"""Empty lists to fill in, and everything that the room knows."""

import csv
import io
import zipfile
from collections.abc import Iterable

from django.http import Http404, HttpRequest, HttpResponse
from django.utils import timezone
from django.views.decorators.http import require_GET

from helmwright.records.head import head
from helmwright.records.models import Sheet
from helmwright.records.readers.export import ledger_lines, plain_tables
from helmwright.records.sheets import sheet_of
from helmwright.records.snapshot import at_one_moment
from helmwright.reports.formulas import safe
from helmwright.reports.workbook import (
    helmet_template_workbook,
    stock_template_workbook,
    template_workbook,
)
from helmwright.roster import helmet_template, roster_template, stock_template
from helmwright.web.allowed import allowed

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
def everything(request: HttpRequest) -> HttpResponse:
    """Every table as CSV and the ledger as lines, of one moment, in one ZIP.

    It is packed in memory: a season of a large room is some tens of megabytes.
    """
    _ = request
    packed = io.BytesIO()
    now = timezone.now()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as folder, at_one_moment():
        at = head()
        for table in plain_tables():
            _put_table(folder, f"{table.name}.csv", table.headings, table.rows)
        with folder.open("ledger.jsonl", "w") as out:
            for line in ledger_lines():
                out.write(f"{line}\n".encode())
        told = (
            f"entry {at.seq}\n{at.digest}\nshort: {at.short}\nexported {now:%Y-%m-%d %H:%M} UTC\n"
        )
        folder.writestr("head.txt", told)
    answer = HttpResponse(packed.getvalue(), content_type="application/zip")
    name = f"helmwright-{timezone.localdate():%Y-%m-%d}.zip"
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    answer["Cache-Control"] = "private, no-store"
    return answer


def _put_table(
    folder: zipfile.ZipFile, name: str, headings: Iterable[str], rows: Iterable[Iterable[str]]
) -> None:
    with folder.open(name, "w") as out, io.TextIOWrapper(out, "utf-8", newline="") as text:
        writer = csv.writer(text, lineterminator="\n")
        writer.writerow(headings)
        writer.writerows(map(safe, row) for row in rows)
