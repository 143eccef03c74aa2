"""Now: what needs doing."""

from datetime import UTC, datetime

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from helmwright.records.kinds.things import PartsCounted
from helmwright.records.models import Entry, Outcome
from helmwright.records.readers.now import Situation, situation
from helmwright.records.readers.visit_told import reads_of_symptoms
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.desk.acts import may_say
from helmwright.web.desk.clock import time_of_day
from helmwright.web.desk.first_steps import first_steps
from helmwright.web.desk.to_do import to_do

SEEN = "set-aside-seen"
"""In the session: how far this person, here, has looked at what was set aside."""


@require_GET
@allowed("now")
def now(request: HttpRequest) -> HttpResponse:
    """The page."""
    moment = datetime.now(UTC)
    seen = request.session.get(SEEN, 0)
    role = signed_in(request).role
    found = situation(now=moment, today=timezone.localdate(), seen=seen, role=role)
    things = to_do(
        found,
        may_count=may_say(request, PartsCounted),
        tells_symptoms=reads_of_symptoms(role),
    )
    steps = first_steps(request)
    page = {
        "title": _title(
            len(things) + bool(found.aside), len(steps), has_players=bool(found.players)
        ),
        "steps": steps,
        "has_players": bool(found.players),
        "things": things,
        "aside": found.aside,
        "standing": _standing(found),
        "chain": found.chain,
        "at": time_of_day(moment),
    }
    part = request.headers.get("HX-Target") == "doing"
    return render(request, f"web/desk/now{'_things' if part else ''}.html", page)


@require_POST
@allowed("now-seen")
def now_seen(request: HttpRequest) -> HttpResponse:
    """What was set aside is looked at."""
    rows = Entry.objects.filter(outcome=Outcome.SET_ASIDE)
    request.session[SEEN] = rows.order_by("-seq").values_list("seq", flat=True).first() or 0
    return redirect("now")


def _title(count: int, steps: int, *, has_players: bool) -> str:
    if not count and steps:
        many = "1 step" if steps == 1 else f"{steps} steps"
        return f"{many} before the first fitting"
    if not count:
        return "Nothing needs doing" if has_players else "Nobody is on the roster"
    return "1 thing needs doing" if count == 1 else f"{count} things need doing"


def _standing(found: Situation) -> str:
    """Where the roster stands, in one sentence."""
    total = len(found.players)
    if not total:
        return "No player is on the roster yet."
    holding = sum(bool(row.held) for row in found.players)
    return f"{holding} of {total} players hold a helmet; {found.in_visit} in visit now."
