"""A fitter with fingers and a rule, who errs in a way of his own.

What the program believes of fitters stands in `helmwright.fit.rater`. This one errs as much, but
otherwise: part of what looks like noise is his own and stays with him, his errors have long tails,
and a slip of the pen is an inch on the rule.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.catalogue import ZONES, Zone
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from helmwright.study.wearer import TriedOn

Floats = npt.NDArray[np.float64]

FELT_NOISE = Figure(0.20, "1", ASSUMED, note="noise of one felt pressure, SD of its logarithm")
FELT_OWN = Figure(0.10, "1", ASSUMED, note="a fitter's own bias of felt pressure, likewise")
GIVE_NOISE = Figure(0.9, "mm", ASSUMED, note="error of one felt gap or give, SD")
GIVE_OWN = Figure(0.45, "mm", ASSUMED, note="a fitter's own bias of gap and give, SD")
RULE_NOISE = Figure(1.8, "mm", ASSUMED, note="error of one brow height read with a rule, SD")
RULE_OWN = Figure(0.9, "mm", ASSUMED, note="a fitter's own bias of brow heights, SD")
SLIP = Figure(0.01, "1", ASSUMED, note="chance that a finding is written down wrong")
TAILS = Figure(6.0, "1", ASSUMED, note="degrees of freedom of the noise, Student's")
MISREAD_MM = 25.4
"""A slip on the rule is an inch."""

BROW = len(ZONES)
"""Place of the brow among what is looked at, after the zones."""


@dataclass(frozen=True)
class Fitter:
    """One fitter at one player's visit.

    Parameters
    ----------
    stream
        What his errors are drawn from: the same look at the same place of the same try-on errs
        alike, whoever proposed the build.
    noise
        His noises and biases, times so much [1].
    same_look
        Share of the variance of a look's noise that later looks repeat [1].
    """

    stream: tuple[int, ...]
    noise: float = 1.0
    same_look: float = 0.0

    def finds(self, tried: TriedOn, zone: Zone, try_on: int, look: int = 1) -> Finding:
        """What he finds at one zone.

        Notes
        -----
        Loose where the give beyond the loose edge, or the room left to the largest gap, is felt
        below 0; tight where the pressure or a hot spot is felt above its limit; where both, what
        strikes more, in units of its own noise. A slip writes down another answer.
        """
        place = ZONES.index(zone)
        if not tried.trial.sheet.pad(zone).seats:
            return Finding(Sign.ZONE, Grade.RIGHT, zone)
        error = self._errors(place, try_on, look)
        own = self._own()
        held = (tried.hold_mm(zone) + own[1]) / GIVE_NOISE.value + error[1] * self.noise
        borne = (-_excess(tried, zone) - own[0]) / FELT_NOISE.value - error[0] * self.noise
        grade = Grade.RIGHT
        if min(held, borne) < 0.0:
            grade = Grade.UNDER if held < borne else Grade.OVER
        slip, which = self._slip(place, try_on, look)
        return Finding(Sign.ZONE, _others(grade)[which] if slip else grade, zone)

    def reads_brow(self, tried: TriedOn, try_on: int, look: int = 1) -> Finding:
        """The brow height that he reads, and what he says of it."""
        bands = tried.trial.bands
        error = self._errors(BROW, try_on, look)[0] * self.noise * RULE_NOISE.value
        value = float(tried.rest.brow_mm[0]) + self._own()[2] + error
        slip, which = self._slip(BROW, try_on, look)
        value = max(value + (MISREAD_MM if which else -MISREAD_MM) * slip, 0.0)
        grade = Grade(int(value > bands.brow_high_mm) - int(value < bands.brow_low_mm))
        return Finding(Sign.BROW, grade, None, value)

    def _own(self) -> Floats:
        """His biases: logarithm of pressure, give [mm], brow [mm]."""
        sizes = np.array([FELT_OWN.value, GIVE_OWN.value, RULE_OWN.value])
        drawn = np.random.default_rng([*self.stream, 30]).standard_normal(3)
        return np.asarray(drawn * sizes * self.noise)

    def _errors(self, place: int, try_on: int, look: int) -> Floats:
        """Two errors of one look, of SD 1."""
        mine = self._drawn(place, try_on, look)
        if self.same_look == 0.0:
            return mine
        common = self._drawn(place, try_on, 0)
        share = self.same_look
        return np.asarray(np.sqrt(share) * common + np.sqrt(1.0 - share) * mine)

    def _drawn(self, place: int, try_on: int, look: int) -> Floats:
        rng = np.random.default_rng([*self.stream, 31, try_on, place, look])
        df = TAILS.value
        return np.asarray(rng.standard_t(df, 2) * np.sqrt((df - 2.0) / df))

    def _slip(self, place: int, try_on: int, look: int) -> tuple[bool, int]:
        """Whether he slips, and to which of two other answers."""
        drawn = np.random.default_rng([*self.stream, 32, try_on, place, look]).random(2)
        return bool(drawn[0] < SLIP.value), int(drawn[1] < 0.5)


def _others(grade: Grade) -> tuple[Grade, ...]:
    return tuple(other for other in Grade if other is not grade)


def _excess(tried: TriedOn, zone: Zone) -> float:
    """Logarithm of the pressure over its limit, mean or hot spot, whichever is more."""
    bands, rest, place = tried.trial.bands, tried.rest, ZONES.index(zone)
    mean = rest.zone_pressure_kpa[0, place] / bands.tight_kpa
    peak = rest.zone_peak_kpa[0, place] / bands.hot_spot_kpa
    return float(np.log(max(mean, peak, 1e-9)))
