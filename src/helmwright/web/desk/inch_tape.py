"""The measuring tape as the axis of a page, and what hangs from it: SVG that takes any width.

Across, everything is in percent of the scale; up and down, in px. Colors come from classes.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil, floor

from django.utils.safestring import SafeString

from helmwright.units import MM_PER_INCH
from helmwright.web.templatetags.house import inch_parts, inch_words

TALL = 56
"""Height of the tape [px]."""

EIGHTHS = 8
TICKS = {0: 24, 4: 18, 2: 13, 6: 13}
"""Length of a mark by its eighth [px]; the others are shorter."""

STACK = 132
"""Height of the tallest column of heads [px]."""

WIDEST_PITCH = 9.0
LIKELY_WIDE = 42
"""Width of the word beside a forecast [px]."""

TURNS = 84.0
"""Past this share of the scale words stand left of the dot [%]."""


@dataclass(frozen=True, slots=True)
class InchScale:
    """A stretch of tape.

    Parameters
    ----------
    low_mm, high_mm
        Its ends, on half inches [mm].
    """

    low_mm: float
    high_mm: float

    @classmethod
    def around(cls, values_mm: Iterable[float]) -> "InchScale":
        """The stretch from half inch to half inch that holds all values, with some air."""
        half = 0.5 * MM_PER_INCH
        values = list(values_mm)
        return cls(floor(min(values) / half - 0.25) * half, ceil(max(values) / half + 0.25) * half)

    def at(self, value_mm: float) -> float:
        """Where a length lies [%]."""
        return round(100.0 * (value_mm - self.low_mm) / (self.high_mm - self.low_mm), 2)


def tape(scale: InchScale, pulled: tuple[float, float] | None) -> SafeString:
    """The tape itself, yellow as far as it is pulled out.

    Parameters
    ----------
    scale
        What it shows.
    pulled
        From and to [mm]; None where nothing is measured.
    """
    parts = []
    if pulled is not None:
        left, right = scale.at(pulled[0]), scale.at(pulled[1])
        parts.append(
            f'<rect class="pulled" x="{left}%" y="0" width="{right - left:.2f}%" height="{TALL}"/>'
        )
        if left <= 0.0:
            # What lies before the scale is pulled out too, to the edge of the page.
            parts.append(f'<rect class="pulled" x="-32" y="0" width="33" height="{TALL}"/>')
    first = ceil(scale.low_mm / MM_PER_INCH * EIGHTHS - 1e-6)
    last = floor(scale.high_mm / MM_PER_INCH * EIGHTHS + 1e-6)
    parts += [_tick(scale, eighth, pulled) for eighth in range(first, last + 1)]
    return SafeString(
        f'<svg class="tape" height="{TALL}" aria-hidden="true" focusable="false">'
        f"{''.join(parts)}</svg>"
    )


def _tick(scale: InchScale, eighth: int, pulled: tuple[float, float] | None) -> str:
    value = eighth * MM_PER_INCH / EIGHTHS
    on = pulled is not None and pulled[0] - 0.1 <= value <= pulled[1] + 0.1
    across, step = scale.at(value), eighth % EIGHTHS
    long = TICKS.get(step, 8)
    name = "on" if on else "off"
    mark = (
        f'<line class="tick {name}" x1="{across}%" x2="{across}%" y1="{TALL - long}" y2="{TALL}"/>'
    )
    if step == 0:
        mark += f'<text class="inch {name}" x="{across}%" y="24">{eighth // EIGHTHS}</text>'
    elif step == EIGHTHS // 2:
        mark += (
            f'<svg class="half {name}" x="{across}%" overflow="visible"><text y="14">1</text>'
            '<path d="M-6 18h12"/><text y="33">2</text></svg>'
        )
    return mark


def bands(scale: InchScale, edges_mm: Sequence[float]) -> SafeString:
    """Lines at the ends of the chart's bands, once, for every row to draw again."""
    drawn = "".join(
        f'<line x1="{scale.at(edge)}%" x2="{scale.at(edge)}%" y1="0" y2="100%"/>'
        for edge in edges_mm
    )
    return SafeString(
        '<svg class="bands-kept" width="0" height="0" aria-hidden="true"><defs>'
        f'<g id="bands" class="band">{drawn}</g>'
        '<pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse"'
        ' patternTransform="rotate(45)"><line class="hatch" x1="0" x2="0" y1="0" y2="6"/>'
        "</pattern></defs></svg>"
    )


