"""The roster: where each player stands."""

from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone

from helmwright.records.readers.opening import Lack
from helmwright.records.readers.roster import NOT_ERASED, player_rows
from helmwright.records.readers.sheets_offered import chosen_sheet, current_sheets, good_by_shell
from helmwright.records.sheets import sheet_of
from helmwright.web.allowed import ALLOWED, allowed, signed_in
from helmwright.web.desk.acts import take_in_address
from helmwright.web.desk.first_steps import lacked
from helmwright.web.desk.roster_page import LEFT, ORDERS, chosen_rows, filters, listed, picture


@allowed("roster")
def roster(request: HttpRequest) -> HttpResponse:
    """Everybody, on one scale."""
    asked = {name: request.GET.get(name, "") for name in ("standing", "find", "order", "sheet")}
    today = timezone.localdate()
    known = player_rows(today=today, who=NOT_ERASED)
    rows = [row for row in known if row.player.is_here]
    gone = [row for row in known if not row.player.is_here]
    sheets = current_sheets()
    sheet = chosen_sheet(sheets, asked["sheet"])
    drawn = picture(
        rows, sheet_of(sheet) if sheet else None, good_by_shell(sheet, today) if sheet else None
    )
    is_gone = asked["standing"] == LEFT
    shown = chosen_rows(
        gone if is_gone else rows,
        standing="" if is_gone else asked["standing"],
        find=asked["find"],
        order=asked["order"],
    )
    return render(
        request,
        "web/desk_roster.html",
        {
            "asked": asked,
            "filters": filters(rows, len(gone), asked["standing"], lambda word: _with(asked, word)),
            "is_short": any(one.is_short for one in drawn.shells),
            "listed": listed(shown, drawn.scale),
            "may_add": signed_in(request).role in ALLOWED["player-add"],
            "take_in": take_in_address(request, "roster"),
            "missing": [] if known else lacked(request, Lack.TEAM),
            "orders": [(key, word) for key, (word, _) in ORDERS.items()],
            "picture": drawn,
            "sheet": sheet,
            "sheets": sheets,
            "total": len(rows),
            "unmeasured": sum(not row.is_measured for row in rows),
        },
    )


def _with(asked: dict[str, str], standing: str) -> str:
    """The same page with another choice of standing."""
    kept = {name: value for name, value in (asked | {"standing": standing}).items() if value}
    query = urlencode(kept)
    return reverse("roster") + (f"?{query}" if query else "")
