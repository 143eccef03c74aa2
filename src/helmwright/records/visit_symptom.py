"""A visit that ended for a symptom, and what it asks of those that come after it."""

from uuid import UUID

from django.db.models import QuerySet

from helmwright.records.models import Visit
from helmwright.records.words import room_day, us_date

SYMPTOM = "symptom"


def open_symptom(player: UUID) -> Visit | None:
    """The player's last visit that ended for a symptom, unless one was accepted since."""
    last = _telling().filter(player=player).last()
    return last if last is not None and last.state == SYMPTOM else None


def open_symptoms() -> frozenset[UUID]:
    """Every player of whom that holds; one query."""
    last = dict(_telling().values_list("player", "state"))
    return frozenset(player for player, state in last.items() if state == SYMPTOM)


def _telling() -> QuerySet[Visit]:
    """The visits that open it and close it: one that was only stopped since does neither."""
    return Visit.objects.filter(state__in=(SYMPTOM, "accepted")).order_by("ended_at", "began_at")


def symptom_words(visit: Visit) -> str:
    """That an earlier visit ended for a symptom, and who says whether another may begin."""
    when = visit.ended_at or visit.began_at
    return (
        f"A visit ended for a symptom on {us_date(room_day(when))}, and none was accepted since."
        " Medical staff decide whether this player is fitted again; nothing here can. Begin again"
        " once they said yes."
    )
