"""How many a store held, day by day: steps on a tape of days."""

from collections.abc import Sequence
from datetime import date, timedelta

from django.utils import timezone
from django.utils.safestring import SafeString

from helmwright.records.words import us_date
from helmwright.web.desk import svg

HEIGHT, HIGH, FLOOR = 120.0, 16.0, 96.0


def history_steps(days: Sequence[tuple[date, int]]) -> SafeString:
    """The steps from the first movement to today; a line at none, and below it what is missing."""
    if not days:
        return SafeString("")
    today = timezone.localdate()
    begins, ends = days[0][0], max(today, days[-1][0]) + timedelta(days=1)
    most = max(1, *(count for _, count in days))
    least = min(0, *(count for _, count in days))

    def y(count: int) -> float:
        return FLOOR - (FLOOR - HIGH) * (count - least) / (most - least)

    def x(day: date) -> float:
        return 100.0 * (day - begins).days / (ends - begins).days

    stretches = [*(day for day, _ in days), ends]
    parts = []
    for place, (day, count) in enumerate(days):
        left, right = x(day), x(stretches[place + 1])
        parts.append(
            svg.box(left, min(y(count), y(0)), right - left, abs(y(count) - y(0)), "stock")
        )
        parts.append(svg.line(left, y(count), right, y(count), "step"))
        before = days[place - 1][1] if place else 0
        parts.append(svg.line(left, y(before), left, y(count), "step"))
    parts += [
        svg.line(0, y(0), 100, y(0), "floor"),
        svg.words(0, HEIGHT - 4, us_date(begins), "day"),
        svg.words(100, HEIGHT - 4, "today", "day end"),
        svg.words(100, max(y(days[-1][1]) - 6, 12), days[-1][1], "count end"),
    ]
    told = "; ".join(f"{us_date(day)}: {count}" for day, count in days[-12:])
    return svg.drawing(HEIGHT, parts, told=f"How many at the end of each day: {told}.", kind="lane")
