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
EAR_NOISE = Figure(3.0, "mm", ASSUMED, note="error of where an ear lies in its opening, SD")
HAND_NOISE = Figure(
    0.3, "1", ASSUMED, note="how hard a hand turns or nods a helmet, SD of its logarithm"
)

_OTHERS = 2.0
"""Answers that a slip may lead to: the two that are not what was found."""


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
    ear_noise_mm
        Error of where an ear is seen in its opening, SD [mm].
    hand_noise
        How hard a hand turns or nods a helmet, SD of its logarithm [1].
    """

    felt_noise: float = FELT_NOISE.value
    felt_bias: float = FELT_BIAS.value
    stroke_noise_mm: float = STROKE_NOISE.value
    brow_noise_mm: float = BROW_NOISE.value
    slip: float = SLIP.value
    ear_noise_mm: float = EAR_NOISE.value
    hand_noise: float = HAND_NOISE.value

    def __post_init__(self) -> None:
        """Refuse a fitter whose errors are no errors."""
        noises = (self.felt_noise, self.stroke_noise_mm, self.brow_noise_mm)
        if min(*noises, self.ear_noise_mm, self.hand_noise) <= 0:
            raise ValueError("a fitter's noises must be greater than 0")
        if self.felt_bias < 0 or not 0 <= self.slip < 0.5:
            raise ValueError("a fitter's bias must be at least 0, and the slip from 0 to below 0.5")

    def found_right(
        self, trial: Trial, build: Build, rest: Rest, bias: Floats | None = None
    ) -> Floats:
        """Chance that every check of one build says right, on each head.

        Parameters
        ----------
        trial, build, rest
            The helmet, and how it rests on n heads.
        bias
            This fitter's bias of felt pressure on each head, shape (n,), on its logarithm [1];
            averaged over all fitters where None.

        Returns
        -------
        Shape (n,) [1].

        Notes
        -----
        A fitter gives one finding for each zone and one for the brow. A zone is found right when
        it is neither loose nor tight: loose is judged by gap and give, so it passes when the give
        beyond the loose edge, and the room left to the largest gap, exceed N(0, 1 mm); tight
        and hot spot are felt with one lognormal error for both. A fitter's bias is shared by all
        zones of a try-on (five Gauss-Hermite nodes where it is averaged over). Any finding may be
        written down wrong.
        """
        padded = np.array([bool(pad.seats) for pad in trial.sheet.pads])
        held = self.held(trial, build, rest)[:, padded]
        worst = worst_share(trial, rest)[:, padded]
        if bias is not None:
            whole = self._all_right(held, worst, bias[:, None])
        else:
            nodes, weights = np.polynomial.hermite_e.hermegauss(5)
            whole = sum(
                weight * self._all_right(held, worst, self.felt_bias * node)
                for node, weight in zip(nodes, weights / weights.sum(), strict=True)
            )
        brow = self.brow(trial, rest)[:, 1]
        return np.asarray(self.slipped(brow) * whole)

    def _all_right(self, held: Floats, worst: Floats, bias: Floats | float) -> Floats:
        return np.asarray(self.slipped(held * self.borne(worst, bias)).prod(axis=1))

    def brow(self, trial: Trial, rest: Rest) -> Floats:
        """Chances of too low, right and too high but for slips, shape (n, 3)."""
        bands = trial.bands
        return between(rest.brow_mm, bands.brow_low_mm, bands.brow_high_mm, self.brow_noise_mm)

    def held(self, trial: Trial, build: Build, rest: Rest) -> Floats:
        """Chance that each zone is not found loose, but for slips, shape (n, 8)."""
        edge = np.array([_loose_stroke(trial, build, zone) for zone in ZONES])
        give, room = give_mm(trial, rest) - edge, trial.bands.gap_mm - rest.zone_gap_mm
        return np.asarray(ndtr(np.minimum(give, room) / self.stroke_noise_mm))

    def borne(self, share: Floats, bias: Floats | float) -> Floats:
        """Chance that a pressure is not found too high, but for slips.

        Parameters
        ----------
        share
            The pressure over its limit [1].
        bias
            The fitter's, on the logarithm of what is felt [1].
        """
        felt = np.log(np.maximum(share, 1e-9)) + bias
        return np.asarray(ndtr(-felt / self.felt_noise))

    def slipped(self, chance: Floats) -> Floats:
        """Chance of one of three answers when any may be written down as any of the other two.

        Notes
        -----
        (1 - s) c + s (1 - c) / 2, s being the slip.
        """
        return (1.0 - self.slip) * chance + self.slip * (1.0 - chance) / _OTHERS


def between(value: Floats, low: float, high: float, noise: float) -> Floats:
    """Chances that a value read with a normal error lies below, in and above a band, (n, 3)."""
    below, above = ndtr((low - value) / noise), ndtr((value - high) / noise)
    inside = ndtr((high - value) / noise) - below
    return np.stack([below, inside, above], axis=-1)


def give_mm(trial: Trial, rest: Rest) -> Floats:
    """Mean compression over each zone, parts that stand clear counting as none, (n, 8) [mm]."""
    return np.asarray(np.maximum(rest.stroke_mm, 0.0) @ trial.seating.area_shares)


def worst_share(trial: Trial, rest: Rest) -> Floats:
    """Mean or peak pressure of each zone over its limit, whichever is worse, (n, 8) [1]."""
    mean = rest.zone_pressure_kpa / trial.bands.tight_kpa
    return np.asarray(np.maximum(mean, rest.zone_peak_kpa / trial.bands.hot_spot_kpa))


def _loose_stroke(trial: Trial, build: Build, zone: Zone) -> float:
    if not trial.sheet.pad(zone).seats:
        return 0.0
    return trial.laws.stroke(zone, build.pads[ZONES.index(zone)], trial.bands.loose_kpa)
