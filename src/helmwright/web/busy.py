"""What is said where the database could not be written or read just now."""

import sys

from django.db import OperationalError
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.template.loader import render_to_string
from django.utils.deprecation import MiddlewareMixin

from helmwright.web.sign_in.refusals import reads_json

NOT_KEPT = "Nothing of what you sent was kept."
NOT_KNOWN = "Whether what you sent was kept is not known."
AGAIN = (
    "Wait a moment, then load this page again, which sends it again. A form that adds something is"
    " kept once, however often it is sent."
)
SOON_S = "5"


class BusyMiddleware(MiddlewareMixin):
    """Answers in the place of an act that the database broke off: an act is whole or nothing."""

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        """Before it is taken for a defect."""
        return busy(request, NOT_KEPT) if is_busy(exception) else None


def failed(request: HttpRequest) -> HttpResponse:
    """What no page answers for: mostly a defect; else the database, before or after the act."""
    if is_busy(sys.exc_info()[1]):
        return busy(request, NOT_KNOWN)
    return HttpResponse(render_to_string("500.html"), status=500)


def is_busy(error: BaseException | None) -> bool:
    """Locked, full or not to be written; a table that is not there is a defect."""
    return isinstance(error, OperationalError) and "no such" not in str(error)


def busy(request: HttpRequest, sent: str) -> HttpResponse:
    """The page, which asks nothing of the database; or its words for a program of ours."""
    headers = {"Retry-After": SOON_S}
    if reads_json(request):
        return JsonResponse({"error": f"The records are busy. {sent}"}, status=503, headers=headers)
    is_read = request.method in {"GET", "HEAD"}
    page = render_to_string("503.html", {"sent": "" if is_read else sent, "again": AGAIN})
    return HttpResponse(page, status=503, headers=headers)
