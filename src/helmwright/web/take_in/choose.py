"""Choose what is taken in, and the file."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from helmwright.records.models import Sheet, Store, TakeIn, Team
from helmwright.records.readers.opening import Lack
from helmwright.records.taking_in.upload import MOST_BYTES, MOST_ROWS, ROLES
from helmwright.web.allowed import ALLOWED, allowed, signed_in
from helmwright.web.desk.first_steps import lacked
from helmwright.web.take_in.words import WHAT

SHOWN = 20

LEANS = {
    "roster": (Lack.TEAM,),
    "helmets": (Lack.SHEET, Lack.STORE),
    "stock": (Lack.SHEET, Lack.STORE),
}
"""What the room must have before a file of the kind can be taken in."""


@require_GET
@allowed("take-in")
def choose(request: HttpRequest) -> HttpResponse:
    """The page."""
    return choosing(request, request.GET.get("what", "roster"))


def choosing(
    request: HttpRequest, what: str, *, wrong: str = "", store: str = "", how: str = "counted"
) -> HttpResponse:
    """The page, with what was wrong with a file."""
    role = signed_in(request).role
    kinds = [kind for kind, roles in ROLES.items() if role in roles]
    what = what if what in kinds else kinds[0]
    files = TakeIn.objects.select_related("by").order_by("-at")
    page = {
        "what": what,
        "kinds": [{"key": kind, "words": WHAT[kind]} for kind in kinds],
        "wrong": f"{wrong[:1].upper()}{wrong[1:]}{'' if wrong.endswith('.') else '.'}"
        if wrong
        else "",
        "teams": Team.objects.order_by("name"),
        "stores": Store.objects.filter(is_closed=False).order_by("name"),
        "store": store or request.GET.get("store", ""),
        "sheets": Sheet.objects.filter(is_current=True).order_by("model"),
        "how": how,
        "files": files[:SHOWN],
        "missing": lacked(request, *LEANS[what]),
        "may_export": role in ALLOWED["take-in-everything"],
        "most_mb": f"{MOST_BYTES / 1e6:g}",
        "most_rows": f"{MOST_ROWS:,}",
    }
    return render(request, "web/take_in/choose.html", page, status=422 if wrong else 200)
