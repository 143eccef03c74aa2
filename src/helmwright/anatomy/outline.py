"""Circumference, length and breadth held against the ellipse."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import hypot, sqrt

from helmwright.anatomy.age import ADULT_AGE, LEAVES_YOUTH
from helmwright.anatomy.covering import COVERINGS, Over, Touch, nominal_over
from helmwright.anatomy.finding import Finding, FindingKind
from helmwright.anatomy.measures import measure_of
from helmwright.anatomy.prior import TAPE_OFFSET
from helmwright.anatomy.reading import Combined
from helmwright.anatomy.sex import Sex
from helmwright.geometry.ellipse import ellipse_perimeter
from helmwright.sources import Figure
from helmwright.sources.records import NIOSH_2003, SNYDER_1977, UK_1990, US_ARMY_2012


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

TECHNIQUE = Figure(
    15.0,
    "mm",
    UK_1990,
    note="The most by which its circumferences exceed those of snyder_1977 at one exact age.",
)

YOUTH_EXCESS: Mapping[Sex, Limits] = {
    Sex.MALE: Limits(
        Figure(-14.5, "mm", SNYDER_1977, note="1st percentile of 441 boys of 8 to 18 years"),
        Figure(36.7 + TECHNIQUE.value, "mm", SNYDER_1977, note="99th percentile, and TECHNIQUE"),
    ),
    Sex.FEMALE: Limits(
        Figure(-6.8, "mm", SNYDER_1977, note="1st percentile of 408 girls of 8 to 18 years"),
        Figure(34.4 + TECHNIQUE.value, "mm", SNYDER_1977, note="99th percentile, and TECHNIQUE"),
    ),
}
"""The same excess of youths [mm]."""

CEPHALIC_INDEX: Mapping[Sex, Limits] = {
    Sex.MALE: Limits(Figure(69.9, "1", US_ARMY_2012), Figure(87.8, "1", US_ARMY_2012)),
    Sex.FEMALE: Limits(Figure(70.1, "1", US_ARMY_2012), Figure(88.7, "1", US_ARMY_2012)),
}
"""100 times breadth over length; 1st and 99th percentiles."""

YOUTH_CEPHALIC_INDEX: Mapping[Sex, Limits] = {
    Sex.MALE: Limits(Figure(70.9, "1", SNYDER_1977), Figure(86.9, "1", SNYDER_1977)),
    Sex.FEMALE: Limits(Figure(71.7, "1", SNYDER_1977), Figure(87.8, "1", SNYDER_1977)),
}
"""The same of youths of 8 to 18 years."""

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

YOUTH_GROUP_EXCESS: Mapping[Sex, tuple[Figure, Figure]] = {
    Sex.MALE: (
        Figure(8.7, "mm", SNYDER_1977, spread=9.8),
        Figure(8.7 + TECHNIQUE.value, "mm", SNYDER_1977, spread=9.8, note="and TECHNIQUE"),
    ),
    Sex.FEMALE: (
        Figure(10.5, "mm", SNYDER_1977, spread=8.8),
        Figure(10.5 + TECHNIQUE.value, "mm", SNYDER_1977, spread=8.8, note="and TECHNIQUE"),
    ),
}
"""The same of youths of 8 to 18 years, as low and as high as the two youth surveys have it [mm]."""

_ERROR_SDS = 2.0
_GROUP_SDS = 3.0


def excess_over_ellipse(circumference_mm: float, length_mm: float, breadth_mm: float) -> float:
    """Circumference less the perimeter of the ellipse with the head's length and breadth [mm].

    Heads are squarer than ellipses, and the tape runs over brow, hair and the back of the head,
    so that the excess is some 16 to 23 mm in men, 29 to 31 mm in women and 9 to 11 mm in youths.
    """
    return circumference_mm - float(ellipse_perimeter(0.5 * length_mm, 0.5 * breadth_mm))


def one_of_each(groups: Sequence[Combined]) -> dict[str, Combined]:
    """One group for each measure: the latest, a drawn-in tape before a light one, the most read.

    What a stated covering adds on average is taken off, and its spread is added to the error.
    """
    ranked = sorted(
        groups, key=lambda each: (-each.months_ago, each.touch is Touch.DRAWN_IN, each.count)
    )
    return {group.measure: _uncovered(group) for group in ranked}


def _uncovered(group: Combined) -> Combined:
    mean, spread = nominal_over(group.measure, group.kinds, group.touch)
    return replace(
        group,
        value_mm=group.value_mm - mean,
        variance_mm2=group.variance_mm2 + spread**2,
    )


@dataclass(frozen=True, slots=True)
class _Usual:
    """Which limits hold for somebody: excess over the ellipse, and cephalic index."""

    excess: tuple[Limits, ...]
    index: tuple[Limits, ...]


def outline_findings(
    groups: Mapping[str, Combined],
    sex: Sex | None,
    ages: tuple[float, float] | None = None,
) -> list[Finding]:
    """Findings about circumference, length and breadth, from one combined reading of each.

    `ages` are the youngest and the oldest exact age that is meant [years]; an adult's where None.
    """
    usual = _usual(sex, ages)
    length, breadth = groups.get("head_length"), groups.get("head_breadth")
    if length is None or breadth is None:
        return []
    if length.value_mm < breadth.value_mm:
        return [_swapped(length, breadth)]
    found = [_proportion(length, breadth, usual)]
    for key, offset in (("head_circumference", 0.0), ("tape_circumference", TAPE_OFFSET.value)):
        if key in groups:
            bare = _usual(_hairless(groups[key], sex), ages)
            found.append(_outline(groups[key], offset, length, breadth, bare))
    return [finding for finding in found if finding is not None]


def group_excess_finding(
    excesses_mm: list[float], sex: Sex = Sex.MALE, *, young: bool = False
) -> Finding | None:
    """Finding about a whole group whose circumferences run long or short against the calipers.

    Parameters
    ----------
    excesses_mm
        Each person's `excess_over_ellipse`, on the survey's plane [mm].
    sex
        Whose surveys to hold it against.
    young
        Whether they are youths of 8 to 18 years.

    Notes
    -----
    A group's mean should lie between the two surveys' means, or outside them by no more than
    three standard errors. A constant error of a tape, a caliper or a conversion shows here long
    before it shows in one head.
    """
    if not excesses_mm:
        return None
    mean = sum(excesses_mm) / len(excesses_mm)
    usual = (YOUTH_GROUP_EXCESS if young else GROUP_EXCESS)[sex]
    low, high = (
        figure.value + side * _GROUP_SDS * (figure.spread or 0.0) / sqrt(len(excesses_mm))
        for figure, side in zip(usual, (-1.0, 1.0), strict=True)
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
        f"Head length {_read(length):.0f} mm is less than head breadth "
        f"{_read(breadth):.0f} mm; heads are longer than broad.",
        f"Swapped: length {_read(breadth):.0f} mm and breadth {_read(length):.0f} mm?",
        blocks=True,
    )


def _proportion(length: Combined, breadth: Combined, usual: _Usual) -> Finding | None:
    index = 100.0 * breadth.value_mm / length.value_mm
    error = index * hypot(
        sqrt(length.variance_mm2) / length.value_mm, sqrt(breadth.variance_mm2) / breadth.value_mm
    )
    low, high = _widened(usual.index, error)
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
    girth: Combined, offset: float, length: Combined, breadth: Combined, usual: _Usual
) -> Finding | None:
    excess = excess_over_ellipse(girth.value_mm - offset, length.value_mm, breadth.value_mm)
    # The perimeter grows by about pi/2 for each mm of length or breadth.
    error = sqrt(girth.variance_mm2 + 2.5 * (length.variance_mm2 + breadth.variance_mm2))
    low, high = _widened(usual.excess, error)
    if low <= excess <= high:
        return None
    word, turn = ("large", "small") if excess > high else ("small", "large")
    return Finding(
        FindingKind.OUTLINE,
        (girth.measure, "head_length", "head_breadth"),
        f"{measure_of(girth.measure).name.capitalize()} {_read(girth):.0f} mm{_less(girth)} is "
        f"too {word} for length {_read(length):.0f} and breadth {_read(breadth):.0f} mm, or "
        f"one of these is too {turn}.",
        "Measure circumference, length and breadth again?",
        blocks=False,
    )


def _usual(sex: Sex | None, ages: tuple[float, float] | None) -> _Usual:
    sexes = (sex,) if sex is not None else tuple(Sex)
    youngest, oldest = ages or (ADULT_AGE.value, ADULT_AGE.value)
    kinds = []
    if youngest < ADULT_AGE.value:
        kinds.append((YOUTH_EXCESS, YOUTH_CEPHALIC_INDEX))
    if oldest > LEAVES_YOUTH.value:
        kinds.append((EXCESS, CEPHALIC_INDEX))
    return _Usual(
        tuple(excess[each] for excess, _ in kinds for each in sexes),
        tuple(index[each] for _, index in kinds for each in sexes),
    )


def _less(girth: Combined) -> str:
    """That a covering was taken off, where one was."""
    off = _read(girth) - girth.value_mm
    named = " and ".join(kind for kind in girth.kinds if kind in COVERINGS)
    return f", less {off:.0f} for {named}," if off else ""


def _read(group: Combined) -> float:
    """What was read, with the covering that was taken off [mm]."""
    return group.value_mm + nominal_over(group.measure, group.kinds, group.touch)[0]


def _hairless(girth: Combined, sex: Sex | None) -> Sex | None:
    """Whose limits hold: with the covering stated there is no surveyed hair left in a woman's."""
    return sex if Over.UNSTATED in girth.kinds else Sex.MALE


def _widened(whose: Sequence[Limits], error: float) -> tuple[float, float]:
    low = min(each.low.value for each in whose) - _ERROR_SDS * error
    return low, max(each.high.value for each in whose) + _ERROR_SDS * error
