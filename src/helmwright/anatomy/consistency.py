"""Readings held against each other: what cannot be, and what does not go with the rest."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Unpack

from helmwright.anatomy.against_age import age_findings
from helmwright.anatomy.against_touch import called, touch_findings
from helmwright.anatomy.estimate import observation_of, with_layers
from helmwright.anatomy.finding import Finding, FindingKind
from helmwright.anatomy.head_prior import age_interval, head_prior
from helmwright.anatomy.measures import measure_of
from helmwright.anatomy.outline import one_of_each, outline_findings
from helmwright.anatomy.prior import Stated
from helmwright.anatomy.reading import Combined, Reading, combined
from helmwright.belief import Mixture, Observation, Residual, leave_one_out, score
from helmwright.units import MM_PER_INCH, inches, millimeters

ODD_SCORE = 2.8
"""Standard deviations past which a reading does not go with the others; assumed. About one clean
reading in 200 lies so far. Beside two calipers, a circumference that is an inch off is noticed in
about half of the cases, a length or breadth nearly always: repeats are the better guard."""

_FITTING_SCORE = 1.5


def check_readings(readings: Sequence[Reading], **stated: Unpack[Stated]) -> tuple[Finding, ...]:
    """Everything about the readings of one head that a person should look at.

    Parameters
    ----------
    readings
        Any number, none included.
    **stated
        As for `estimate_head`.

    Returns
    -------
    tuple of Finding
        Those that block the estimate first; empty where all is well.

    Notes
    -----
    Swapped length and breadth and values that nobody has are found first; while one of them
    stands, the finer checks are left out, because they would only repeat it. Then repeats too far
    apart or set aside, a light tape under a drawn-in one, the outline against the ellipse, the
    cephalic index, the size of a youth's head against the stated age, and the reading that the
    others do not lead one to expect.
    """
    groups = combined(readings)
    ages = age_interval(stated.get("age_years"), stated.get("ages"))
    by_measure = one_of_each(groups)
    outline = outline_findings(by_measure, stated.get("sex"), ages)
    swapped = [finding for finding in outline if finding.blocks]
    named = {key for finding in swapped for key in finding.measures}
    blocking = swapped + [
        finding for finding in _out_of_range(readings) if finding.measures[0] not in named
    ]
    if blocking:
        return tuple(blocking)
    prior = head_prior(**stated)
    against_age = age_findings(with_layers(prior, groups), groups, stated.get("age_years"))
    # One reading alone has nothing but the age to stand against.
    odd = () if against_age and len(groups) == 1 else _odd_one_out(prior, groups)
    touched = tuple(touch_findings(groups))
    said = {finding.measures for finding in touched}
    return (
        *_repeats_apart(readings, groups),
        *touched,
        *outline,
        *against_age,
        *(finding for finding in odd if finding.measures not in said),
    )


def _out_of_range(readings: Sequence[Reading]) -> Iterator[Finding]:
    for reading in readings:
        measure = measure_of(reading.measure)
        if not measure.is_plausible(reading.value_mm):
            likely = [
                (value, word)
                for value, word in _mistakes(reading.value_mm)
                if measure.is_plausible(value)
            ]
            yield Finding(
                FindingKind.OUT_OF_RANGE,
                (measure.key,),
                f"{measure.name.capitalize()} {reading.value_mm:.0f} mm is outside "
                f"{measure.low_mm:.0f} to {measure.high_mm:.0f} mm.",
                _question(*likely[0]) if likely else "Measure again?",
                blocks=True,
            )


def _repeats_apart(readings: Sequence[Reading], groups: Sequence[Combined]) -> Iterator[Finding]:
    for group in groups:
        name, limit = called(group), group.limit_mm
        if group.set_aside_mm is not None:
            yield Finding(
                FindingKind.SET_ASIDE,
                (group.measure,),
                f"Of {group.count} readings of {name}, {_both(group.set_aside_mm)} stands more "
                f"than {limit:.0f} mm from the others, which agree about {_both(group.value_mm)}; "
                "it is left out of their mean.",
                "Strike it, or measure again?",
                blocks=False,
            )
        elif group.wants_third or _no_two_agree(readings, group):
            yield Finding(
                FindingKind.REPEATS_APART,
                (group.measure,),
                f"The readings of {name} lie {group.apart_mm:.0f} mm apart; more than "
                f"{limit:.0f} mm happens to one clean pair in twenty.",
                "Take one more reading?",
                blocks=False,
            )


def _no_two_agree(readings: Sequence[Reading], group: Combined) -> bool:
    values = sorted(reading.value_mm for reading in readings if reading.alike == group.alike)
    gaps = [high - low for low, high in pairwise(values)]
    return len(values) > 2 and min(gaps) > group.limit_mm


def _odd_one_out(prior: Mixture, groups: Sequence[Combined]) -> Iterator[Finding]:
    """The one reading that the others speak against most, where it is past the limit."""
    wide = with_layers(prior, groups)
    observations = [observation_of(group, wide) for group in groups]
    residuals = leave_one_out(wide, observations)
    place = max(range(len(residuals)), key=lambda at: abs(residuals[at].score), default=None)
    if place is None or abs(residuals[place].score) <= ODD_SCORE:
        return
    group, residual = groups[place], residuals[place]
    rest = wide.given([*observations[:place], *observations[place + 1 :]])
    word = "large" if residual.score > 0.0 else "small"
    yield Finding(
        FindingKind.ODD_ONE_OUT,
        (group.measure,),
        f"{called(group).capitalize()} {_both(group.value_mm)} does not go with "
        f"{_others(groups, group)}: too {word}, where about {_both(residual.expected)} is to be "
        "expected.",
        _meant(rest, residual, group),
        blocks=False,
    )


_NUMBERS = ("", "reading", "two readings", "three readings", "four readings", "five readings")


def _others(groups: Sequence[Combined], odd: Combined) -> str:
    """What a reading is held against: the other readings, counted, or people at large."""
    count = len(groups) - 1
    if not count:
        return "the people of the surveys"
    named = _NUMBERS[count] if count < len(_NUMBERS) else f"{count} readings"
    again = any(each.measure == odd.measure for each in groups if each is not odd)
    return f"the other {named}" + (", one of the same measure" if again else "")


def _meant(rest: Mixture, residual: Residual, group: Combined) -> str:
    seen = residual.observation
    fitting = [
        (abs(score(rest, Observation(seen.weights, value, seen.variance))), value, word)
        for value, word in _mistakes(group.value_mm)
        if measure_of(group.measure).is_plausible(value)
    ]
    if fitting and min(fitting)[0] < _FITTING_SCORE:
        return _question(*min(fitting)[1:])
    return "Measure again?"


def _mistakes(value_mm: float) -> list[tuple[float, str]]:
    return [
        (value_mm - MM_PER_INCH, "an inch off"),
        (value_mm + MM_PER_INCH, "an inch off"),
        (value_mm / 2.54, "cm and inches mixed up"),
        (value_mm * 2.54, "cm and inches mixed up"),
        (value_mm * 10.0, "mm and cm mixed up"),
        (value_mm / 10.0, "mm and cm mixed up"),
    ]


def _question(value_mm: float, word: str) -> str:
    return f"{word.capitalize()}: {_both(value_mm)}?"


def _both(value_mm: float) -> str:
    return f"{inches(value_mm, mark=' in')} ({millimeters(value_mm)})"
