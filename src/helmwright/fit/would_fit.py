"""What would fit where nothing at hand does: the build, the parts it lacks, the chance."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.climb import climb
from helmwright.fit.neighborhood import Pads, groups, nearest
from helmwright.fit.next_build import LEAST_WORTH
from helmwright.fit.next_build_entrants import GUESSED_ON
from helmwright.fit.next_build_shells import shells_near
from helmwright.fit.next_build_tally import Drawn, Tally
from helmwright.fit.outlook import Build, Chance
from helmwright.fit.rater import Rater
from helmwright.fit.search import Allowed, has_in
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

PART_CHARGE = Figure(
    0.1, "1", ASSUMED, note="share of the chance that one part fewer to get hold of is worth"
)

TOLD = 3
"""Builds in the answer."""

COUNTED = 16
"""Builds of each shell that are counted."""


@dataclass(frozen=True, slots=True)
class Lack:
    """A part that is not at hand.

    Parameters
    ----------
    zone
        Where the pad belongs; None for a shell.
    label
        Its thickness as written on the bag; the number of a shell.
    """

    zone: Zone | None
    label: str


@dataclass(frozen=True, slots=True)
class Instead:
    """A build that cannot be put together here, and what it would come to.

    Parameters
    ----------
    build
        Which parts.
    lacking
        Those that are not at hand.
    fits, found_right
        Chance that it fits, and that a fitter finds it right.
    """

    build: Build
    lacking: tuple[Lack, ...]
    fits: Chance
    found_right: Chance


def would_fit(
    drawn: Drawn,
    current: Build,
    *,
    allowed: Allowed,
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
    allowed
        Whether the parts of a build are at hand.
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
    tally, supply = Tally(drawn, rater or Rater()), Supply(sheet, current, allowed)

    def cost(build: Build) -> float:
        return 1.0 + PART_CHARGE.value * len(supply.lacks(build))

    builds = [
        build
        for number in shells_near(drawn, sheet, current.shell)
        for build in _guessed(drawn, number, supply, cost, rejected)
    ]
    told: dict[tuple[Lack, ...], Instead] = {}
    for build in tally.select(builds, cost):
        lacking = supply.lacks(build)
        if lacking in told or tally.chance(build) < LEAST_WORTH.value:
            continue
        if len(told) < TOLD:
            found_right, fits = tally.stated(build)
            told[lacking] = Instead(build, lacking, fits, found_right)
    return tuple(told.values())


def _guessed(
    drawn: Drawn,
    shell: int,
    supply: "Supply",
    cost: Callable[[Build], float],
    rejected: Sequence[Build],
) -> list[Build]:
    """The likeliest builds of a shell that are not at hand, by the quick guess."""

    def charge(pads: Pads) -> float:
        return cost(Build(shell, pads))

    heads = min(GUESSED_ON, len(drawn) // 2)
    seen = climb(drawn.trial(shell), supply.lying(shell), heads, charge=charge)
    builds = [Build(shell, pads) for pads in seen.top(len(seen.scores))]
    lacking = (one for one in builds if one not in rejected and not supply.allowed(one))
    return list(islice(lacking, COUNTED))


@dataclass
class Supply:
    """What is at hand, asked build by build.

    Parameters
    ----------
    sheet, current
        The model, and what is in the helmet now.
    allowed
        Whether the parts of a build are at hand.
    """

    sheet: ModelSheet
    current: Build
    allowed: Allowed
    _bases: dict[int, Pads | None] = field(default_factory=dict, init=False, repr=False)

    def lying(self, shell: int) -> Pads:
        """The pads in a shell before anything is changed."""
        return self.current.pads if shell == self.current.shell else self.sheet.delivered

    def lacks(self, build: Build) -> tuple[Lack, ...]:
        """The parts that keep a build from being put together; none where it can be.

        Notes
        -----
        Pads are put one by one into a build that is at hand; those with which it no longer is are
        lacking. Of zones that share a supply the last is named, where it runs out. A shell that is
        not at hand would come as delivered; its other pads are sought for the present one.
        """
        base = self._base(build.shell)
        if base is not None:
            return tuple(self._lacking(build, base, has_in(build.shell, self.allowed)))
        shell, present = Lack(None, str(build.shell)), self._base(self.current.shell)
        if present is None:
            return (shell,)
        changed = build.changes_from(Build(build.shell, self.sheet.delivered))
        missing = self._lacking(build, present, has_in(self.current.shell, self.allowed))
        return (shell, *(lack for lack in missing if lack.zone in changed))

    def _base(self, shell: int) -> Pads | None:
        if shell not in self._bases:
            has = has_in(shell, self.allowed)
            self._bases[shell] = nearest(self.sheet, self.lying(shell), has)
        return self._bases[shell]

    def _lacking(self, build: Build, base: Pads, has: Callable[[Pads], bool]) -> Iterator[Lack]:
        here = base
        for group in groups(self.sheet):
            there = tuple(build.pads[z] if z in group else pad for z, pad in enumerate(here))
            if has(there):
                here = there
                continue
            for zone in group:
                yield Lack(ZONES[zone], self.sheet.pads[zone].labels[build.pads[zone]])
