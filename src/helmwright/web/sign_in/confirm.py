"""Once more with the password, where a PIN alone does not open a page."""

from django.contrib.auth import authenticate, login
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from helmwright.records.knocks import knock
from helmwright.web.allowed import allowed, signed_in
from helmwright.web.sign_in.address import address_of
from helmwright.web.sign_in.limits import of_password
from helmwright.web.sign_in.onward import onward
from helmwright.web.sign_in.password import wait_words
from helmwright.web.sign_in.with_password import confirmed, wants_password

WRONG = "That is not your password. Small and large letters differ."


@never_cache
@sensitive_post_parameters("password")
@require_http_methods(["GET", "POST"])
@allowed("confirm")
def confirm(request: HttpRequest) -> HttpResponseBase:
    """The page, and what is typed on it."""
    now = timezone.now()
    if not wants_password(request, now=now):
        return redirect(onward(request))
    if request.method == "GET":
        return _page(request)
    shut_until = knock(of_password(address_of(request)), now=now)
    if shut_until:
        return _page(request, wait_words(shut_until), status=429)
    own = signed_in(request)
    typed = request.POST.get("password", "")
    if authenticate(request, username=own.username, password=typed) != own:
        return _page(request, WRONG, status=401)
    login(request, own, backend="django.contrib.auth.backends.ModelBackend")
    # It stays a session of a PIN, and ends as such; what it may do more goes with a new key.
    request.session.cycle_key()
    confirmed(request, now=now)
    return redirect(onward(request))


def _page(request: HttpRequest, trouble: str = "", status: int = 200) -> HttpResponse:
    context = {
        "onward": onward(request),
        "own": signed_in(request),
        "trouble": trouble,
        "unsent": request.GET.get("unsent") == "yes",
    }
    return render(request, "web/doors/confirm.html", context, status=status)
