"""Builds counted on common draws: how likely a fitter finds each right, for its minutes."""

from collections.abc import Callable, Sequence
from typing import Protocol

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws, HeadEstimate
from helmwright.catalogue.zone import Zone
from helmwright.fit.contact import Trial
from helmwright.fit.finding import Sign
from helmwright.fit.finding_chances import chances
from helmwright.fit.outlook import Build, Chance
from helmwright.fit.rater import Rater

Floats = npt.NDArray[np.float64]
Price = Callable[[Build], float]
"""Minutes of changing to a build and of trying it on, with what else speaks against it [min]."""

HEATS = (1 / 4, 1 / 2, 1)
"""Shares of the draws that the heats of a selection end at [1]."""

LEAST_FIELD = 12
"""A selection is never halved below so many builds."""

KEPT = 2
"""So many builds are kept to compare the others with."""

LEAST_CHANCE = 1e-4
"""What stands for a chance that no draw shows, so that builds can still be put in order."""


class Drawn(Protocol):
    """What is believed of a head, the helmet on it and the fitter, as equally likely draws."""

    @property
    def estimate(self) -> HeadEstimate:
        """What was believed of the head by its readings alone."""

    @property
    def heads(self) -> HeadDraws:
        """The drawn heads."""

    @property
    def felt_bias(self) -> Floats:
        """The fitter's bias of felt pressure, as a logarithm, shape (n,) [1]."""

    def __len__(self) -> int:
        """How many draws."""

    def trial(self, shell: int) -> Trial:
        """A shell on those draws."""


class Tally:
    """What each build came to on each draw, counted once.

    Parameters
    ----------
    drawn
        The draws.
    rater
        The fitter who will check.
    also
        Checks beside brow and zones that must come out right as well.

    Notes
    -----
    A belief that was resampled holds like draws side by side. Builds are chosen on its first half
    and their chances stated on the second, which shares no such draws with the first but for one
    at the border.
    """

    def __init__(
        self, drawn: Drawn, rater: Rater, also: Sequence[tuple[Sign, Zone | None]] = ()
    ) -> None:
        self.drawn = drawn
        self.rater = rater
        self.also = also
        self.half = len(drawn) // 2
        self._found: dict[Build, Floats] = {}
        self._stated: dict[Build, tuple[Chance, Chance]] = {}

    def found(self, build: Build, draws: int) -> Floats:
        """Chance that a fitter finds a build right on each of the first draws, shape (draws,)."""
        known = self._found.get(build, np.empty(0))
        if known.size < draws:
            known = np.concatenate([known, self._count(build, known.size, draws)[0]])
            self._found[build] = known
        return known[:draws]

    def stated(self, build: Build) -> tuple[Chance, Chance]:
        """Chances that a build is found right, and that it fits, on draws that chose nothing."""
        if build not in self._stated:
            found, fits = self._count(build, self.half, len(self.drawn))
            self._stated[build] = _chance(found), _chance(fits)
        return self._stated[build]

    def _count(self, build: Build, first: int, last: int) -> tuple[Floats, Floats]:
        trial = self.drawn.trial(build.shell)
        rest = trial.rest(build, first, last)
        bias = self.drawn.felt_bias[first:last]
        found = self.rater.found_right(trial, build, rest, bias)
        if self.also:
            counted = np.arange(first, last)
            part = trial.part(build, counted, trial.laws, trial.unknowns.chosen(counted))
            for sign, zone in self.also:
                found = found * chances(self.rater, part, build, rest, sign, zone, bias)[:, 1]
        return found, rest.right.astype(np.float64)

    def select(
        self, builds: list[Build], price: Price, keep: Callable[[Build], bool] | None = None
    ) -> list[Build]:
        """The builds that cost fewest minutes for their chance, least first, LEAST_FIELD or so.

        Parameters
        ----------
        builds
            Who is compared; after each heat the half that costs more drops out.
        price
            What each build costs [min].
        keep
            Of which builds a few are kept whatever they cost, to compare the others with.
        """
        field = list(dict.fromkeys(builds))
        for share in HEATS:
            draws = max(int(self.half * share), 1)
            field.sort(key=lambda build: price(build) / self.chance(build, draws))
            if share < 1:
                stay = max(LEAST_FIELD, (len(field) + 1) // 2)
                kept = [build for build in field[stay:] if keep and keep(build)]
                few = sum(keep(build) for build in field[:stay]) if keep else 0
                field = field[:stay] + kept[: max(KEPT - few, 0)]
        return field

    def chance(self, build: Build, draws: int | None = None) -> float:
        """Chance found right on the first draws, on the choosing half where None [1]."""
        return max(float(self.found(build, draws or self.half).mean()), LEAST_CHANCE)


def _chance(values: Floats) -> Chance:
    error = values.std() / np.sqrt(values.size)
    return Chance(float(values.mean()), float(max(error, 0.5 / values.size)))
