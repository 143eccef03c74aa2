"""Circumference, length and breadth held against the ellipse."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot, sqrt

from helmwright.anatomy.finding import Finding, FindingKind
from helmwright.anatomy.measures import measure_of
from helmwright.anatomy.prior import TAPE_OFFSET
from helmwright.anatomy.reading import Combined
from helmwright.anatomy.sex import Sex
from helmwright.geometry.ellipse import ellipse_perimeter
from helmwright.sources import Figure
from helmwright.sources.records import NIOSH_2003, US_ARMY_2012


@dataclass(frozen=True, slots=True)
class Limits:
    """The interval that holds 98 of 100 people of a survey."""

    low: Figure
    high: Figure


_FIRST = "1st percentile; the lower of the two surveys"
_LAST = "99th percentile; the higher of the two surveys"

EXCESS: Mapping[Sex, Limits] = {
    Sex.MALE: Limits(
        Figure(1.0, "mm", US_ARMY_2012, note=_FIRST), Figure(46.0, "mm", NIOSH_2003, note=_LAST)
    ),
    Sex.FEMALE: Limits(
        Figure(7.0, "mm", NIOSH_2003, note=_FIRST), Figure(76.0, "mm", NIOSH_2003, note=_LAST)
    ),
}
"""Head circumference less the perimeter of the ellipse of length and breadth [mm]."""

CEPHALIC_INDEX: Mapping[Sex, Limits] = {
    Sex.MALE: Limits(Figure(69.9, "1", US_ARMY_2012), Figure(87.8, "1", US_ARMY_2012)),
    Sex.FEMALE: Limits(Figure(70.1, "1", US_ARMY_2012), Figure(88.7, "1", US_ARMY_2012)),
}
"""100 times breadth over length; 1st and 99th percentiles."""

GROUP_EXCESS: Mapping[Sex, tuple[Figure, Figure]] = {
    Sex.MALE: (
        Figure(16.2, "mm", US_ARMY_2012, spread=6.3),
        Figure(23.3, "mm", NIOSH_2003, spread=8.9),
    ),
    Sex.FEMALE: (
        Figure(28.7, "mm", US_ARMY_2012, spread=10.9),
        Figure(31.2, "mm", NIOSH_2003, spread=13.8),
    ),
}
"""Mean and SD of the same excess in each survey [mm]."""

_ERROR_SDS = 2.0
_GROUP_SDS = 3.0


def excess_over_ellipse(circumference_mm: float, length_mm: float, breadth_mm: float) -> float:
    """Circumference less the perimeter of the ellipse with the head's length and breadth [mm].

    Heads are squarer than ellipses, and the tape runs over brow, hair and the back of the head,
    so that the excess is some 16 to 23 mm in men and 29 to 31 mm in women.
    """
    return circumference_mm - float(ellipse_perimeter(0.5 * length_mm, 0.5 * breadth_mm))


def outline_findings(groups: Mapping[str, Combined], sex: Sex | None) -> list[Finding]:
    """Findings about circumference, length and breadth, from one combined reading of each."""
    length, breadth = groups.get("head_length"), groups.get("head_breadth")
    if length is None or breadth is None:
        return []
    if length.value_mm < breadth.value_mm:
        return [_swapped(length, breadth)]
    found = [_proportion(length, breadth, sex)]
    for key, offset in (("head_circumference", 0.0), ("tape_circumference", TAPE_OFFSET.value)):
        if key in groups:
            found.append(_outline(groups[key], offset, length, breadth, sex))
    return [finding for finding in found if finding is not None]


def group_excess_finding(excesses_mm: list[float], sex: Sex = Sex.MALE) -> Finding | None:
    """Finding about a whole group whose circumferences run long or short against the calipers.

    Parameters
    ----------
    excesses_mm
        Each person's `excess_over_ellipse`, on the survey's plane [mm].
    sex
        Whose surveys to hold it against.

    Notes
    -----
    A group's mean should lie between the two surveys' means, or outside them by no more than
    three standard errors. A constant error of a tape, a caliper or a conversion shows here long
    before it shows in one head.
    """
    if not excesses_mm:
        return None
    mean = sum(excesses_mm) / len(excesses_mm)
    low, high = (
        figure.value + side * _GROUP_SDS * (figure.spread or 0.0) / sqrt(len(excesses_mm))
        for figure, side in zip(GROUP_EXCESS[sex], (-1.0, 1.0), strict=True)
    )
    if low <= mean <= high:
        return None
    word = "long" if mean > high else "short"
    return Finding(
        FindingKind.OUTLINE,
        ("head_circumference", "head_length", "head_breadth"),
        f"Over {len(excesses_mm)} heads the circumferences run {word} against length and breadth: "
        f"{mean:.0f} mm over the ellipse, where {low:.0f} to {high:.0f} is usual.",
        "Check the tape, the caliper's zero and any conversion between inches and cm?",
        blocks=False,
    )


def _swapped(length: Combined, breadth: Combined) -> Finding:
    return Finding(
        FindingKind.SWAPPED,
        ("head_length", "head_breadth"),
        f"Head length {length.value_mm:.0f} mm is less than head breadth "
        f"{breadth.value_mm:.0f} mm; heads are longer than broad.",
        f"Swapped: length {breadth.value_mm:.0f} mm and breadth {length.value_mm:.0f} mm?",
        blocks=True,
    )


def _proportion(length: Combined, breadth: Combined, sex: Sex | None) -> Finding | None:
    index = 100.0 * breadth.value_mm / length.value_mm
    error = index * hypot(
        sqrt(length.variance_mm2) / length.value_mm, sqrt(breadth.variance_mm2) / breadth.value_mm
    )
    low, high = _widened(CEPHALIC_INDEX, sex, error)
    if low <= index <= high:
        return None
    return Finding(
        FindingKind.PROPORTION,
        ("head_length", "head_breadth"),
        f"Head breadth is {index:.0f} % of head length; {low:.0f} to {high:.0f} % is usual.",
        "Measure length and breadth again?",
        blocks=False,
    )


def _outline(
    girth: Combined, offset: float, length: Combined, breadth: Combined, sex: Sex | None
) -> Finding | None:
    excess = excess_over_ellipse(girth.value_mm - offset, length.value_mm, breadth.value_mm)
    # The perimeter grows by about pi/2 for each mm of length or breadth.
    error = sqrt(girth.variance_mm2 + 2.5 * (length.variance_mm2 + breadth.variance_mm2))
    low, high = _widened(EXCESS, sex, error)
    if low <= excess <= high:
        return None
    word, turn = ("large", "small") if excess > high else ("small", "large")
    return Finding(
        FindingKind.OUTLINE,
        (girth.measure, "head_length", "head_breadth"),
        f"{measure_of(girth.measure).name.capitalize()} {girth.value_mm:.0f} mm is too {word} for "
        f"length {length.value_mm:.0f} and breadth {breadth.value_mm:.0f} mm, or one of these is "
        f"too {turn}.",
        "Measure circumference, length and breadth again?",
        blocks=False,
    )


def _widened(limits: Mapping[Sex, Limits], sex: Sex | None, error: float) -> tuple[float, float]:
    whose = [limits[sex]] if sex is not None else list(limits.values())
    low = min(each.low.value for each in whose) - _ERROR_SDS * error
    return low, max(each.high.value for each in whose) + _ERROR_SDS * error
