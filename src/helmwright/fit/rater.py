"""What a fitter finds on a helmet at rest: fingers and a rule instead of gauges."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr

from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.outlook import Build
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]

FELT_NOISE = Figure(0.20, "1", ASSUMED, note="noise of one felt pressure, SD of its logarithm")
FELT_BIAS = Figure(0.10, "1", ASSUMED, note="a fitter's own bias of felt pressure, likewise")
STROKE_NOISE = Figure(1.0, "mm", ASSUMED, note="error of a felt gap or give, SD")
BROW_NOISE = Figure(2.0, "mm", ASSUMED, note="error of a brow height read with a rule, SD")
SLIP = Figure(0.01, "1", ASSUMED, note="chance that a finding is written down wrong")


@dataclass(frozen=True, slots=True)
class Rater:
    """How well a fitter's findings follow the contact.

    Parameters
    ----------
    felt_noise, felt_bias
        Standard deviations of the logarithm of felt pressure: per finding, and per fitter [1].
    stroke_noise_mm
        Error of a felt gap or give, SD [mm].
    brow_noise_mm
        Error of a brow height, SD [mm].
    slip
        Chance of a finding written down wrong [1].
    """

    felt_noise: float = FELT_NOISE.value
    felt_bias: float = FELT_BIAS.value
    stroke_noise_mm: float = STROKE_NOISE.value
    brow_noise_mm: float = BROW_NOISE.value
    slip: float = SLIP.value

    def __post_init__(self) -> None:
        """Refuse a fitter whose errors are no errors."""
        if min(self.felt_noise, self.stroke_noise_mm, self.brow_noise_mm) <= 0:
            raise ValueError("a fitter's noises must be greater than 0")
        if self.felt_bias < 0 or not 0 <= self.slip < 0.5:
            raise ValueError("a fitter's bias must be at least 0, and the slip from 0 to below 0.5")

    def found_right(self, trial: Trial, build: Build, rest: Rest) -> Floats:
        """Chance that every check of one build says right, on each head.

        Parameters
        ----------
        trial, build, rest
            The helmet, and how it rests on n heads.

        Returns
        -------
        Shape (n,) [1].

        Notes
        -----
        A fitter gives one finding for each zone and one for the brow. A zone is found right when
        it is neither loose nor tight: loose is judged by gap and give, so it passes when the give
        beyond the loose edge, and the room left to the largest gap, exceed N(0, 1 mm); tight
        and hot spot are felt with one lognormal error for both. A fitter's bias is shared by all
        zones of a try-on (five Gauss-Hermite nodes). Any finding may be written down wrong.
        """
        nodes, weights = np.polynomial.hermite_e.hermegauss(5)
        padded = np.array([bool(pad.seats) for pad in trial.sheet.pads])
        held = self._held(trial, build, rest)
        whole = sum(
            weight
            * self._slipped(held * self._borne(trial, rest, self.felt_bias * node))[:, padded].prod(
                axis=1
            )
            for node, weight in zip(nodes, weights / weights.sum(), strict=True)
        )
        return np.asarray(self._brow(trial, rest) * whole)

    def _brow(self, trial: Trial, rest: Rest) -> Floats:
        low, high = trial.bands.brow_low_mm, trial.bands.brow_high_mm
        inside = ndtr((high - rest.brow_mm) / self.brow_noise_mm)
        inside = inside - ndtr((low - rest.brow_mm) / self.brow_noise_mm)
        return self._slipped(np.asarray(inside))

    def _held(self, trial: Trial, build: Build, rest: Rest) -> Floats:
        edge = np.array([self._loose_stroke(trial, build, zone) for zone in ZONES])
        give, room = self._give(trial, rest) - edge, trial.bands.gap_mm - rest.zone_gap_mm
        return np.asarray(ndtr(np.minimum(give, room) / self.stroke_noise_mm))

    def _give(self, trial: Trial, rest: Rest) -> Floats:
        """Mean compression over each zone, parts that stand clear counting as none, (n, 8) [mm]."""
        return np.asarray(np.maximum(rest.stroke_mm, 0.0) @ trial.seating.area_shares)

    def _loose_stroke(self, trial: Trial, build: Build, zone: Zone) -> float:
        if not trial.sheet.pad(zone).seats:
            return 0.0
        return trial.laws.stroke(zone, build.pads[ZONES.index(zone)], trial.bands.loose_kpa)

    def _borne(self, trial: Trial, rest: Rest, bias: float) -> Floats:
        mean = rest.zone_pressure_kpa / trial.bands.tight_kpa
        worst = np.maximum(mean, rest.zone_peak_kpa / trial.bands.hot_spot_kpa)
        felt = np.log(np.maximum(worst, 1e-9)) + bias
        return np.asarray(ndtr(-felt / self.felt_noise))

    def _slipped(self, chance: Floats) -> Floats:
        return chance + self.slip * (1.0 - 2.0 * chance)
