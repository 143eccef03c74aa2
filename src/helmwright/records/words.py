"""Dates, times and counts as the room writes them."""

from datetime import date, datetime

from django.utils import timezone

_SMALL = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def us_date(day: date) -> str:
    """Aug 7, 2026."""
    return f"{day:%b} {day.day}, {day.year}"


def clock(moment: datetime) -> str:
    """10:41 AM, by the room's clock."""
    local = timezone.localtime(moment, timezone.get_default_timezone())
    return f"{local.hour % 12 or 12}:{local:%M %p}"


def room_day(moment: datetime) -> date:
    """The day that it is in the room."""
    return timezone.localdate(moment, timezone.get_default_timezone())


def since(moment: datetime, *, now: datetime) -> str:
    """At 10:41 AM, where that was today; on Aug 6, 2026 otherwise."""
    if room_day(moment) == room_day(now):
        return f"at {clock(moment)}"
    return f"on {us_date(room_day(moment))}"


def counted(count: int, one: str, many: str) -> str:
    """1 entry, 1,204 entries."""
    return f"{count:,} {one if count == 1 else many}"


def in_words(count: int) -> str:
    """Small counts spelled out."""
    return _SMALL[count] if 0 <= count < len(_SMALL) else str(count)