def heads(scale: InchScale, values_mm: Sequence[float]) -> str:
    """Every measured head as a dot, stacked by eighths of an inch."""
    step = MM_PER_INCH / EIGHTHS
    stacks = Counter(round(value / step) for value in values_mm)
    pitch = min(WIDEST_PITCH, STACK / max(stacks.values(), default=1))
    radius = max(0.45 * pitch, 0.6)
    return "".join(
        f'<circle cx="{scale.at(place * step)}%" cy="{STACK - pitch * (level + 0.5):.1f}"'
        f' r="{radius:.1f}"/>'
        for place, count in sorted(stacks.items())
        for level in range(count)
    )


def whisker(scale: InchScale, middle_mm: float, low_mm: float, high_mm: float) -> SafeString:
    """A head: dot, how far it may be off, and the number in inches."""
    middle, low, high = (scale.at(each) for each in (middle_mm, low_mm, high_mm))
    return _row(
        inch_words_or_whole(middle_mm),
        f'<line class="off" x1="{low}%" x2="{high}%"/>'
        f'<line class="off" x1="{low}%" x2="{low}%" y1="-6" y2="6"/>'
        f'<line class="off" x1="{high}%" x2="{high}%" y1="-6" y2="6"/>'
        f'<circle cx="{middle}%" r="5.5"/>' + _beside(low, high, *_number(middle_mm)),
    )


def forecast(scale: InchScale, low_mm: float, high_mm: float) -> SafeString:
    """A head that nobody measured: where nine of ten such people lie, hatched."""
    low, high = scale.at(low_mm), scale.at(high_mm)
    words = f"{inch_words_or_whole(low_mm)} to {inch_words_or_whole(high_mm)}"
    return _row(
        f"not measured; likely {words}",
        f'<rect class="likely" x="{low}%" width="{high - low:.2f}%" y="-7" height="14"/>'
        + _beside(low, high, '<text class="word" y="5">likely</text>', LIKELY_WIDE),
    )


def _row(said: str, drawn: str) -> SafeString:
    """What hangs in one row: as high as the row, its middle line halfway."""
    return SafeString(
        f'<svg class="head" role="img" aria-label="{said}"><use href="#bands"/>'
        f'<svg y="50%" overflow="visible">{drawn}</svg></svg>'
    )


def inch_words_or_whole(value_mm: float) -> str:
    """A length as it is read aloud, with or without a fraction."""
    whole, numerator, denominator = inch_parts(value_mm)
    return inch_words(whole, numerator, denominator) if numerator else f"{whole} inches"


def _beside(low: float, high: float, words: str, wide: int) -> str:
    """Words right of what is drawn, or left of it near the tape's end."""
    across, shift = (low, -wide - 10) if high > TURNS else (high, 10)
    return (
        f'<svg x="{across}%" overflow="visible"><g transform="translate({shift} 0)">'
        f"{words}</g></svg>"
    )


def _number(value_mm: float) -> tuple[str, int]:
    """Inches with the fraction built, and how wide that is [px]."""
    whole, numerator, denominator = inch_parts(value_mm)
    figures = f"{whole}"
    wide = 12 * len(figures)
    drawn = f'<text class="number" y="7">{figures}</text>'
    if not numerator:
        return drawn, wide
    bar = 9 * len(f"{denominator}")
    middle = wide + 2 + bar / 2
    drawn += (
        f'<text class="part" x="{middle}" y="-2">{numerator}</text>'
        f'<path class="part" d="M{wide + 2} 1.5h{bar}"/>'
        f'<text class="part" x="{middle}" y="15">{denominator}</text>'
    )
    return drawn, wide + 2 + bar
