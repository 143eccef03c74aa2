"""A stretch of time on the tape."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString

from helmwright.web.desk import svg

HEIGHT = 52.0
HALF = timedelta(minutes=30)
TICK = timedelta(minutes=5)


@dataclass(frozen=True, slots=True)
class Clock:
    """From when to when the tape shows, and the time that it is."""

    begins: datetime
    ends: datetime
    now: datetime

    @classmethod
    def around(cls, first: datetime, last: datetime, now: datetime) -> "Clock":
        """From the half hour before the first to the one after the last."""
        begins, ends = _half_hour(first), _half_hour(last) + HALF
        return cls(begins, max(ends, begins + 4 * HALF), now)

    def at(self, moment: datetime) -> float:
        """Where a moment is [percent of the width]; kept on the tape."""
        share = (moment - self.begins) / (self.ends - self.begins)
        return 100.0 * min(max(share, 0.0), 1.0)

    @property
    def here(self) -> float:
        """Where it is now."""
        return self.at(self.now)

    def through(self) -> SafeString:
        """The line of the time that it is, from the tape down through everything below."""
        return format_html(
            '<svg class="through" aria-hidden="true"><line x1="{0}%" x2="{0}%" y1="0" y2="100%" />'
            "</svg>",
            f"{self.here:.2f}",
        )

    def tape(self) -> SafeString:
        """The tape: pulled out as far as it is now, hours above, a tick every five minutes."""
        return svg.drawing(
            HEIGHT,
            (
                svg.box(0, 0, 100, HEIGHT, "blank"),
                svg.box(0, 0, self.here, HEIGHT, "tape"),
                *self._ticks(),
                svg.line(0, 1, 100, 1, "edge"),
                svg.line(0, HEIGHT - 1, 100, HEIGHT - 1, "edge"),
                svg.line(self.here, 0, self.here, HEIGHT, "plumb thick"),
            ),
            told=f"The clock: it is {time_words(self.now)}.",
            kind="clock",
        )

    def _ticks(self) -> list[SafeString]:
        parts, moment = [], self.begins
        while moment <= self.ends:
            parts += self._tick(moment)
            moment += TICK
        return parts

    def _tick(self, moment: datetime) -> list[SafeString]:
        local, x = timezone.localtime(moment), self.at(moment)
        past = "past" if moment <= self.now else "ahead"
        length = {0: 22, 30: 16, 15: 12, 45: 12}.get(local.minute, 7)
        tick = svg.line(x, HEIGHT - length, x, HEIGHT, f"tick {past}")
        # A word that the edge or the time's own line would cut is left out.
        if local.minute not in (0, 30) or not 1.5 < x < 98.5 or abs(x - self.here) < 1.2:
            return [tick]
        said = f"{local.hour % 12 or 12}:00" if local.minute == 0 else ":30"
        kind = "hour" if local.minute == 0 else "half"
        return [tick, svg.words(x, 22, said, f"{kind} {past} middle")]


def time_words(moment: datetime) -> str:
    """A time of the day as people here write it: 10:41."""
    local = timezone.localtime(moment)
    return f"{local.hour % 12 or 12}:{local.minute:02d}"


def time_of_day(moment: datetime) -> str:
    """The same with morning or afternoon: 10:41 AM."""
    local = timezone.localtime(moment)
    return f"{time_words(moment)} {'AM' if local.hour < 12 else 'PM'}"


def _half_hour(moment: datetime) -> datetime:
    local = timezone.localtime(moment)
    return local.replace(minute=local.minute // 30 * 30, second=0, microsecond=0)
