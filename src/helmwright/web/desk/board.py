"""The board of a fitting day: one clock, stations above, parts below."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID

from django.utils.safestring import SafeString

from helmwright.planning import Minutes, Place, Planned, planned, wanted_until
from helmwright.records.readers.day import Coming, Day, Fitting, Station
from helmwright.web.desk import svg
from helmwright.web.desk.called import called
from helmwright.web.desk.clock import Clock, time_words

AHEAD = timedelta(hours=2)
"""How far past now the clock reaches, at most."""

LANE = 84.0
TOP, BLOCK = 14.0, 56.0
THIN = 5.0
"""Blocks below this share of the width hold no number on a narrow screen [percent]."""
NARROWEST, A_LETTER = 1.8, 1.1
"""Width that shows a block, and that one figure takes on a wide screen [percent]."""
NEXT = 8
"""How many of those to come are named."""


@dataclass(frozen=True, slots=True)
class Lane:
    """One station's row: its words, and its drawing."""

    name: str
    fitter: str
    heard: str
    now: tuple[str, ...]
    drawing: SafeString


@dataclass(frozen=True, slots=True)
class Board:
    """What the page shows of the stations."""

    clock: Clock
    title: str
    sentences: tuple[str, ...]
    lanes: tuple[Lane, ...]
    next: tuple[str, ...]
    more: int
    visits: tuple[Planned, ...]


def board(day: Day, now: datetime) -> Board:
    """The board as it is now."""
    minutes = day_minutes(day)
    stations = [
        Place(station.name, station.now.began if station.now else None)
        for station in day.stations
        if station.id is not None
    ]
    visits = planned(stations, len(day.to_come), minutes, now)
    clock = _clock(day, visits, now)
    names = called([*day.fittings, *day.to_come])
    return Board(
        clock,
        _title(day),
        _sentences(day, stations, minutes, names, now),
        tuple(_lane(station, visits, minutes, names, clock) for station in day.stations),
        tuple(_next(each) for each in day.to_come[:NEXT]),
        max(0, len(day.to_come) - NEXT),
        visits,
    )


def day_minutes(day: Day) -> Minutes:
    """How long visits take, from those of the day that were finished."""
    done = [each for each in day.fittings if each.state == "accepted" and each.ended is not None]
    return Minutes.of([_minutes(each.began, each.ended) for each in done if each.ended])


def _clock(day: Day, visits: Sequence[Planned], now: datetime) -> Clock:
    began = [each.began for each in day.fittings]
    today = [moment for moment in began if now - moment < timedelta(hours=14)]
    ends = [visit.ends for visit in visits]
    last = min(max([*ends, now + timedelta(minutes=30)]), now + AHEAD)
    return Clock.around(min([*today, now - timedelta(hours=1)]), last, now)


def _title(day: Day) -> str:
    paused = f", {len(day.paused)} paused" if day.paused else ""
    return (
        f"Fitting day: {day.issued} issued, {day.in_visit} in visit{paused},"
        f" {len(day.to_come)} to come"
    )


def _next(coming: Coming) -> str:
    """A number says who it is only together with a name; the name alone where there is none."""
    first = coming.name.split(" ")[0]
    return f"{coming.number} {first}" if coming.number else coming.name


def _sentences(
    day: Day,
    stations: Sequence[Place],
    minutes: Minutes,
    names: Mapping[UUID, str],
    now: datetime,
) -> tuple[str, ...]:
    said = []
    span = wanted_until(stations, len(day.to_come), minutes, now)
    if span is not None and day.in_visit:
        low, high = span
        said.append(f"Likely done between {time_words(low)} and {time_words(high)}.")
    said += [
        f"{names[fitting.player]} is paused"
        f"{f' before {fitting.waits_for}' if fitting.waits_for else ''}."
        for fitting in day.paused
    ]
    if span is not None and day.in_visit:
        said.append(_basis(minutes))
    return tuple(said)


def _basis(minutes: Minutes) -> str:
    if minutes.seen:
        return (
            f"A visit takes about {minutes.mean:.0f} minutes: {minutes.seen} of today and what is"
            " usual (assumed)."
        )
    return f"A visit takes about {minutes.mean:.0f} minutes (assumed: none is finished today)."


