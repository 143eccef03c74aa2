"""A visit that ended for a symptom, and what it asks of those that come after it."""

from uuid import UUID

from helmwright.records.models import Visit
from helmwright.records.words import room_day, us_date


def open_symptom(player: UUID) -> Visit | None:
    """The player's last visit that ended for a symptom, unless one was accepted since."""
    ended = Visit.objects.filter(player=player, state__in=("symptom", "accepted"))
    last = ended.order_by("-ended_at", "-began_at").first()
    return last if last is not None and last.state == "symptom" else None


def symptom_words(visit: Visit) -> str:
    """That an earlier visit ended for a symptom, and who says whether another may begin."""
    when = visit.ended_at or visit.began_at
    return (
        f"A visit ended for a symptom on {us_date(room_day(when))}, and none was accepted since."
        " Medical staff decide whether this player is fitted again; nothing here can. Begin again"
        " once they said yes."
    )
