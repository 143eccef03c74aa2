"""One helmet: its years, whether it is good to issue, what is in it, and what is done with it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.dateparse import parse_date
from django.utils.safestring import SafeString
from django.views.decorators.http import require_GET, require_POST

from helmwright.records.facts import facts_of
from helmwright.records.good_to_issue import Verdict, good_to_issue
from helmwright.records.meanwhile import MeanwhileError
from helmwright.records.models import Entry, Helmet
from helmwright.records.readers.helmet_life import HelmetLife, PadNow, helmet_life
from helmwright.records.readers.helmets import helmet_of_code
from helmwright.records.sheets import sheet_of
from helmwright.records.words import us_date
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.desk.acts import address_of, may_say, say
from helmwright.web.desk.helmet_act_form import ActForm
from helmwright.web.desk.helmet_fields_forms import ChangeForm
from helmwright.web.desk.helmet_forms import HoldForm, MoveForm, ReleaseForm, RetireForm, ReturnForm
from helmwright.web.desk.helmet_part_forms import FaceForm, PadsForm
from helmwright.web.desk.life_tape import Event, life_tape
from helmwright.web.desk.part_words import size_words

ACTS: Mapping[str, tuple[type[ActForm], str]] = {
    "hold": (HoldForm, "It is on hold: it is not issued until the hold is lifted."),
    "release": (ReleaseForm, "The hold is lifted."),
    "return": (ReturnForm, "It is back."),
    "move": (MoveForm, "It is moved."),
    "pads": (PadsForm, "The pads are changed, and the shelf with them."),
    "face": (FaceForm, "It is changed, and the shelf with it."),
    "change": (ChangeForm, "Dates and descriptions are changed."),
    "retire": (RetireForm, "It is retired, and never issued again."),
}
"""What can be done with a helmet: the form, and what is said when it is done."""

SEASON_MONTH = 8
"""A season begins on August 1 (common practice, no source)."""

SATURDAY = 5


@dataclass(frozen=True, slots=True)
class Told:
    """How it stands on one day."""

    name: str
    day: date
    verdict: Verdict
    why: str
    basis: str


@dataclass(frozen=True, slots=True)
class Pad:
    """One pad in it."""

    zone: str
    size: SafeString
    since: str


@require_GET
@allowed("helmet")
def helmet(request: HttpRequest, code: str) -> HttpResponse:
    """The page."""
    return _page(request, _helmet(code))


@require_POST
@allowed("helmet-act")
def helmet_act(request: HttpRequest, code: str, act: str) -> HttpResponse:
    """One of the acts: done and told, or the page again with what is wrong."""
    found = _helmet(code)
    if act not in ACTS:
        raise Http404
    kind, words = ACTS[act]
    form = kind(request.POST, helmet=found)
    if form.is_valid():
        if form.says_nothing:
            messages.success(request, "It stays as it is.")
            return redirect("helmet", found.code)
        try:
            say(request, form.payload(), words, unless=form.refuse_stale)
        except MeanwhileError as error:
            form.ask(error)
        else:
            return redirect("helmet", found.code)
    return _page(request, found, wrong=(act, form))


def next_game(today: date) -> date:
    """The next Saturday, today if it is one."""
    return today + timedelta(days=(SATURDAY - today.weekday()) % 7)


def next_season(today: date) -> date:
    """The first August 1 after today."""
    this_year = date(today.year, SEASON_MONTH, 1)
    return this_year if this_year > today else date(today.year + 1, SEASON_MONTH, 1)


def _helmet(code: str) -> Helmet:
    found = helmet_of_code(code)
    if found is None:
        raise Http404(f"There is no helmet {code}.")
    return found


def _page(
    request: HttpRequest, found: Helmet, wrong: tuple[str, ActForm] | None = None
) -> HttpResponse:
    today = timezone.localdate()
    game = parse_game(request.GET.get("game", ""), today)
    told = _told(found, today, game)
    life = helmet_life(found, role=signed_in(request).role)
    now = next((holding for holding in life.holders if holding.until is None), None)
    page = {
        "helmet": found,
        "told": told,
        "game": game,
        "tape": _tape(found, life, told, today),
        "dates": _dates(found, told[0].verdict),
        "pads": [_pad(found, pad, today) for pad in life.pads],
        "life": life,
        "now": now,
        "issued_to": f"Issued to {now.number or now.name} now" if now else "",
        "entries": len(life.entries),
        "last": Entry.objects.order_by("-seq").values_list("server_time", flat=True).first(),
        "acts": _acts(request, found, is_out=now is not None, wrong=wrong),
        "wrong": wrong[1] if wrong else None,
        "labels": address_of("paper-label", found.code),
    }
    return render(request, "web/desk/helmet.html", page, status=422 if wrong else 200)


def parse_game(text: str, today: date) -> date:
    """The day that was asked for; the next Saturday for what is no day or is past."""
    try:
        asked = parse_date(text)
    except ValueError:
        asked = None
    return asked if asked is not None and asked >= today else next_game(today)


def _told(found: Helmet, today: date, game: date) -> list[Told]:
    facts = facts_of(found, sheet_of(found.sheet))
    days = (("Today", today), ("Next game", game), ("Next season", next_season(today)))
    return [_told_on(found, name, day, good_to_issue(facts, day), today) for name, day in days]


def _told_on(found: Helmet, name: str, day: date, verdict: Verdict, today: date) -> Told:
    said = [_in_time(reason.words, verdict, today) for reason in verdict.reasons]
    why = " ".join(said) or _nothing_against(verdict)
    return Told(name, day, verdict, why, _basis(found))


def _in_time(words: str, verdict: Verdict, today: date) -> str:
    """What is still to come is not told as if it had been."""
    for day, past, ahead in (
        (verdict.lapses_on, "Its certification lapsed on", "Its certification lapses on"),
        (verdict.ends_on, "Its stated life ended on", "Its stated life ends on"),
    ):
        if day is not None and day > today and words.startswith(past):
            return f"{ahead} {us_date(day)}."
    return words


def _nothing_against(verdict: Verdict) -> str:
    until = f" Certified until {us_date(verdict.lapses_on)}." if verdict.lapses_on else ""
    return f"The records show nothing against it.{until}"


def _basis(found: Helmet) -> str:
    said = []
    if found.interval_months:
        said.append(f"Recertified every {found.interval_months} months")
    if found.life_years:
        said.append(f"used {found.life_years} years at most")
    model = " (invented)" if found.sheet.is_invented and "invented" not in found.sheet.model else ""
    return f"{', '.join(said)}: model sheet{model} or this helmet's own entry." if said else ""


def _dates(found: Helmet, verdict: Verdict) -> list[tuple[str, date | None]]:
    return [
        ("made", found.made_on),
        ("bought", found.bought_on),
        ("first certified", found.first_certified_on),
        ("recertified", found.recertified_on),
        ("certification lapses", verdict.lapses_on),
        ("life ends", verdict.ends_on),
    ]


def _tape(found: Helmet, life: HelmetLife, told: list[Told], today: date) -> SafeString:
    verdict = told[0].verdict
    strong = {"certification lapses", "life ends"}
    events = [
        Event(day, f"{words} {us_date(day)}" if words in strong else words, words in strong)
        for words, day in _dates(found, verdict)
        if day is not None
    ]
    events += [
        Event(timezone.localdate(holding.since), f"issued to {holding.number or holding.name}")
        for holding in life.holders[:6]
    ]
    if found.retired_on:
        events.append(Event(found.retired_on, "retired", is_strong=True))
    return life_tape(
        events,
        born=found.made_on or found.first_certified_on,
        lapses=verdict.lapses_on,
        ends=verdict.ends_on,
        asked=[each.day for each in told],
        today=today,
    )


def _pad(found: Helmet, pad: PadNow, today: date) -> Pad:
    kind = next(kind for kind in sheet_of(found.sheet).pads if str(kind.zone) == pad.zone)
    thickness = kind.thicknesses_mm[kind.labels.index(pad.label)]
    day = timezone.localdate(pad.since)
    return Pad(
        pad.zone, size_words(pad.label, thickness), "today" if day == today else us_date(day)
    )


def _acts(
    request: HttpRequest,
    found: Helmet,
    *,
    is_out: bool,
    wrong: tuple[str, ActForm] | None,
) -> list[dict[str, Any]]:
    """The acts that can be done with it as it is, by who is signed in."""
    fits = {
        "release": bool(found.hold),
        "return": is_out,
        "move": not is_out,
        "retire": found.retired_on is None,
    }
    shown = []
    for act, (kind, _) in ACTS.items():
        is_wrong = wrong is not None and wrong[0] == act
        if not is_wrong and not (fits.get(act, True) and may_say(request, kind.kind)):
            continue
        form = wrong[1] if wrong is not None and is_wrong else kind(helmet=found)
        shown.append({"name": act, "form": form, "is_open": is_wrong})
    return shown
