"""The board of a fitting day: one clock, stations above, parts below."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils.safestring import SafeString

from helmwright.planning import Minutes, Place, Planned, planned, wanted_until
from helmwright.records.readers.day import Coming, Day, Fitting, Station
from helmwright.web.desk import svg
from helmwright.web.desk.clock import Clock, time_words

AHEAD = timedelta(hours=2)
"""How far past now the clock reaches, at most."""

LANE = 84.0
TOP, BLOCK = 14.0, 56.0
THIN = 5.0
"""Blocks below this share of the width hold no number on a narrow screen [percent]."""


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
    next: tuple[Coming, ...]
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
    return Board(
        clock,
        _title(day),
        _sentences(day, stations, minutes, now),
        tuple(_lane(station, day, visits, minutes, clock) for station in day.stations),
        day.to_come[:8],
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
    return f"Fitting day: {day.issued} issued, {day.in_visit} in visit, {len(day.to_come)} to come"


def _sentences(
    day: Day, stations: Sequence[Place], minutes: Minutes, now: datetime
) -> tuple[str, ...]:
    said = []
    span = wanted_until(stations, len(day.to_come), minutes, now)
    if span is not None and day.in_visit:
        low, high = span
        said.append(f"Likely done between {time_words(low)} and {time_words(high)}.")
    said += [
        f"{fitting.short} is paused{f' before {fitting.waits_for}' if fitting.waits_for else ''}."
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
    station: Station, day: Day, visits: Sequence[Planned], minutes: Minutes, clock: Clock
) -> Lane:
    coming = [visit for visit in visits if visit.station == station.name]
    parts = [
        svg.hatch("not-yet"),
        *(_block(fitting, clock) for fitting in station.fittings),
        *_running(station, minutes, clock),
        *(_expected(visit, day.to_come[visit.order], clock) for visit in coming),
        svg.line(clock.here, 0, clock.here, LANE, "plumb"),
    ]
    told = _told(station, [day.to_come[visit.order] for visit in coming])
    heard = f"last heard {time_words(station.heard)}" if station.heard else ""
    drawing = svg.drawing(LANE, parts, told=told, kind="lane")
    return Lane(station.name, station.fitter, heard, _now(station, clock.now), drawing)


def _now(station: Station, now: datetime) -> tuple[str, ...]:
    said = []
    if station.now:
        at = station.now.waits_for or "in visit"
        said.append(f"{station.now.short}: {at}, {_minutes(station.now.began, now):.0f} min")
    elif station.id is not None:
        said.append(_free(station, now))
    said += [f"{fitting.short} paused" for fitting in station.paused]
    return tuple(said)


def _free(station: Station, now: datetime) -> str:
    if not station.fittings:
        return "free"
    since = max(fitting.last for fitting in station.fittings)
    return f"free for {_minutes(since, now):.0f} min"


def _block(fitting: Fitting, clock: Clock) -> SafeString:
    end = fitting.ended or (clock.now if fitting.is_open else fitting.last)
    left, right = clock.at(fitting.began), clock.at(end)
    width = right - left
    # Narrow screens leave out a number that its block cannot hold: the words beside it say it.
    thin = " thin" if width < THIN else " narrow" if fitting.is_open and width < 2 * THIN else ""
    if fitting.is_open:
        return svg.joined(
            (
                svg.box(left, TOP - 3, max(width, 1.0), BLOCK + 6, "running"),
                svg.words(left, TOP + 37, fitting.short, f"number running{thin}", by=7),
            )
        )
    return svg.joined(
        (
            svg.box(left, TOP, max(width, 1.8), BLOCK, "done"),
            svg.words(left + max(width, 1.8) / 2, TOP + 37, fitting.short, f"number middle{thin}"),
            svg.mark(left + max(width, 1.8), TOP + 4, fitting.mark, size=13, by=-17),
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


def _expected(visit: Planned, coming: Coming, clock: Clock) -> SafeString:
    if visit.begins >= clock.ends:
        return SafeString("")
    left, right = clock.at(visit.begins), clock.at(visit.ends)
    return svg.joined(
        (
            svg.box(left + 0.25, TOP, right - left - 0.5, BLOCK, "expected"),
            svg.words((left + right) / 2, TOP + 33, coming.short, "number middle ahead thin"),
        )
    )


def _told(station: Station, coming: Sequence[Coming]) -> str:
    past = ", ".join(f"{each.short} {each.word}" for each in station.fittings) or "nobody yet"
    ahead = ", ".join(each.short for each in coming[:4])
    return f"{station.name}: {past}." + (f" Expected next: {ahead}." if ahead else "")


def _minutes(begins: datetime, ends: datetime) -> float:
    return (ends - begins).total_seconds() / 60.0
