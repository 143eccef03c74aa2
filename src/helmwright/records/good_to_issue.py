"""Whether the records show anything against issuing a helmet, on a given day."""

import calendar
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import NamedTuple

from helmwright.records.words import us_date


class HelmetStanding(StrEnum):
    """How a helmet stands; the strictest first."""

    RETIRED = "retired"
    ON_HOLD = "on hold"
    NOT_GOOD = "not good to issue"
    UNKNOWN = "unknown"
    GOOD = "good to issue"


MARKS = {
    HelmetStanding.RETIRED: "no",
    HelmetStanding.ON_HOLD: "hold",
    HelmetStanding.NOT_GOOD: "no",
    HelmetStanding.UNKNOWN: "unknown",
    HelmetStanding.GOOD: "yes",
}


@dataclass(frozen=True, slots=True)
class HelmetFacts:
    """What is recorded of a helmet that bears on its issue.

    Parameters
    ----------
    made_on, first_certified_on, recertified_on
        None where not recorded.
    intervals_months, lives_years
        Every limit that somebody set, the maker or the room; the shortest holds.
    hold
        Why it is on hold; empty where it is not.
    retired_on
        None where it is in use.
    """

    made_on: date | None = None
    first_certified_on: date | None = None
    recertified_on: date | None = None
    intervals_months: tuple[int, ...] = ()
    lives_years: tuple[float, ...] = ()
    hold: str = ""
    retired_on: date | None = None


class Reason(NamedTuple):
    """One thing that the records show, and how far it goes."""

    standing: HelmetStanding
    words: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the records show on a day. It is no word on whether the helmet protects.

    Parameters
    ----------
    standing
        The strictest of the reasons'.
    reasons
        Everything that stands against it or is not known; empty where nothing is.
    lapses_on
        First day without a valid certification; None where it cannot be told.
    ends_on
        First day beyond its life; None where no life is stated or it cannot be told.
    """

    standing: HelmetStanding
    reasons: tuple[Reason, ...]
    lapses_on: date | None
    ends_on: date | None

    @property
    def mark(self) -> str:
        """Of the status shape."""
        return MARKS[self.standing]

    @property
    def word(self) -> str:
        """Beside the shape."""
        return str(self.standing)

    @property
    def why(self) -> str:
        """The reasons in one line; empty where there are none."""
        return " ".join(reason.words for reason in self.reasons)

    @property
    def may_be_issued(self) -> bool:
        """Nothing known stands against it; what is not known is for a person to look at."""
        return self.standing in (HelmetStanding.GOOD, HelmetStanding.UNKNOWN)


def good_to_issue(helmet: HelmetFacts, day: date) -> Verdict:
    """What the records show of a helmet on a day.

    Parameters
    ----------
    helmet
        What is recorded.
    day
        Today, or the day of a game to come.

    Notes
    -----
    A certification of February 20 with an interval of 12 months has lapsed on February 20 of the
    next year. A life is counted from the earlier of made and first certified. Certifications that
    are dated after the day do not count for it.
    """
    lapses_on, ends_on = lapse(helmet, day), end_of_life(helmet)
    reasons = (
        *_against(helmet),
        *_of_certification(helmet, lapses_on, day),
        *_of_life(helmet, ends_on, day),
    )
    standings = [reason.standing for reason in reasons]
    strictest = next((each for each in HelmetStanding if each in standings), HelmetStanding.GOOD)
    return Verdict(strictest, reasons, lapses_on, ends_on)


def lapse(helmet: HelmetFacts, day: date) -> date | None:
    """First day without a valid certification, by what was certified up to a day."""
    certified = _certified(helmet, day)
    if certified is None or not helmet.intervals_months:
        return None
    return months_after(certified, min(helmet.intervals_months))


def end_of_life(helmet: HelmetFacts) -> date | None:
    """First day beyond the stated life."""
    born = [each for each in (helmet.made_on, helmet.first_certified_on) if each is not None]
    if not born or not helmet.lives_years:
        return None
    return months_after(min(born), round(12 * min(helmet.lives_years)))


def months_after(day: date, months: int) -> date:
    """The same day so many months on, or the last of a month that is too short."""
    years, month = divmod(day.month - 1 + months, 12)
    year, month = day.year + years, month + 1
    return date(year, month, min(day.day, calendar.monthrange(year, month)[1]))


def _certified(helmet: HelmetFacts, day: date) -> date | None:
    dates = (helmet.first_certified_on, helmet.recertified_on)
    return max((each for each in dates if each is not None and each <= day), default=None)


def _against(helmet: HelmetFacts) -> list[Reason]:
    reasons = []
    if helmet.retired_on is not None:
        words = f"It was retired on {us_date(helmet.retired_on)}."
        reasons.append(Reason(HelmetStanding.RETIRED, words))
    if helmet.hold:
        reasons.append(
            Reason(HelmetStanding.ON_HOLD, f"It is on hold: {helmet.hold.rstrip('. ')}.")
        )
    return reasons


def _of_certification(helmet: HelmetFacts, lapses_on: date | None, day: date) -> list[Reason]:
    if _certified(helmet, day) is None:
        return [Reason(HelmetStanding.UNKNOWN, "No certification is recorded.")]
    if lapses_on is None:
        words = "How often it must be recertified is not recorded."
        return [Reason(HelmetStanding.UNKNOWN, words)]
    if day >= lapses_on:
        words = f"Its certification lapsed on {us_date(lapses_on)}."
        return [Reason(HelmetStanding.NOT_GOOD, words)]
    return []


def _of_life(helmet: HelmetFacts, ends_on: date | None, day: date) -> list[Reason]:
    if not helmet.lives_years:
        return []
    if ends_on is None:
        return [Reason(HelmetStanding.UNKNOWN, "When it was made is not recorded.")]
    if day >= ends_on:
        words = f"Its stated life ended on {us_date(ends_on)}."
        return [Reason(HelmetStanding.NOT_GOOD, words)]
    return []
