"""The events of a visit, with what is private where it is not erased."""

import json
from typing import Any

from helmwright.records.kinds.visit_event import whole
from helmwright.records.models import Private, Visit

Json = dict[str, Any]


def events_of(visit: Visit) -> tuple[Json, ...]:
    """All events so far, in order, as a visit writes them; two queries."""
    steps = list(visit.steps.values_list("entry", "event"))
    private = dict(
        Private.objects.filter(entry__in=[entry for entry, _ in steps]).values_list("entry", "body")
    )
    return tuple(_whole(event, json.loads(private.get(entry, "{}"))) for entry, event in steps)


def _whole(event: Json, beside: Json) -> Json:
    if not beside:
        return event
    return whole(event, beside.get("words", ""), beside.get("stated"), beside.get("worn"))
