"""Parts that may run out, below the stations on the same clock."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils.safestring import SafeString

from helmwright.planning import Planned
from helmwright.records.readers.need import Need, PartNeed, history
from helmwright.web.desk import svg
from helmwright.web.desk.clock import Clock, time_words
from helmwright.web.desk.part_words import place_words, size_words

LANE, FLOOR, HIGH = 76.0, 62.0, 8.0
SHOWN, AT_LEAST = 5, 3
WATCHED, LIKELY = 0.1, 0.5
"""Chances of too few from which on a part is watched, or acted on; assumed."""


@dataclass(frozen=True, slots=True)
class PartLane:
    """One part's row: its words, and its drawing."""

    place: str
    size: SafeString
    left: str
    mark: str
    word: str
    ahead: str
    drawing: SafeString


def part_lanes(need: Need, visits: Sequence[Planned], clock: Clock) -> tuple[PartLane, ...]:
    """The parts that are likeliest to run out; a few at least, so that enough is seen too."""
    wanted = [part for part in need.parts if part.outlook.short >= WATCHED][:SHOWN]
    shown = wanted if len(wanted) >= AT_LEAST else need.parts[:AT_LEAST]
    return tuple(_lane(part, need, visits, clock) for part in shown)


def judged(part: PartNeed) -> tuple[str, str]:
    """Mark and word of what is expected of a part."""
    if part.outlook.on_hand < 0:
        return "check", "count it"
    if part.outlook.short >= LIKELY:
        return "no", "buy, move or swap"
    return ("check", "watch") if part.outlook.short >= WATCHED else ("yes", "enough")


def wanted_words(part: PartNeed, need: Need) -> str:
    """How many will be wanted, and by whom: "6 to 9 wanted by 4 begun and 13 to come"."""
    low, high = part.outlook.low, part.outlook.high
    many = f"{low}" if low == high else f"{low} to {high}"
    return f"{many} wanted by {awaited_words(need)}"


def awaited_words(need: Need) -> str:
    """Whose helmets the parts are for: "4 begun and 13 to come", paused ones among the begun."""
    coming = f"{need.to_come} to come"
    return f"{need.in_hand} begun and {coming}" if need.in_hand else coming


def left_words(on_hand: int) -> str:
    """How many there are."""
    if on_hand < 0:
        return f"{-on_hand} more taken than counted"
    return "none left" if not on_hand else f"{on_hand} left"


def _lane(part: PartNeed, need: Need, visits: Sequence[Planned], clock: Clock) -> PartLane:
    mark, word = judged(part)
    gone = _gone(part, need, visits, clock.now)
    ahead = _ahead(part, need, gone)
    told = f"{place_words(part.place)} {part.size}: {left_words(part.outlook.on_hand)}; {ahead}"
    return PartLane(
        place_words(part.place),
        size_words(part.size, part.thickness_mm),
        left_words(part.outlook.on_hand),
        mark,
        word,
        ahead,
        svg.drawing(LANE, _drawn(part, gone, mark, clock), told=told, kind="lane"),
    )


def _ahead(part: PartNeed, need: Need, gone: tuple[datetime, datetime | None] | None) -> str:
    wanted = wanted_words(part, need)
    if part.outlook.on_hand <= 0:
        return f"{wanted}."
    if gone is None:
        return f"Enough to the end, {100 * (1 - part.outlook.short):.0f} in 100; {wanted}."
    first, last = gone
    until = (
        f"{time_words(first)} to {time_words(last)}" if last else f"{time_words(first)} or later"
    )
    return f"The last one goes {until}; {wanted}."


def _gone(
    part: PartNeed, need: Need, visits: Sequence[Planned], now: datetime
) -> tuple[datetime, datetime | None] | None:
    """Between which times the last one goes; None where that is not to be expected."""
    first, last = part.outlook.first, part.outlook.last
    if first is None:
        return None
    begins = _time_of(first, need.in_hand, visits, now)
    return begins, None if last is None else _time_of(last, need.in_hand, visits, now)


def _time_of(fittings: int, in_hand: int, visits: Sequence[Planned], now: datetime) -> datetime:
    """When so many of the coming fittings are done."""
    if fittings <= in_hand or not visits:
        # Those in hand end one after the other within the next minutes.
        return now + timedelta(minutes=5 * fittings)
    return max(visit.ends for visit in visits[: fittings - in_hand])


def _drawn(
    part: PartNeed, gone: tuple[datetime, datetime | None] | None, mark: str, clock: Clock
) -> list[SafeString]:
    if part.place == "shell":
        steps: tuple[tuple[datetime, int], ...] = ((clock.begins, part.outlook.on_hand),)
    else:
        steps = history(part, clock.begins)
    most = max(1, *(count for _, count in steps))
    heights = [_height(count, most) for _, count in steps]
    xs = [*(clock.at(at) for at, _ in steps), clock.here]
    parts = [svg.hatch("may-go")]
    for place, y in enumerate(heights):
        left, right = xs[place], xs[place + 1]
        parts.append(svg.box(left, y, right - left, FLOOR - y, "stock"))
        parts.append(svg.line(left, y, right, y, "step"))
        if place:
            parts.append(svg.line(left, heights[place - 1], left, y, "step"))
    parts += _going(heights[-1], gone, mark, clock)
    parts.append(svg.line(0, FLOOR, 100, FLOOR, "floor"))
    parts.append(svg.line(clock.here, 0, clock.here, LANE, "plumb"))
    return parts


def _going(
    y: float, gone: tuple[datetime, datetime | None] | None, mark: str, clock: Clock
) -> list[SafeString]:
    if gone is None:
        return [svg.line(clock.here, y, 100, (y + FLOOR) / 2, "forecast")]
    first, last = (clock.at(gone[0]), clock.at(gone[1] or clock.ends))
    return [
        svg.line(clock.here, y, first, FLOOR, "forecast"),
        svg.line(clock.here, y, last, FLOOR, "forecast"),
        svg.filled(first, FLOOR - 14, max(last - first, 0.8), 14, f"gone {mark}", "may-go"),
    ]


def _height(count: int, most: int) -> float:
    return FLOOR - (FLOOR - HIGH) * max(count, 0) / most
