"""What a file would do, before it does; and then it does that, or nothing."""

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST

from helmwright.records.actions.take_in import (
    NothingToDoError,
    PlanChangedError,
    take_in,
)
from helmwright.records.models import TakeIn
from helmwright.records.readers.taking_in import plan_of, taken_before
from helmwright.records.taking_in.plan import Plan, Verdict
from helmwright.records.taking_in.upload import ROLES, Upload
from helmwright.roster import RosterError
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.take_in.choose import choosing
from helmwright.web.take_in.kept_file import carried, upload_of
from helmwright.web.take_in.words import WHAT, rows_words, sums


@never_cache
@require_POST
@sensitive_post_parameters()
@allowed("take-in-preview")
def preview(request: HttpRequest) -> HttpResponse:
    """Row by row, what would happen."""
    try:
        upload = _upload(request)
        return _page(request, upload, plan_of(upload, today=timezone.localdate()))
    except RosterError as error:
        return _refused(request, error)


@never_cache
@require_POST
@sensitive_post_parameters()
@allowed("take-in-do")
def do(request: HttpRequest) -> HttpResponse:
    """Take it in as it was shown; where the room has changed, show what would happen now."""
    try:
        upload = _upload(request)
        if TakeIn.objects.filter(id=upload.take_in).exists():
            return redirect("take-in-result", upload.take_in)
        plan = take_in(
            upload=upload,
            plan_digest=request.POST.get("plan", ""),
            by=signed_in(request),
            now=timezone.now(),
        )
    except RosterError as error:
        return _refused(request, error)
    except (PlanChangedError, NothingToDoError) as error:
        return _again(request, upload, str(error))
    messages.success(request, f"Taken in: {rows_words(len(plan.changing))}.")
    return redirect("take-in-result", upload.take_in)


def _again(request: HttpRequest, upload: Upload, why: str) -> HttpResponse:
    messages.error(request, f"{why} This is what would happen now.")
    return _page(request, upload, plan_of(upload, today=timezone.localdate()), status=409)


def _upload(request: HttpRequest) -> Upload:
    upload = upload_of(request)
    if signed_in(request).role not in ROLES[upload.what]:
        raise PermissionDenied
    return upload


def _refused(request: HttpRequest, error: RosterError) -> HttpResponse:
    said = request.POST
    return choosing(
        request,
        said.get("what", ""),
        wrong=str(error),
        store=said.get("store", ""),
        how=said.get("how", "counted"),
    )


def _page(request: HttpRequest, upload: Upload, plan: Plan, status: int = 200) -> HttpResponse:
    before = taken_before(upload)
    asking = [line for line in plan.lines if line.choices]
    page = {
        "upload": upload,
        "kind": WHAT[upload.what],
        "kept": carried(upload.data),
        "plan": plan,
        "sums": sums(plan),
        "before": before,
        "asking": [{"line": line, "answer": upload.answers.get(line.row, "")} for line in asking],
        "open_count": len(plan.having(Verdict.ASKS)),
        "refused": plan.having(Verdict.REFUSED),
        "changing": plan.changing,
        "same": plan.having(Verdict.SAME),
        "left_out": [line for line in plan.having(Verdict.LEFT_OUT) if not line.choices],
        "button": rows_words(len(plan.changing)),
    }
    return render(request, "web/take_in/preview.html", page, status=status)
