"""Draws for the next build that are not a belief: any heads, any unknowns, no bias."""

from dataclasses import dataclass, field

import numpy as np

from helmwright.anatomy import HeadDraws, HeadEstimate, Reading, Sex, estimate_head
from helmwright.catalogue import ZONES, ModelSheet, Zone
from helmwright.fit.contact import Trial
from helmwright.fit.finding import Finding, Grade, Sign
from tests.fit.ordinary import OUZEL, delivered, men, trial_of

TAPED = estimate_head([Reading("tape_circumference", 570.0)], sex=Sex.MALE)


@dataclass
class PlainDraws:
    """Heads with nothing unknown."""

    heads: HeadDraws
    sheet: ModelSheet = OUZEL
    estimate: HeadEstimate = TAPED
    _trials: dict[int, Trial] = field(default_factory=dict)

    @property
    def felt_bias(self) -> np.ndarray:
        return np.zeros(len(self.heads))

    def __len__(self) -> int:
        return len(self.heads)

    def trial(self, shell: int) -> Trial:
        if shell not in self._trials:
            self._trials[shell] = trial_of(self.heads, shell=shell, sheet=self.sheet)
        return self._trials[shell]


def fitted_as_delivered(count: int) -> PlainDraws:
    """Men on whom the delivered build of the middle shell is right."""
    some = men(8 * count, seed=11)
    right = trial_of(some).rest(delivered()).right
    chosen = HeadDraws(some.values[right][:count])
    assert len(chosen) == count
    return PlainDraws(chosen)


def findings(*, brow: Grade = Grade.RIGHT, **zones: Grade) -> tuple[Finding, ...]:
    """Every zone and the brow, right unless told; a zone's spaces are written as _."""
    told = {Zone(name.replace("_", " ")): grade for name, grade in zones.items()}
    found = [Finding(Sign.ZONE, told.get(zone, Grade.RIGHT), zone) for zone in ZONES]
    return (Finding(Sign.BROW, brow), *found)
