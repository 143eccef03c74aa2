"""How likely each finding is, given how the helmet rests."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr

from helmwright.catalogue.zone import Zone
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.finding import Finding, Sign
from helmwright.fit.grip import SIDE_TO_SIDE, UPRIGHT, held_moment_nm
from helmwright.fit.in_band import (
    EAR_PLAY,
    FALLS,
    HAND_NOD,
    HAND_TWIST,
    ear_mm,
    ring_kpa,
    ring_stroke_mm,
    zone_place,
)
from helmwright.fit.outlook import Build
from helmwright.fit.rater import Rater, between, worst_share
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]

LOOSE_WHERE_BOTH = Figure(
    0.5, "1", ASSUMED, note="share of zones both loose and tight in places that are called loose"
)
USUALLY_RIGHT = Figure(
    0.95, "1", ASSUMED, note="chance of a good answer to a check that tells nothing of the contact"
)
READABLE_BROW = (
    Figure(0.0, "mm", ASSUMED, note="least brow height that may be written down by a slip"),
    Figure(80.0, "mm", ASSUMED, note="largest brow height that may be written down by a slip"),
)

LEAST_CHANCE = 1e-12
"""Stands for a chance of 0, which only a rater who never slips gives."""


def chances(
    rater: Rater,
    trial: Trial,
    build: Build,
    rest: Rest,
    sign: Sign,
    zone: Zone | None = None,
    bias: Floats | None = None,
) -> Floats:
    """Chance of each answer to one check, on each head.

    Parameters
    ----------
    rater
        Who checks.
    trial, build, rest
        The helmet, and how it rests on n heads.
    sign, zone
        What is looked at, and where.
    bias
        The fitter's bias on each head, on the logarithm of felt pressure, shape (n,) [1]; none
        where None.

    Returns
    -------
    Shape (n, 3): under, right, over; no chance is 0 where the rater slips.

    Notes
    -----
    Each sign has a state and two limits; the finding is under, right or over as the state, with
    the rater's error, lies below, between or above them. A slip leads to either of the other two
    answers. `docs/explanation/learning.md` has the table.
    """
    felt = np.zeros(rest.brow_mm.size) if bias is None else bias
    return _Looked(rater, trial, build, rest, felt).chances(sign, zone)


def log_likelihood(
    rater: Rater,
    trial: Trial,
    build: Build,
    rest: Rest,
    findings: Sequence[Finding],
    bias: Floats,
) -> Floats:
    """Logarithm of the chance of all findings on one build, on each head, shape (n,).

    Notes
    -----
    Findings are independent given the head, the helmet and the fitter's bias; a repeat is one more
    finding. A brow height that was read counts by its density.
    """
    looked = _Looked(rater, trial, build, rest, bias)
    known: dict[tuple[Sign, Zone | None], Floats] = {}
    total = np.zeros(rest.brow_mm.size)
    for each in findings:
        if each.sign is Sign.BROW and each.value_mm is not None:
            total += np.log(brow_density(rater, rest, each.value_mm))
            continue
        asked = each.sign, each.zone
        if asked not in known:
            known[asked] = np.log(np.maximum(looked.chances(*asked), LEAST_CHANCE))
        total += known[asked][:, int(each.grade) + 1]
    return total


def brow_density(rater: Rater, rest: Rest, read_mm: float) -> Floats:
    """Density of a brow height that was read with a rule, on each head, shape (n,) [1/mm].

    Notes
    -----
    (1 - s) N(read; brow, noise) + s / (readable range).
    """
    low, high = (limit.value for limit in READABLE_BROW)
    off = (read_mm - rest.brow_mm) / rater.brow_noise_mm
    normal = np.exp(-0.5 * off**2) / (rater.brow_noise_mm * np.sqrt(2.0 * np.pi))
    return np.asarray((1.0 - rater.slip) * normal + max(rater.slip, 1e-12) / (high - low))


@dataclass(frozen=True)
class _Looked:
    """Who looks at which helmet on which heads."""

    rater: Rater
    trial: Trial
    build: Build
    rest: Rest
    bias: Floats

    @cached_property
    def held(self) -> Floats:
        return self.rater.held(self.trial, self.build, self.rest)

    @cached_property
    def borne(self) -> Floats:
        return self.rater.borne(worst_share(self.trial, self.rest), self.bias[:, None])

    def chances(self, sign: Sign, zone: Zone | None) -> Floats:
        return self.rater.slipped(_CLEAN[sign](self, zone))


def _zone(at: _Looked, zone: Zone | None) -> Floats:
    place = zone_place(zone)
    if not at.trial.sheet.pads[place].seats:
        return np.tile([0.0, 1.0, 0.0], (at.bias.size, 1))
    held, borne = at.held[:, place], at.borne[:, place]
    both = (1.0 - held) * (1.0 - borne)
    loose = LOOSE_WHERE_BOTH.value
    under, over = (1.0 - held) * borne + loose * both, held * (1.0 - borne) + (1.0 - loose) * both
    return np.stack([under, held * borne, over], axis=-1)


def _brow(at: _Looked, _: Zone | None) -> Floats:
    return at.rater.brow(at.trial, at.rest)


def _ears(at: _Looked, _: Zone | None) -> Floats:
    play = EAR_PLAY.value
    height = ear_mm(at.trial, at.build, at.rest)
    return between(height, -play, play, at.rater.ear_noise_mm)


def _turn(at: _Looked, _: Zone | None) -> Floats:
    return _resisted(at, UPRIGHT, HAND_TWIST.value)


def _nod(at: _Looked, _: Zone | None) -> Floats:
    return _resisted(at, SIDE_TO_SIDE, HAND_NOD.value)


def _resisted(at: _Looked, axis: tuple[float, float, float], hand_nm: float) -> Floats:
    most = held_moment_nm(at.trial, at.build, at.rest, axis)
    holds = ndtr(np.log(np.maximum(most, 1e-9) / hand_nm) / at.rater.hand_noise)
    return np.stack([1.0 - holds, holds, np.zeros_like(holds)], axis=-1)


def _hot_spot(at: _Looked, zone: Zone | None) -> Floats:
    peak = at.rest.zone_peak_kpa[:, zone_place(zone)] / at.trial.bands.hot_spot_kpa
    borne = at.rater.borne(peak, at.bias)
    return np.stack([np.zeros_like(borne), borne, 1.0 - borne], axis=-1)


def _put_on(at: _Looked, _: Zone | None) -> Floats:
    give = ring_stroke_mm(at.trial, at.rest) - FALLS.value
    stays = ndtr(give / at.rater.stroke_noise_mm)
    pressed = ring_kpa(at.trial, at.rest) / at.trial.bands.tight_kpa
    goes_on = at.rater.borne(pressed, at.bias)
    return np.stack([(1.0 - stays) * goes_on, stays * goes_on, 1.0 - goes_on], axis=-1)


def _tells_nothing(at: _Looked, _: Zone | None) -> Floats:
    right = USUALLY_RIGHT.value
    return np.tile([0.5 * (1.0 - right), right, 0.5 * (1.0 - right)], (at.bias.size, 1))


_CLEAN: dict[Sign, Callable[[_Looked, Zone | None], Floats]] = {
    Sign.PUT_ON: _put_on,
    Sign.BROW: _brow,
    Sign.ZONE: _zone,
    Sign.EARS: _ears,
    Sign.TURN: _turn,
    Sign.NOD: _nod,
    Sign.HOT_SPOT: _hot_spot,
    Sign.NOSE: _tells_nothing,
    Sign.SIGHT: _tells_nothing,
    Sign.PLAIN: _tells_nothing,
}
