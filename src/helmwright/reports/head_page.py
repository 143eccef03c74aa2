"""One head as a page: every measure with the interval that the readings leave."""

from dataclasses import dataclass

from helmwright.anatomy import MEASURE_KEYS, HeadEstimate
from helmwright.reports.cautions import CAUTIONS, HEAD_ASSUMED
from helmwright.reports.chances import of_hundred
from helmwright.reports.layout import bullets, columns, heading, wrapped
from helmwright.reports.lengths import fraction, measure_words
from helmwright.reports.reading_quality import covering_lines
from helmwright.reports.remarks import READINGS_TITLE, remark_list, who_lines
from helmwright.reports.youth import is_youth, likely_age, youth_lines
from helmwright.roster import PlayerAnswer, RosterAnswer

LEVEL = 0.9
WIDTHS = (23, 8, 18)
NARROW_WIDTHS = (23, 18)
LEAST_WIDE, LEAST_MM = 66, 56
"""Widths from which on there is room for the mean, and for millimeters."""


@dataclass(frozen=True, slots=True)
class HeadRow:
    """What is believed about one measure."""

    measure: str
    read: bool
    mean_mm: float
    low_mm: float
    high_mm: float


def head_rows(head: HeadEstimate) -> tuple[HeadRow, ...]:
    """Every measure, those that were read first."""
    rows = [_row(head, key) for key in MEASURE_KEYS]
    return tuple(sorted(rows, key=lambda row: not row.read))


def _row(head: HeadEstimate, key: str) -> HeadRow:
    low, high = head.interval(key, LEVEL)
    return HeadRow(key, key in head.read, head.mean_of(key), low, high)


def head_page(answer: RosterAnswer, width: int) -> str:
    """The page for the one head of the answer."""
    (each,) = answer.answers
    rows = head_rows(each.head)
    heads = "9 of 10 such heads" if width >= LEAST_MM else "9 of 10 heads"
    head = _cells("Measure", "Inches", heads, "mm", width=width)
    rule = "-" * min(len(head) + len("571 to 579") - len("mm"), width)
    lines = [
        *(line for who in who_lines(each.player) for line in wrapped(who, width)),
        head,
        rule,
        *(_line(row, width=width) for row in rows if row.read),
        "",
        *wrapped("Not read, filled in from people with such heads:", width),
        *(_line(row, width=width) for row in rows if not row.read),
        *_sex(each, width),
        *covering_lines(each.head, width),
        *_age(each.head, width),
        *remark_list(READINGS_TITLE, answer.notices, width),
        *heading("What this rests on", width),
        *bullets((HEAD_ASSUMED, *youth_lines([each.player]), CAUTIONS[0]), width),
    ]
    return "\n".join(lines) + "\n"


def _cells(measure: str, mean: str, interval: str, mm: str, *, width: int) -> str:
    """A line of the table; a narrow one goes without the mean, then without millimeters."""
    if width >= LEAST_WIDE:
        return columns((measure, mean, interval, mm), WIDTHS)
    if width < LEAST_MM:
        return columns((measure, interval), NARROW_WIDTHS)
    return columns((measure, interval, mm), NARROW_WIDTHS)


def _line(row: HeadRow, *, width: int) -> str:
    """One measure: inches, the interval in inches, and the interval in mm."""
    interval = f"{fraction(row.low_mm)} to {fraction(row.high_mm)}"
    mm = f"{row.low_mm:.0f} to {row.high_mm:.0f}"
    name = measure_words(row.measure)
    return _cells(name, fraction(row.mean_mm), interval, mm, width=width)


def _sex(each: PlayerAnswer, width: int) -> list[str]:
    """Where sex is not stated, how the two survey tables were weighed."""
    chance = each.head.male_chance
    if chance in (0.0, 1.0):
        return []
    whose = "boy's" if is_youth(each.player) else "man's"
    said = f"Sex not stated; the chance of a {whose} head is {of_hundred(chance)}."
    return ["", *wrapped(said, width)]


def _age(head: HeadEstimate, width: int) -> list[str]:
    """Where the age is not stated, which year the readings make likeliest."""
    said = likely_age(head)
    return ["", *wrapped(said, width)] if said else []
