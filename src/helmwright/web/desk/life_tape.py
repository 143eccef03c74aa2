"""A helmet's years as the tape: what happened hangs above, what is to come is hatched."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import NamedTuple

from django.utils.safestring import SafeString

from helmwright.records.words import counted
from helmwright.web.desk import svg

TAPE = 54.0
LEVEL, FIRST = 24.0, 14.0
MOST_LEVELS = 4
LETTER = 0.62
"""Width of a letter at the width of a laptop [percent of the tape]."""

TODAY_ROOM = timedelta(days=120)


@dataclass(frozen=True, slots=True)
class Event:
    """Something on a day; `is_strong` where the day bears on issue."""

    day: date
    words: str
    is_strong: bool = False


@dataclass(frozen=True, slots=True)
class Years:
    """The stretch of time that the tape shows."""

    begins: date
    ends: date
    today: date

    @classmethod
    def of(cls, events: Sequence[Event], today: date) -> "Years":
        """From the year of the first to the end of that of the last, next year at least."""
        days = [event.day for event in events]
        first, last = min([*days, today]), max([*days, today + timedelta(days=500)])
        return cls(date(first.year, 1, 1), date(last.year + 1, 1, 1), today)

    def at(self, day: date) -> float:
        """Where a day is [percent]; kept on the tape."""
        share = (day - self.begins).days / (self.ends - self.begins).days
        return 100.0 * min(max(share, 0.0), 1.0)


def life_tape(
    events: Sequence[Event],
    *,
    born: date | None,
    lapses: date | None,
    ends: date | None,
    asked: Sequence[date],
    today: date,
) -> SafeString:
    """The tape with everything that hangs from it.

    Parameters
    ----------
    events
        What happened and what is to come, each on its day.
    born
        From when on the helmet is there.
    lapses, ends
        From when on its certification lapses and its life ends; hatched.
    asked
        The days on which its standing is told below.
    today
        As far as the tape is pulled out.
    """
    years = Years.of([*events, *(Event(day, "") for day in asked)], today)
    events = by_day(events)
    levels = levels_of([(years.at(each.day), each.words) for each in events])
    # The tape begins at 0 and what hangs goes above: where a narrow screen leaves the words out,
    # their room goes with them.
    top = 0.0
    parts = [
        svg.hatch("lapsed", fine=True),
        svg.hatch("over"),
        svg.box(0, top, 100, TAPE, "blank"),
        *_pulled(years, born, top),
        *_closed(years, lapses, ends, top),
        *_ticks(years, top),
        svg.line(0, top, 100, top, "edge"),
        svg.line(0, top + TAPE, 100, top + TAPE, "edge"),
        *_hung(events, levels, years, top),
        *_asked(asked, years, top),
    ]
    high = max(levels, default=0) + 1
    told = _told(events, today)
    return svg.drawing(top + TAPE + 24, parts, told=told, kind=f"life levels-{high}")


def by_day(events: Sequence[Event]) -> list[Event]:
    """One event a day, in order, which says everything of that day once."""
    days: dict[date, list[Event]] = {}
    for event in events:
        days.setdefault(event.day, []).append(event)
    return [
        Event(day, ", ".join(dict.fromkeys(each.words for each in each_day)),
              is_strong=any(each.is_strong for each in each_day))
        for day, each_day in sorted(days.items())
    ]  # fmt: skip


def levels_of(words: Sequence[tuple[float, str]]) -> list[int]:
    """A level above the tape for each of the words, so that no words and no lines cross.

    Parameters
    ----------
    words
        Where each begins [percent], and what it says.
    """
    placed: dict[int, _Hung] = {}
    for place in sorted(range(len(words)), key=lambda place: _turn(words[place][0])):
        at, said = words[place]
        begins, ends = _span(at, said)
        tried = (_Hung(at, begins, ends, level) for level in range(MOST_LEVELS))
        others = placed.values()
        hung = next((each for each in tried if not any(map(each.crosses, others))), None)
        placed[place] = hung or _Hung(at, begins, ends, MOST_LEVELS - 1)
    return [placed[place].level for place in range(len(words))]


def _turn(at: float) -> tuple[bool, float]:
    """Words right of their mark go up from the right, those left of it from the left.

    What comes later hangs higher then, and its line passes by the words below.
    """
    return (True, at) if at > ANCHOR_RIGHT else (False, -at)


class _Hung(NamedTuple):
    at: float
    begins: float
    ends: float
    level: int

    def crosses(self, other: "_Hung") -> bool:
        """Whether words run into words, or a line through words below it."""
        if self.level == other.level:
            return self.begins < other.ends and other.begins < self.ends
        high, low = (self, other) if self.level > other.level else (other, self)
        return low.begins < high.at < low.ends


def _span(at: float, said: str) -> tuple[float, float]:
    length = LETTER * len(said) + 1.5
    return (at - length, at) if at > ANCHOR_RIGHT else (at, at + length)


ANCHOR_RIGHT = 80.0
"""Words that begin farther right stand left of their mark [percent]."""


def _pulled(years: Years, born: date | None, top: float) -> list[SafeString]:
    begins = years.at(born) if born else 0.0
    here = years.at(years.today)
    return [svg.box(begins, top, here - begins, TAPE, "tape")]


def _closed(years: Years, lapses: date | None, ends: date | None, top: float) -> list[SafeString]:
    parts = []
    for day, pattern in ((lapses, "lapsed"), (ends, "over")):
        begins = None if day is None else max(years.at(day), years.at(years.today))
        if begins is not None and begins < 100:
            parts.append(svg.filled(begins, top, 100 - begins, TAPE, "hatched", pattern))
    return parts


def _ticks(years: Years, top: float) -> list[SafeString]:
    parts = []
    foot = top + TAPE
    for year in range(years.begins.year, years.ends.year):
        for month in range(1, 13):
            day = date(year, month, 1)
            side = "past" if day <= years.today else "ahead"
            height = 20 if month == 1 else 10
            x = years.at(day)
            parts.append(svg.line(x, foot - height, x, foot, f"tick {side}"))
        side = "past" if date(year, 6, 1) <= years.today else "ahead"
        # On a phone every other year has room for its number, and the last has none.
        is_thin = (year - years.begins.year) % 2 or year == years.ends.year - 1
        kind = f"year {side}{' thin' if is_thin else ''}"
        parts.append(svg.words(years.at(date(year, 1, 1)), top + 26, year, kind, by=7))
    return parts


def _hung(
    events: Sequence[Event], levels: Sequence[int], years: Years, top: float
) -> list[SafeString]:
    parts = []
    for event, level in zip(events, levels, strict=True):
        x, y = years.at(event.day), top - FIRST - LEVEL * level
        strong = " strong" if event.is_strong else ""
        is_left = x > ANCHOR_RIGHT
        parts += [
            svg.line(x, y - 12, x, top, "hang"),
            svg.mark(x, top - 5, "yes", size=10, by=-5),
            svg.words(
                x, y, event.words, f"event{strong}{' end' if is_left else ''}",
                by=-7 if is_left else 6,
            ),
        ]  # fmt: skip
    return parts


def _asked(asked: Sequence[date], years: Years, top: float) -> list[SafeString]:
    parts = []
    for place, day in enumerate(asked):
        x = years.at(day)
        kind = "plumb thick" if place == 0 else "plumb"
        parts.append(svg.line(x, top - (0 if place else 2), x, top + TAPE + 12, kind))
        parts.append(svg.arrow(x, top + TAPE + 10))
    return parts


def _told(events: Sequence[Event], today: date) -> str:
    past = [event for event in events if event.day <= today]
    said = "; ".join(f"{event.words} {event.day:%Y-%m-%d}" for event in events)
    return (
        f"The helmet's years, {counted(len(past), 'mark', 'marks')} so far: {said}."
        if events
        else "No dates yet."
    )
