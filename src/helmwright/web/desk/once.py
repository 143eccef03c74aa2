"""A form that is sent twice, by a second tap or by going back, is one act."""

from uuid import UUID

from django.http import HttpRequest

from helmwright.records.ids import VERSION

FIELD = "once"
"""Hidden in a form that adds something: the ID of what it will have said, made with the page."""

SENT_BEFORE = (
    "This page was sent before, and what it said then stands. Look at what is there now; where"
    " there is more to say, open the page again."
)


def once(request: HttpRequest) -> UUID | None:
    """The ID that came with the page; None where it brought none."""
    try:
        found = UUID(request.POST.get(FIELD, ""))
    except ValueError:
        return None
    return found if found.version == VERSION else None
