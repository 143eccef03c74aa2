"""What a view takes from outside: the clock, and what was posted."""

from datetime import datetime

from django.http import HttpRequest, QueryDict
from django.utils import timezone


def now() -> datetime:
    """What time it is."""
    return timezone.now()


def posted(request: HttpRequest) -> QueryDict | None:
    """What was posted, empty or not; None where the page is only looked at."""
    return request.POST if request.method == "POST" else None
