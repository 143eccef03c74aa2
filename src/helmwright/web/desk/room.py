"""Room: the team and its season, the stores, and the models that are fitted."""

from collections.abc import Callable, Sequence
from typing import Any
from uuid import UUID

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from helmwright.records.actions import opening
from helmwright.records.actions.opening import NotOpenedError, SheetRefusedError
from helmwright.records.models import Season, Sheet, Team
from helmwright.records.readers.opening import seasons_by_team
from helmwright.records.readers.sheets_offered import current_sheets
from helmwright.records.readers.stores import stores
from helmwright.records.sheets import sheet_of
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.desk.asked import now
from helmwright.web.desk.room_forms import SeasonForm, SheetForm, TeamForm
from helmwright.web.desk.stores import StoreForm, first_name

STORE_ID = "store-%s"


@require_GET
@allowed("room")
def room(request: HttpRequest) -> HttpResponse:
    """The page."""
    return _page(request)


@require_POST
@allowed("room-team")
def room_team(request: HttpRequest) -> HttpResponse:
    """A team, and its first season."""
    form, by = TeamForm(request.POST), signed_in(request)
    return _opened(
        request, "team", form, lambda name: opening.open_team(name=name, by=by, now=now())
    )


@require_POST
@allowed("room-season")
def room_season(request: HttpRequest, team_id: UUID) -> HttpResponse:
    """The next season of a team."""
    team, by = get_object_or_404(Team, pk=team_id), signed_in(request)
    return _opened(
        request,
        "season",
        SeasonForm(request.POST, team=team),
        lambda name: opening.open_season(team=team.pk, name=name, by=by, now=now()),
    )


@require_POST
@allowed("room-store")
def room_store(request: HttpRequest) -> HttpResponse:
    """A store."""
    form, by = StoreForm(request.POST, auto_id=STORE_ID), signed_in(request)
    return _opened(
        request, "store", form, lambda name: opening.open_named_store(name=name, by=by, now=now())
    )


@require_POST
@allowed("room-sheet")
def room_sheet(request: HttpRequest) -> HttpResponse:
    """A model sheet: a packaged one, or a file."""
    form = SheetForm(request.POST, request.FILES)
    if not form.is_valid():
        return _page(request, {"sheet": form})
    try:
        row = opening.add_model(text=form.text, by=signed_in(request), now=now())
    except SheetRefusedError as error:
        return _page(request, {"sheet": form}, str(error))
    messages.success(request, f"{row.model} can be fitted from now on, by the sheet just added.")
    return redirect(f"{reverse('room')}#sheets")


def _opened(
    request: HttpRequest, part: str, form: forms.Form, act: Callable[[str], object]
) -> HttpResponse:
    if not form.is_valid():
        return _page(request, {part: form})
    name = form.cleaned_data["name"]
    try:
        act(name)
    except NotOpenedError as error:
        form.add_error("name", str(error))
        return _page(request, {part: form})
    messages.success(request, f"{name} is open.")
    return redirect("room")


def _page(
    request: HttpRequest, sent: dict[str, Any] | None = None, wrong: str = ""
) -> HttpResponse:
    """The page, with what was sent and is wrong in its place."""
    sent = sent or {}
    told, *lines = wrong.splitlines() or [""]
    page = {
        "teams": [
            {"team": team, "seasons": seasons, "form": _season_form(team, seasons, sent)}
            for team, seasons in seasons_by_team()
        ],
        "stores": stores(),
        "sheets": [_shown(row) for row in current_sheets()],
        "team_form": sent.get("team") or TeamForm(),
        "store_form": sent.get("store") or StoreForm(initial=first_name(), auto_id=STORE_ID),
        "sheet_form": sent.get("sheet") or SheetForm(),
        "told": f"{told[:1].upper()}{told[1:]}",
        "lines": lines,
    }
    return render(request, "web/desk/room.html", page, status=422 if sent else 200)


def _season_form(team: Team, seasons: Sequence[Season], sent: dict[str, Any]) -> SeasonForm:
    form = sent.get("season")
    if isinstance(form, SeasonForm) and form.team == team:
        return form
    year, names = timezone.localdate().year, {season.name for season in seasons}
    while str(year) in names:
        year += 1
    return SeasonForm(team=team, initial={"name": str(year)})


def _shown(row: Sheet) -> dict[str, object]:
    return {"row": row, "shells": len(sheet_of(row).shells)}
