"""A helmet put on once more: what is new about it, whatever is known of head and pads."""

from dataclasses import dataclass, field, replace

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws, HeadEstimate
from helmwright.catalogue.zone import ZONES
from helmwright.fit.cloud import Cloud
from helmwright.fit.contact import Trial
from helmwright.fit.rater import Rater
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]

ZONE_ANEW = Figure(
    0.7,
    "mm",
    ASSUMED,
    note="what of a zone's fit is new at a try-on, SD: how the helmet came down, how thick and "
    "stiff a pad of that label is, and how far the model errs about a change",
)
BROW_ANEW = Figure(1.5, "mm", ASSUMED, note="the same for the height above the brow, SD")


def hearing(rater: Rater) -> Rater:
    """A fitter's findings, as far as they tell of other try-ons too.

    Notes
    -----
    What is found at one try-on is also of that try-on alone: its scatter adds to the fitter's
    error, s^2 = r^2 + a^2. Looks at one try-on share it, and are counted as if they did not.
    """
    return replace(
        rater,
        stroke_noise_mm=float(np.hypot(rater.stroke_noise_mm, ZONE_ANEW.value)),
        brow_noise_mm=float(np.hypot(rater.brow_noise_mm, BROW_ANEW.value)),
    )


@dataclass(frozen=True, eq=False)
class Anew:
    """The draws of a belief, each with the helmet put on once more.

    Parameters
    ----------
    cloud
        What is believed of head, pads and fitter.
    zone_mm, brow_mm
        What is new about every draw, shapes (n, 8), (n,) [mm].
    """

    cloud: Cloud
    zone_mm: Floats
    brow_mm: Floats
    _trials: dict[int, Trial] = field(default_factory=dict, repr=False)

    @classmethod
    def drawn(cls, cloud: Cloud, rng: np.random.Generator) -> "Anew":
        """One putting-on for each draw."""
        new = rng.standard_normal((len(cloud), len(ZONES) + 1))
        return cls(cloud, new[:, :-1] * ZONE_ANEW.value, new[:, -1] * BROW_ANEW.value)

    @property
    def estimate(self) -> HeadEstimate:
        """What was believed of the head by its readings alone."""
        return self.cloud.estimate

    @property
    def heads(self) -> HeadDraws:
        """The drawn heads."""
        return self.cloud.heads

    @property
    def felt_bias(self) -> Floats:
        """The fitter's bias of felt pressure, as a logarithm, shape (n,) [1]."""
        return self.cloud.felt_bias

    def __len__(self) -> int:
        return len(self.cloud)

    def trial(self, shell: int) -> Trial:
        """A shell on those draws; made once."""
        if shell not in self._trials:
            known = self.cloud.trial(shell)
            unknowns = replace(
                known.unknowns,
                zone_mm=known.unknowns.zone_mm + self.zone_mm,
                brow_mm=known.unknowns.brow_mm + self.brow_mm,
            )
            self._trials[shell] = known.under(unknowns=unknowns)
        return self._trials[shell]
