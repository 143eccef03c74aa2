"""One player: head, helmets, visits, and why this build."""

from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from helmwright.records.kinds.roles import SEE_BODY
from helmwright.records.models import Player
from helmwright.records.readers.last_build import last_build
from helmwright.records.readers.player import PlayerRecord, player_record
from helmwright.records.readers.sheets_offered import chosen_sheet, current_sheets
from helmwright.records.sheets import sheet_of
from helmwright.web.allowed import ALLOWED, allowed, signed_in
from helmwright.web.desk.build_words import build_told
from helmwright.web.desk.player_page import (
    about,
    facts,
    history,
    hold_words,
    measure_lines,
    visit_lines,
)
from helmwright.web.desk.roster_page import head_drawn, picture
from helmwright.web.desk.words import over_words


@allowed("player")
def player(request: HttpRequest, player_id: UUID) -> HttpResponse:
    """Everything that the records hold of one player."""
    record = record_or_404(player_id)
    role = signed_in(request).role
    read, filled_in = measure_lines(record.head)
    sheets = current_sheets()
    asked = request.GET.get("sheet", record.visits[0].sheet_id if record.visits else "")
    sheet = chosen_sheet(sheets, asked)
    drawn = picture([record.row], sheet_of(sheet) if sheet else None, None, is_one=True)
    build = last_build(record.visits)
    return render(
        request,
        "web/desk_player.html",
        {
            "about": about(record),
            "acts": {name: role in roles for name, roles in ACTS.items()},
            "build": build_told(build) if build else None,
            "drawn": head_drawn(record.row, drawn.scale),
            "facts": facts(record),
            "filled_in": filled_in,
            "history": history(record, role),
            "hold": hold_words(record),
            "picture": drawn,
            "read": read,
            "record": record,
            "player": record.player,
            "sees_body": role in SEE_BODY,
            "sheet": sheet,
            "taken_off": over_words(record.estimate.worn) if record.estimate else "",
            "visits": visit_lines(record, role),
        },
    )


ACTS = {
    name.removeprefix("player-").replace("-", "_"): roles
    for name, roles in ALLOWED.items()
    if name.startswith("player-")
}
"""What may be done on the page, and by whom."""


def record_or_404(player_id: UUID) -> PlayerRecord:
    """The record, or the answer that there is none."""
    record = player_record(player_id, today=timezone.localdate())
    if record is None:
        raise Http404("There is no such player.")
    return record


def player_or_404(player_id: UUID) -> Player:
    """The player's own row, where nothing personal was erased."""
    found = Player.objects.filter(pk=player_id, erased_at=None).first()
    if found is None:
        raise Http404("There is no such player, or the record was erased.")
    return found
