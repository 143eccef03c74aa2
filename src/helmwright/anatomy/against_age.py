"""The size of a head held against the stated age of a youth."""

from collections.abc import Sequence

from helmwright.anatomy.age import ADULT_AGE, is_whole
from helmwright.anatomy.estimate import observation_of
from helmwright.anatomy.finding import Finding, FindingKind
from helmwright.anatomy.measures import measure_of
from helmwright.anatomy.reading import Combined
from helmwright.belief import Mixture, score
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from helmwright.units import inches, millimeters

AGE_SCORE = Figure(
    2.0,
    "1",
    ASSUMED,
    note=(
        "Standard deviations of size past which a youth's age is asked about; one clean head in "
        "22 lies so far, and asking costs a glance."
    ),
)

_SIZES = ("tape_circumference", "head_circumference", "head_length")
_USUAL = 0.05
"""Share of heads below, and above, what is called usual."""


def age_findings(
    wide: Mixture, groups: Sequence[Combined], age_years: float | None
) -> tuple[Finding, ...]:
    """A question where the head is large or small for the stated age; nothing for adults.

    Parameters
    ----------
    wide
        The belief before any reading, with coverings and growth.
    groups
        The combined readings; the first of circumference and length stands for the size.
    age_years
        The age, where it is stated [years].
    """
    if age_years is None or age_years >= ADULT_AGE.value:
        return ()
    latest_last = sorted(groups, key=lambda group: -group.months_ago)
    by_measure = {group.measure: group for group in latest_last}
    sizes = [by_measure[key] for key in _SIZES if key in by_measure]
    if not sizes:
        return ()
    group = sizes[0]
    place = score(wide, observation_of(group, wide))
    if abs(place) <= AGE_SCORE.value:
        return ()
    return (_asked(wide, group, age_years, "large" if place > 0.0 else "small"),)


def _asked(wide: Mixture, group: Combined, age_years: float, word: str) -> Finding:
    measure = measure_of(group.measure)
    low, high = (wide.quantile(group.measure, level) for level in (_USUAL, 1.0 - _USUAL))
    years = f"{age_years:g}" if is_whole(age_years) else f"{age_years:.1f}"
    return Finding(
        FindingKind.AGE,
        (group.measure,),
        f"{measure.name.capitalize()} {inches(group.value_mm, mark=' in')} "
        f"({millimeters(group.value_mm)}) is {word} for {years} years; nine of ten lie between "
        f"{inches(low, mark=' in')} and {inches(high, mark=' in')}.",
        "Is the age right? Then measure again?",
        blocks=False,
    )
