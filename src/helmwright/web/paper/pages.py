"""What there is to print, the roster as it stands, and the blank sheet of a visit."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from helmwright.records.head import head
from helmwright.records.models import Player, Store, Team
from helmwright.records.readers.fitted import fitted_on
from helmwright.records.readers.roster import ON_ROSTER, PlayerRow, player_rows
from helmwright.records.readers.sheets_offered import chosen_sheet, current_sheets
from helmwright.records.sheets import sheet_of
from helmwright.records.words import clock, us_date
from helmwright.reports.lengths import fraction
from helmwright.reports.paper import StandingRow, standing_sheet, visit_sheet
from helmwright.visit import protocol_for
from helmwright.web.allowed import ALLOWED, allowed, signed_in
from helmwright.web.paper.response import pdf


@allowed("paper")
def paper(request: HttpRequest) -> HttpResponse:
    """Everything that can be printed."""
    return render(
        request,
        "web/paper.html",
        {
            "stores": Store.objects.filter(shelf__isnull=False).distinct().order_by("name"),
            "anybody": Player.objects.filter(ON_ROSTER).exists(),
            "anybody_fitted": bool(fitted_on(timezone.localdate())),
            "sheets": current_sheets(),
            "may_print_cards": signed_in(request).role in ALLOWED["paper-cards"],
        },
    )


@allowed("paper-roster")
def roster(request: HttpRequest) -> HttpResponse:
    """The roster as it stands; with `standing`, those who stand there."""
    now = timezone.now()
    asked = request.GET.get("standing", "")
    rows = player_rows(today=timezone.localdate(now))
    listed = [_row(row) for row in rows if not asked or row.standing.word == asked]
    if not listed:
        raise Http404
    team = Team.objects.order_by("name").first()
    printed = f"Printed {us_date(timezone.localdate(now))}, {clock(now)}. Ledger at {head()}."
    title = f"Roster of the {team.name}" if team else "Roster"
    return pdf(standing_sheet(listed, title=title, foot=printed), "roster")


@allowed("paper-blank")
def blank(request: HttpRequest) -> HttpResponse:
    """A visit to be filled in with a pencil."""
    sheet = chosen_sheet(current_sheets(), request.GET.get("sheet", ""))
    if sheet is None:
        raise Http404
    model = sheet_of(sheet)
    return pdf(visit_sheet(model, protocol_for(model)), "visit-sheet")


def _row(row: PlayerRow) -> StandingRow:
    reading = fraction(row.size.middle_mm, denominator=8) if row.size and row.is_measured else ""
    helmets = ", ".join(held.code for held in row.held)
    shells = [f"{held.model}, shell {held.shell}" for held in row.held]
    return StandingRow(
        number=row.player.number,
        name=row.player.name,
        position=row.player.position,
        standing=row.standing.word,
        helmet=helmets,
        build="; ".join(shells) or (f"shell {row.shell} proposed" if row.shell else ""),
        reading=reading,
    )
