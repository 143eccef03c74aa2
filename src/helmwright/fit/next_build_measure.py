"""Whether to measure before the next build is tried."""

from collections.abc import Collection
from typing import TYPE_CHECKING

import numpy as np

from helmwright.fit.minutes import Minutes
from helmwright.fit.next_build_tally import Tally
from helmwright.fit.next_measure import ASKABLE, measure_gains
from helmwright.fit.outlook import Build, MeasureGain

if TYPE_CHECKING:
    from helmwright.fit.next_build import Option

COMPARED = 12
"""Builds among which a measure would help to choose."""


def measure_first(
    tally: Tally, field: list[Build], best: "Option", minutes: Minutes, rng: np.random.Generator,
    *, skipped: Collection[str],
) -> MeasureGain | None:  # fmt: skip
    """The measure that pays before the best build is tried; None where none does.

    Parameters
    ----------
    tally, field
        The builds that are compared, best first, and their chances.
    best
        The build that would be tried without it.
    minutes
        What each act takes.
    rng
        For the reading errors.
    skipped
        Measures that are not to be asked for; those that were read already are not, anyway.

    Notes
    -----
    With c the minutes of the best build, p its chance, and g what a measure of m minutes adds to
    the chance of the build then chosen, it pays where ``(m + c) / (p + g) < c / p``. The count's
    standard error is taken off g first.
    """
    read = tally.drawn.estimate.read
    wanted = [key for key in ASKABLE if key not in read and key not in skipped]
    if not wanted:
        return None
    chances = np.array([tally.found(build, tally.half) for build in field[:COMPARED]])
    gains = measure_gains(chances, tally.drawn.heads, {}, rng, measures=wanted)
    cost, chance = best.minutes, tally.chance(best.build)

    def ratio(gain: MeasureGain) -> float:
        sure = max(gain.gain - gain.error, 0.0)
        return (minutes.measuring(gain.measure) + cost) / (chance + sure)

    found = min(gains, key=ratio)
    return found if ratio(found) < cost / chance else None