def _lane(
    station: Station,
    visits: Sequence[Planned],
    minutes: Minutes,
    names: Mapping[UUID, str],
    clock: Clock,
) -> Lane:
    coming = [visit for visit in visits if visit.station == station.name]
    parts = [
        svg.hatch("not-yet"),
        *_blocks(station, names, clock),
        *_running(station, minutes, clock),
        *(_expected(visit, clock) for visit in coming),
        svg.line(clock.here, 0, clock.here, LANE, "plumb"),
    ]
    told = _told(station, names)
    heard = f"last heard {time_words(station.heard)}" if station.heard else ""
    drawing = svg.drawing(LANE, parts, told=told, kind="lane")
    return Lane(station.name, station.fitter, heard, _now(station, names, clock.now), drawing)


def _now(station: Station, names: Mapping[UUID, str], now: datetime) -> tuple[str, ...]:
    said = []
    if station.now:
        at = station.now.waits_for or "in visit"
        name = names[station.now.player]
        said.append(f"{name}: {at}, {_minutes(station.now.began, now):.0f} min")
    elif station.id is not None:
        said.append(_free(station, now))
    said += [f"{names[fitting.player]} paused" for fitting in station.paused]
    return tuple(said)


def _free(station: Station, now: datetime) -> str:
    if not station.fittings:
        return "free"
    since = max(fitting.last for fitting in station.fittings)
    return f"free for {_minutes(since, now):.0f} min"


def _blocks(station: Station, names: Mapping[UUID, str], clock: Clock) -> list[SafeString]:
    """The visits of the day; a short one is widened up to the next one or to now, not over it."""
    begins = [clock.at(fitting.began) for fitting in station.fittings]
    return [
        _block(fitting, names[fitting.player], min(after, clock.here), clock)
        for fitting, after in zip(station.fittings, [*begins, clock.here][1:], strict=True)
    ]


def _block(fitting: Fitting, name: str, before: float, clock: Clock) -> SafeString:
    end = fitting.ended or (clock.now if fitting.is_open else fitting.last)
    left, right = clock.at(fitting.began), clock.at(end)
    width = max(right - left, min(NARROWEST, before - left), 0.4)
    # What its block cannot hold stands below it; narrow screens leave it to the words beside.
    if width < A_LETTER * (len(name) + 1):
        said = svg.words(left + width, LANE - 1, name, "number under thin")
    elif fitting.is_open:
        thin = " thin" if width < THIN else " narrow" if width < 2 * THIN else ""
        said = svg.words(left, TOP + 37, name, f"number running{thin}", by=7)
    else:
        thin = " thin" if width < THIN else ""
        said = svg.words(left + width / 2, TOP + 37, name, f"number middle{thin}")
    if fitting.is_open:
        return svg.joined((svg.box(left, TOP - 3, width, BLOCK + 6, "running"), said))
    return svg.joined(
        (
            svg.box(left, TOP, width, BLOCK, "done"),
            said,
            svg.mark(left + width, TOP + 4, fitting.mark, size=13, by=-17),
        )
    )


def _running(station: Station, minutes: Minutes, clock: Clock) -> list[SafeString]:
    """How long the visit in hand may still take: hatched, for it is not known."""
    if station.now is None:
        return []
    low = station.now.began + timedelta(minutes=minutes.mean)
    end = max(low, clock.now + timedelta(minutes=2))
    here = clock.here
    return [svg.filled(here, TOP, clock.at(end) - here, BLOCK, "edge", "not-yet")]


def _expected(visit: Planned, clock: Clock) -> SafeString:
    """When one is expected; who it will be is told in one order for all stations."""
    if visit.begins >= clock.ends:
        return SafeString("")
    left, right = clock.at(visit.begins), clock.at(visit.ends)
    return svg.box(left + 0.25, TOP, right - left - 0.5, BLOCK, "expected")


def _told(station: Station, names: Mapping[UUID, str]) -> str:
    past = [f"{names[each.player]} {each.word}" for each in station.fittings]
    return f"{station.name}: {', '.join(past) or 'nobody yet'}."


def _minutes(begins: datetime, ends: datetime) -> float:
    return (ends - begins).total_seconds() / 60.0
