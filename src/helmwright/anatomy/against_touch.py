"""A tape laid on lightly, held against the same tape drawn in."""

from collections.abc import Iterator, Sequence
from math import sqrt

from helmwright.anatomy.covering import Touch
from helmwright.anatomy.finding import Finding, FindingKind
from helmwright.anatomy.measures import measure_of
from helmwright.anatomy.reading import TWO_SIDED_95, Combined
from helmwright.units import inches, millimeters


def touch_findings(groups: Sequence[Combined]) -> Iterator[Finding]:
    """Where a light tape reads clearly less than a drawn-in one over the same hair.

    Parameters
    ----------
    groups
        The readings of one head, put together.

    Notes
    -----
    A light tape rides on at least what a drawn-in one goes around, so that `drawn in - light` is
    at most 0 but for the errors e of reading. It is asked about beyond
    `1.96 sqrt(var(e1) + var(e2))`: at most one clean pair in forty, and where one person took both
    their bias cancels, so fewer. Only readings of one measure, one covering and one day are
    compared.
    """
    for light in groups:
        for drawn in groups:
            if _pair(light, drawn) and drawn.value_mm - light.value_mm > _limit(light, drawn):
                yield _finding(light, drawn)


def _pair(light: Combined, drawn: Combined) -> bool:
    same = (light.measure, light.kinds, light.months_ago) == (
        drawn.measure,
        drawn.kinds,
        drawn.months_ago,
    )
    return same and light.touch is Touch.LIGHT and drawn.touch is Touch.DRAWN_IN


def _limit(light: Combined, drawn: Combined) -> float:
    return TWO_SIDED_95 * sqrt(light.variance_mm2 + drawn.variance_mm2)


def _finding(light: Combined, drawn: Combined) -> Finding:
    return Finding(
        FindingKind.LIGHT_TAPE,
        (light.measure,),
        f"The light tape, {_both(light.value_mm)}, reads less than the tape drawn in, "
        f"{_both(drawn.value_mm)}; laid on lightly it reads the same or more.",
        "Were the two swapped? If not, take both again.",
        blocks=False,
    )


def called(group: Combined) -> str:
    """What a group of readings is called where two touches of one measure may stand."""
    return "light tape" if group.touch is Touch.LIGHT else measure_of(group.measure).name


def _both(value_mm: float) -> str:
    return f"{inches(value_mm, mark=' in')} ({millimeters(value_mm)})"
