"""Draws on the way: resampled by how well they explain what was found, and moved."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from helmwright.belief.moves import Step, telling_directions
from helmwright.belief.particles import resampled
from helmwright.fit.cloud import Cloud
from helmwright.fit.finding import Finding, Tried
from helmwright.fit.finding_chances import log_likelihood
from helmwright.fit.outlook import Build
from helmwright.fit.rater import Rater

Floats = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]

WANTED_ACCEPTANCE = 0.3
"""Share of the moves that are to be accepted; the next ones are sized for it."""

FIRST_SIZE = 0.8
LEAST_SIZE = 0.05

TELLING = 0.15
"""How far a direction must move what is seen, in errors of one look, to be fitted."""


@dataclass(frozen=True)
class Everything:
    """Everything found: before, and now.

    Parameters
    ----------
    rater
        Who found it.
    before, new
        What was found at earlier try-ons, and what is to be taken in.
    """

    rater: Rater
    before: Sequence[Tried]
    new: Tried

    @cached_property
    def builds(self) -> tuple[Build, ...]:
        """The builds that were on the head."""
        return tuple(dict.fromkeys([*self._before, self.new.build]))

    @cached_property
    def _before(self) -> dict[Build, list[Finding]]:
        found: dict[Build, list[Finding]] = {}
        for each in self.before:
            found.setdefault(each.build, []).extend(each.findings)
        return found

    def before_on(self, cloud: Cloud) -> Floats:
        """Logarithm of the chance of everything before, shape (n,)."""
        found = (self._on(cloud, build, some) for build, some in self._before.items())
        return sum(found, np.zeros(len(cloud)))

    def new_on(self, cloud: Cloud) -> Floats:
        """Logarithm of the chance of what is new, shape (n,)."""
        return self._on(cloud, self.new.build, self.new.findings)

    def _on(self, cloud: Cloud, build: Build, findings: Sequence[Finding]) -> Floats:
        return log_likelihood(
            self.rater, cloud.trial(build.shell), build, cloud.rest(build), findings,
            cloud.felt_bias,
        )  # fmt: skip

    def telling(self, cloud: Cloud) -> Floats:
        """The directions in a cloud's numbers of which findings tell something, shape (c, k).

        Notes
        -----
        Those along which brow height and strokes of the tried builds move by some share of the
        error with which they are found; and the fitter's bias itself.
        """
        seen = [cloud.felt_bias[:, None] / self.rater.felt_noise]
        for build in self.builds:
            rest = cloud.rest(build)
            seen += [
                rest.brow_mm[:, None] / self.rater.brow_noise_mm,
                rest.zone_stroke_mm / self.rater.stroke_noise_mm,
            ]
        return telling_directions(cloud.standard, np.hstack(seen), TELLING)


@dataclass(frozen=True, eq=False)
class Walk:
    """A cloud on its way from what was believed to what is.

    Parameters
    ----------
    cloud
        The draws.
    before, new
        Logarithms of the chance of earlier and of new findings on each, shape (n,).
    found
        Those findings.
    basis
        Directions of which they tell something.
    size
        Of the next move.
    """

    cloud: Cloud
    before: Floats
    new: Floats
    found: Everything
    basis: Floats
    size: float = FIRST_SIZE

    @classmethod
    def of(cls, cloud: Cloud, found: Everything) -> "Walk":
        """The start, where only what was found before is taken in."""
        kept = cloud.keeping({build.shell for build in found.builds})
        before, new = found.before_on(kept), found.new_on(kept)
        return cls(kept, before, new, found, found.telling(kept))

    def resampled(self, log_weights: Floats, rng: np.random.Generator) -> "Walk":
        """As many draws, each as often as its weight asks."""
        which: Places = resampled(log_weights, rng)
        return replace(
            self, cloud=self.cloud.chosen(which), before=self.before[which], new=self.new[which]
        )

    def moved(self, power: float, rng: np.random.Generator) -> tuple["Walk", float]:
        """Every draw moved or left where it was, and the share that was moved.

        Parameters
        ----------
        power
            Of the new likelihood in what is to be kept.
        rng
            The random generator.
        """
        step = Step.fitted(self.cloud.standard, self.basis, self.size)
        there = self._proposed(step, rng)
        before, new = self.found.before_on(there), self.found.new_on(there)
        gain = before - self.before + power * (new - self.new)
        gain += step.log_odds(there.standard) - step.log_odds(self.cloud.standard)
        taken = np.log(rng.random(gain.size)) < gain
        share = float(taken.mean())
        size = self.size * float(np.exp(share - WANTED_ACCEPTANCE))
        after = replace(
            self,
            cloud=self.cloud.taking(there, taken),
            before=np.where(taken, before, self.before),
            new=np.where(taken, new, self.new),
            size=min(max(size, LEAST_SIZE), 1.0),
        )
        return after, share

    def _proposed(self, step: Step, rng: np.random.Generator) -> Cloud:
        """Where the draws would go; half of them would be of a newly drawn sex and age."""
        cloud = self.cloud
        standard = step.proposed(cloud.standard, rng)
        drawn_from = cloud.estimate.drawn_from
        if len(drawn_from.parts) == 1:
            return cloud.moved(standard)
        change = rng.random(len(cloud)) < 0.5
        parts = np.where(change, drawn_from.draw_parts(len(cloud), rng), cloud.part_of)
        return cloud.moved(standard, parts)
