"""How often somebody may try a door.

A try is kept before it is judged, and in a transaction of its own, so that many at once cannot
all be the last one allowed.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from helmwright.records.models.doors import Knock

FORGOTTEN_AFTER = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Limit:
    """So many tries in so long.

    Parameters
    ----------
    door, key
        What is tried, and whose tries count together.
    tries
        How many are let through.
    within
        In how long.
    """

    door: str
    key: str
    tries: int
    within: timedelta


def knock(limits: Sequence[Limit], *, now: datetime) -> datetime | None:
    """Count a try against every limit; the moment until which it is refused, None where it may.

    A refused try is not counted: whoever waits as told gets in.
    """
    Knock.objects.filter(at__lt=now - FORGOTTEN_AFTER).delete()
    mine = [Knock.objects.create(door=each.door, key=each.key, at=now) for each in limits]
    waits = [wait for each in limits if (wait := _shut_until(each, now))]
    if not waits:
        return None
    Knock.objects.filter(pk__in=[each.pk for each in mine]).delete()
    return max(waits)


def forget(limit: Limit) -> None:
    """The tries at one door by one key count no longer: the right word was said."""
    Knock.objects.filter(door=limit.door, key=limit.key).delete()


def _shut_until(limit: Limit, now: datetime) -> datetime | None:
    tries = Knock.objects.filter(door=limit.door, key=limit.key, at__gt=now - limit.within)
    times = list(tries.order_by("-at").values_list("at", flat=True)[: limit.tries + 1])
    return times[-1] + limit.within if len(times) > limit.tries else None
