"""Which signatures count for a visit: those since its fit was accepted last."""

from django.db.models import QuerySet

from helmwright.records.models import Acknowledgment, Entry, Helmet, Visit


def acknowledgment_of(visit: Visit, helmet: Helmet) -> Acknowledgment | None:
    """The last that stands for a helmet of an accepted visit; None where nobody signed since.

    One that names no visit is of the visit before it. What was signed before an acceptance that was
    taken back was signed for another build.
    """
    rows = Acknowledgment.objects.filter(player=visit.player_id, helmet=helmet)
    own = _last(visit, rows.filter(visit=visit))
    return own or _last(visit, _unnamed(visit, rows))


def _unnamed(visit: Visit, rows: QuerySet[Acknowledgment]) -> QuerySet[Acknowledgment]:
    later = visit.player.visits.filter(began_at__gt=visit.began_at).order_by("began_at").first()
    unnamed = rows.filter(visit__isnull=True, at__gte=visit.began_at)
    return unnamed if later is None else unnamed.filter(at__lt=later.began_at)


def _last(visit: Visit, rows: QuerySet[Acknowledgment]) -> Acknowledgment | None:
    """By the order of the ledger: nothing follows an acceptance but its being taken back."""
    end = visit.steps.last()
    since = Entry.objects.filter(id__in=rows.values("id"), seq__gt=end.entry if end else 0)
    newest = since.order_by("-seq").first()
    return None if newest is None else rows.get(id=newest.id)
