"""Who comes next at which station, and when a fitting day is done."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import sqrt
from statistics import fmean, stdev

USUAL_MIN = 25.0
"""Minutes of a first fitting where no day tells: 20 to 30 (estimate of the trade); assumed."""

USUAL_SPREAD_MIN = 8.0
"""Standard deviation of it [min]; assumed."""

SEEN_BEFORE = 3
"""How many visits those two weigh against the day's own; assumed."""

Z = 1.2816
"""The normal distribution's 90th percentile: eight cases in ten lie within."""


@dataclass(frozen=True, slots=True)
class Minutes:
    """How long a visit takes.

    Parameters
    ----------
    mean, spread
        Mean and standard deviation [min].
    seen
        How many of the day's visits stand behind them.
    """

    mean: float
    spread: float
    seen: int

    @classmethod
    def of(cls, minutes: Sequence[float]) -> "Minutes":
        """From the day's finished visits [min], leaning on the usual while they are few."""
        seen = len(minutes)
        weight = seen / (seen + SEEN_BEFORE)
        own = fmean(minutes) if minutes else USUAL_MIN
        own_spread = stdev(minutes) if seen > 1 else USUAL_SPREAD_MIN
        return cls(
            weight * own + (1.0 - weight) * USUAL_MIN,
            weight * own_spread + (1.0 - weight) * USUAL_SPREAD_MIN,
            seen,
        )


@dataclass(frozen=True, slots=True)
class Place:
    """One station: its name, and since when the visit there runs (None where it is free)."""

    name: str
    busy_since: datetime | None


@dataclass(frozen=True, slots=True)
class Planned:
    """A visit that is expected: who in the order (an index), where, from when to when."""

    order: int
    station: str
    begins: datetime
    ends: datetime


def planned(
    stations: Sequence[Place], to_come: int, minutes: Minutes, now: datetime
) -> tuple[Planned, ...]:
    """The visits that are expected, each at the station that is free first."""
    if not stations:
        return ()
    length = timedelta(minutes=minutes.mean)
    free = {station.name: _free(station, length, now) for station in stations}
    visits = []
    for order in range(to_come):
        name = min(free, key=lambda station: free[station])
        begins = free[name]
        free[name] = begins + length
        visits.append(Planned(order, name, begins, free[name]))
    return tuple(visits)


def wanted_until(
    stations: Sequence[Place], to_come: int, minutes: Minutes, now: datetime
) -> tuple[datetime, datetime] | None:
    """Between which times the last visit ends, eight cases in ten; None where nobody is to come.

    Notes
    -----
    The visits in hand and those to come are independent with the day's mean and standard
    deviation; each station does its part of them, so the end spreads as the square root of their
    number over the number of stations. Breaks and people who do not come are not in it.
    """
    in_hand = sum(station.busy_since is not None for station in stations)
    if not stations or not to_come + in_hand:
        return None
    visits = planned(stations, to_come, minutes, now)
    length = timedelta(minutes=minutes.mean)
    ends = [visit.ends for visit in visits] + [
        _free(station, length, now) for station in stations if station.busy_since is not None
    ]
    spread = Z * minutes.spread * sqrt(to_come + in_hand) / len(stations)
    end = max(ends)
    return max(now, end - timedelta(minutes=spread)), end + timedelta(minutes=spread)


def _free(station: Place, length: timedelta, now: datetime) -> datetime:
    if station.busy_since is None:
        return now
    # One that has run over its time is expected to end any minute, and not in the past.
    return max(now + timedelta(minutes=2), station.busy_since + length)
