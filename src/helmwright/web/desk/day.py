"""The fitting day: its board, who comes next, and the stream that tells of changes."""

from datetime import UTC, datetime

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from helmwright.records.readers.day import day_of, to_come
from helmwright.records.readers.need import expected_need
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.desk.board import board
from helmwright.web.desk.clock import time_of_day
from helmwright.web.desk.parts_lane import part_lanes


@require_GET
@allowed("day")
def day(request: HttpRequest) -> HttpResponse:
    """The page, with the board as it is."""
    return render(request, "web/desk/day.html", _shown(request))


@require_GET
@allowed("day-board")
def day_board(request: HttpRequest) -> HttpResponse:
    """The board alone, which the page asks for when something has changed."""
    return render(request, "web/desk/day_board.html", _shown(request))


@require_GET
@allowed("day-order")
def day_order(request: HttpRequest) -> HttpResponse:
    """The order of players, to be printed."""
    now = datetime.now(UTC)
    return render(request, "web/desk/day_order.html", {"coming": to_come(), "at": time_of_day(now)})


def _shown(request: HttpRequest) -> dict[str, object]:
    now = datetime.now(UTC)
    today = day_of(now, role=signed_in(request).role)
    shown = board(today, now)
    return {
        "day": today,
        "board": shown,
        "tape": shown.clock.tape(),
        "through": shown.clock.through(),
        "lanes": shown.lanes,
        "parts": part_lanes(expected_need(today.date), shown.visits, shown.clock),
        "at": time_of_day(now),
    }
