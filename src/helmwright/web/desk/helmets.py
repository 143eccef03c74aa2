"""The helmets of the room, and adding one."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods

from helmwright.records.good_to_issue import HelmetStanding
from helmwright.records.ids import new_id
from helmwright.records.kinds.things import HelmetAdded
from helmwright.records.models import Helmet
from helmwright.records.readers.helmets import HelmetRow, helmets
from helmwright.records.readers.opening import Lack
from helmwright.web.allowed import allowed
from helmwright.web.desk.acts import address_of, may_say, say, take_in_address
from helmwright.web.desk.first_steps import lacked
from helmwright.web.desk.helmet_fields_forms import HelmetForm

WITH_PLAYER, IN_VISIT = "with a player", "in a fit visit"
FREE = HelmetStanding.GOOD.value

CHOICES = (
    ("", "all"),
    (FREE, "good to issue"),
    (WITH_PLAYER, "issued to a player"),
    (IN_VISIT, "in a fit visit"),
    (HelmetStanding.NOT_GOOD.value, "not good to issue"),
    (HelmetStanding.ON_HOLD.value, "on hold"),
    (HelmetStanding.UNKNOWN.value, "not known"),
    (HelmetStanding.RETIRED.value, "retired"),
)


@dataclass(frozen=True, slots=True)
class Choice:
    """One filter: its word, how many there are, and its address."""

    word: str
    count: int
    address: str
    is_chosen: bool


@require_GET
@allowed("helmets")
def helmet_list(request: HttpRequest) -> HttpResponse:
    """Every helmet, or those that are asked for."""
    find, chosen = request.GET.get("find", ""), request.GET.get("standing", "")
    every = helmets(day=timezone.localdate(), retired=True)
    found = helmets(day=timezone.localdate(), retired=True, search=find) if find else every
    shown = [row for row in found if _is(row, chosen)]
    page = {
        "rows": shown,
        "title": _title(every),
        "choices": _choices(found, find, chosen),
        "find": find,
        "chosen": chosen,
        "may_add": may_say(request, HelmetAdded),
        "take_in": take_in_address(request, "helmets"),
        "labels": address_of("paper-labels"),
        "missing": [] if every else lacked(request, Lack.SHEET, Lack.STORE),
    }
    is_part = request.headers.get("HX-Target") == "found"
    return render(request, f"web/desk/helmet{'_rows' if is_part else 's'}.html", page)


@require_http_methods(["GET", "POST"])
@allowed("helmet-add")
def helmet_add(request: HttpRequest) -> HttpResponse:
    """A helmet that is new here."""
    form = HelmetForm(request.POST or None, initial={"code": next_code()})
    if request.method == "POST" and form.is_valid():
        payload = form.added(new_id(timezone.now()))
        if say(request, payload, f"{payload.code} is added."):
            return redirect("helmet", payload.code)
    status = 422 if form.errors else 200
    page = {"form": form, "missing": lacked(request, Lack.SHEET, Lack.STORE)}
    return render(request, "web/desk/helmet_add.html", page, status=status)


def next_code() -> str:
    """The number after the highest, in the style of the room's codes; empty where there are none.

    Codes of one room share their beginning; a helmet of another style is left aside.
    """
    codes = [code.rpartition("-") for code in Helmet.objects.values_list("code", flat=True)]
    numbered = [(start, digits) for start, dash, digits in codes if dash and digits.isdecimal()]
    if not numbered:
        return ""
    start, _ = Counter(start for start, _ in numbered).most_common(1)[0]
    last = max((digits for each, digits in numbered if each == start), key=int)
    return f"{start}-{int(last) + 1:0{len(last)}d}"


def _is(row: HelmetRow, chosen: str) -> bool:
    if chosen == HelmetStanding.RETIRED:
        return row.is_retired
    if row.is_retired:
        return False
    if chosen == WITH_PLAYER:
        return row.holder is not None
    if chosen == IN_VISIT:
        return row.holder is None and row.meant_for is not None
    if chosen == FREE:
        return row.can_be_issued_now
    return not chosen or row.verdict.standing == chosen


def _choices(rows: Sequence[HelmetRow], find: str, chosen: str) -> list[Choice]:
    found = []
    for name, word in CHOICES:
        count = sum(_is(row, name) for row in rows)
        query = urlencode(
            {key: value for key, value in (("standing", name), ("find", find)) if value}
        )
        address = reverse("helmets") + (f"?{query}" if query else "")
        if count or name in ("", chosen):
            found.append(Choice(word, count, address, name == chosen))
    return found


def _title(rows: Sequence[HelmetRow]) -> str:
    used = [row for row in rows if not row.is_retired]
    held = sum(row.holder is not None for row in used)
    free = sum(_is(row, FREE) for row in used)
    if not used:
        return "Helmets: none yet"
    return f"Helmets: {len(used)} in use, {held} issued, {free} good to issue"
