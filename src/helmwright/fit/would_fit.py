"""What would fit where nothing at hand does: the build, the parts it lacks, the chance."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import islice

from helmwright.fit.climb import climb
from helmwright.fit.neighborhood import Pads
from helmwright.fit.next_build import LEAST_WORTH
from helmwright.fit.next_build_entrants import GUESSED_ON
from helmwright.fit.next_build_shells import shells_near
from helmwright.fit.next_build_tally import Drawn, Tally
from helmwright.fit.outlook import Build, Chance
from helmwright.fit.rater import Rater
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

PART_CHARGE = Figure(
    0.1, "1", ASSUMED, note="share of the chance that one part fewer to get hold of is worth"
)

TOLD = 3
"""Builds in the answer."""

COUNTED = 16
"""Builds of each shell that are counted."""


Lacking = Callable[[Build], tuple[str, ...]]
"""The parts of a build that are not at hand, in words such as "front 1 in"; none where all are."""


@dataclass(frozen=True, slots=True)
class Instead:
    """A build that cannot be put together here, and what it would come to.

    Parameters
    ----------
    build
        Which parts.
    lacking
        Those that are not at hand, in words.
    fits, found_right
        Chance that it fits, and that a fitter finds it right.
    """

    build: Build
    lacking: tuple[str, ...]
    fits: Chance
    found_right: Chance


def would_fit(
    drawn: Drawn,
    current: Build,
    *,
    lacking: Lacking,
    rejected: Sequence[Build] = (),
    rater: Rater | None = None,
) -> tuple[Instead, ...]:
    """The likeliest builds of the model that are not at hand.

    Parameters
    ----------
    drawn
        What is believed of the head, as equally likely draws.
    current
        What is in the helmet now.
    lacking
        Which parts of a build are not at hand.
    rejected
        Builds found wrong on this head.
    rater
        Who would check.

    Returns
    -------
    The best first; empty where no build of the model is worth a try, so that another model is
    needed.

    Notes
    -----
    The present shell, its neighbors and those that the chart makes likely are searched as if
    everything were here; each part lacking is worth PART_CHARGE of the chance.
    """
    sheet = drawn.trial(current.shell).sheet
    tally, lacks = Tally(drawn, rater or Rater()), cache(lacking)

    def cost(build: Build) -> float:
        return 1.0 + PART_CHARGE.value * len(lacks(build))

    builds: list[Build] = []
    for number in shells_near(drawn, sheet, current.shell):
        start = current if number == current.shell else Build(number, sheet.delivered)
        guessed = _guessed(drawn, start, cost)
        builds += islice((one for one in guessed if one not in rejected and lacks(one)), COUNTED)
    told: dict[tuple[str, ...], Instead] = {}
    for build in tally.select(builds, cost):
        parts = lacks(build)
        if parts in told or tally.chance(build) < LEAST_WORTH.value:
            continue
        if len(told) < TOLD:
            found_right, fits = tally.stated(build)
            told[parts] = Instead(build, parts, fits, found_right)
    return tuple(told.values())


def _guessed(drawn: Drawn, start: Build, cost: Callable[[Build], float]) -> list[Build]:
    """The likeliest builds of a shell by the quick guess, best first, from what lies in it."""

    def charge(pads: Pads) -> float:
        return cost(Build(start.shell, pads))

    heads = min(GUESSED_ON, len(drawn) // 2)
    seen = climb(drawn.trial(start.shell), start.pads, heads, charge=charge)
    return [Build(start.shell, pads) for pads in seen.top(len(seen.scores))]
