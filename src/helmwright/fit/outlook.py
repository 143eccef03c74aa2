"""What the fit room answers: builds, their chances, what may go wrong, what to measure next."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.zone import ZONES, Zone
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

if TYPE_CHECKING:
    from helmwright.fit.face_outlook import FaceOutlook

LEAST_WITHIN_REACH = Figure(
    0.35, "1", ASSUMED, note="chance of any fit below which a model is said not to suit a head"
)
LEAST_CHARTED = Figure(
    0.5, "1", ASSUMED, note="chance that the chart names any shell, below which the same is said"
)

LEAST_SHIFT = Figure(
    0.02, "1", ASSUMED, note="move of a chance below which an assumption is not named"
)


@dataclass(frozen=True, slots=True, order=True)
class Build:
    """The parts in one shell for one player.

    Parameters
    ----------
    shell
        The shell's number on the model sheet.
    pads
        For each of `ZONES`, an index into that zone's thicknesses.
    """

    shell: int
    pads: tuple[int, ...]

    def changes_from(self, other: "Build") -> tuple[Zone, ...]:
        """The zones whose pad differs from another build's."""
        pairs = zip(ZONES, self.pads, other.pads, strict=True)
        return tuple(zone for zone, mine, theirs in pairs if mine != theirs)


@dataclass(frozen=True, slots=True)
class Chance:
    """A probability counted on fresh draws.

    Parameters
    ----------
    value
        Share of the draws [1].
    error
        Its standard error [1].
    """

    value: float
    error: float


@dataclass(frozen=True, slots=True)
class Spread:
    """Mean, central 90 percent and median of a quantity over the draws.

    Where few heads draw the mean far out, the median says what to expect.
    """

    mean: float
    low: float
    high: float
    median: float

    @classmethod
    def of(cls, values: npt.NDArray[np.float64]) -> "Spread":
        """That of drawn values."""
        low, median, high = np.quantile(values, [0.05, 0.5, 0.95])
        return cls(float(values.mean()), float(low), float(high), float(median))


class Assumption(StrEnum):
    """What a chance leans on, as far as it is varied."""

    LIMITS = "limits of snug"
    BROW_WINDOW = "brow height limits"
    FOAM = "pad stiffness"
    SURVEY = "survey of heads"
    EYEBROW = "eyebrow height"
    FRICTION = "friction"
    STRAP = "strap pull"
    BUMPS = "bumps of the head"
    INSIDES = "unmeasured insides"
    COVERING = "hair and headwear"
    FILL = "feel of a fill"


@dataclass(frozen=True, slots=True)
class Shift:
    """How far a chance moves under another assumption, on common draws.

    Parameters
    ----------
    value
        The chance there less the chance as stated [1].
    error
        Standard error of that difference [1].
    """

    value: float
    error: float


@dataclass(frozen=True, slots=True)
class Driver:
    """One assumption, and how far the chances move when it goes to its low and to its high.

    Parameters
    ----------
    assumption
        Which one.
    low, high
        What it is set to, with unit and source.
    fits_low, fits_high
        How far the chance that everything is right moves.
    found_low, found_high
        How far the chance that a fitter finds it right moves.
    """

    assumption: Assumption
    low: Figure
    high: Figure
    fits_low: Shift
    fits_high: Shift
    found_low: Shift
    found_high: Shift

    @property
    def largest(self) -> Shift:
        """The larger of the two moves of the chance that everything is right."""
        return max(self.fits_low, self.fits_high, key=lambda shift: abs(shift.value))

    @property
    def is_told(self) -> bool:
        """Whether its larger move is worth telling and can be told from nothing."""
        shift = self.largest
        return abs(shift.value) >= max(LEAST_SHIFT.value, 2.0 * shift.error)


def strongest(drivers: tuple[Driver, ...]) -> Driver | None:
    """The assumption that moves the chance of a fit most; None where none moves it to be told."""
    told = [driver for driver in drivers if driver.is_told]
    return max(told, key=lambda driver: abs(driver.largest.value), default=None)


class FaultKind(StrEnum):
    """What can be wrong with a helmet on a head."""

    LOOSE = "loose"
    TIGHT = "tight"
    HOT_SPOT = "hot spot"
    GAP = "gap"
    BROW_LOW = "too low on the brow"
    BROW_HIGH = "too high on the brow"


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that may be wrong, and how often it is over the draws.

    `zone` is None for a fault of the helmet's height.
    """

    kind: FaultKind
    zone: Zone | None
    chance: float


@dataclass(frozen=True, slots=True)
class ZoneOutlook:
    """What to expect at one zone of one build.

    Parameters
    ----------
    zone
        Which zone.
    pad_label, pad_mm
        Thickness as written on the bag, and in [mm].
    stroke_mm
        Mean compression of the pad [mm]; negative is a gap.
    pressure_kpa
        Mean pressure over the pad [kPa].
    force_n
        Force on the head [N].
    loose, tight
        Chance of either finding [1].
    """

    zone: Zone
    pad_label: str
    pad_mm: float
    stroke_mm: Spread
    pressure_kpa: Spread
    force_n: Spread
    loose: float
    tight: float


@dataclass(frozen=True, slots=True)
class FillOutlook:
    """What filling one bladder by feel is expected to come to.

    Parameters
    ----------
    zones
        The zones whose cells share its air.
    pad_mm
        Thickness of each zone's pad, unpressed but for its air [mm].
    gauge_kpa
        Pressure of its air over the air around [kPa].
    air_ml
        Air let into the flat bladder, as it was before it was pumped in [mL].
    strokes
        Strokes of the sheet's pump that give so much; None where the sheet names no pump.
    full, flat
        Chance that some cell of it is full and reaches no further, and that one is flat [1].
    """

    zones: tuple[Zone, ...]
    pad_mm: tuple[Spread, ...]
    gauge_kpa: Spread
    air_ml: Spread
    strokes: Spread | None
    full: float
    flat: float


@dataclass(frozen=True, slots=True)
class BuildOutlook:
    """One build with its chances.

    Parameters
    ----------
    build
        Which parts.
    fits
        Chance that everything is right at once.
    found_right
        Chance that a fitter's checks will all say so.
    changes
        Zones whose pad differs from the helmet as it is now.
    zones
        What to expect zone by zone, in the order of ZONES.
    brow_mm
        Brow height: eyebrow to the front edge [mm].
    tilt_deg
        Nose-down tilt of the helmet [deg].
    twist_nm
        Twist about the vertical that it resists at most before the skin slips [N m].
    roll_nm
        Twist about the fore-aft axis, likewise [N m].
    floats
        Chance that it touches too little to be held [1].
    faults
        What may be wrong, likeliest first.
    fills
        What filling the air cells comes to, one for each bladder.
    drivers
        How far the chances move with each main assumption, strongest first; empty where that was
        not counted for this build.
    """

    build: Build
    fits: Chance
    found_right: Chance
    changes: tuple[Zone, ...]
    zones: tuple[ZoneOutlook, ...]
    brow_mm: Spread
    tilt_deg: Spread
    twist_nm: Spread
    roll_nm: Spread
    floats: float
    faults: tuple[Fault, ...]
    fills: tuple[FillOutlook, ...] = ()
    drivers: tuple[Driver, ...] = ()


@dataclass(frozen=True, slots=True)
class ShellChance:
    """How likely the chart would choose one shell, had the head been measured without error."""

    shell: int
    chance: float


@dataclass(frozen=True, slots=True)
class SizeRisk:
    """Whether a tape reading gives the shell that the head itself would give.

    Parameters
    ----------
    shell
        What the chart gives the reading; 0 where it gives none.
    other
        What it would likeliest give instead.
    chance
        Chance of another shell, had the head been measured without error [1].
    read_mm
        The reading, over what will be worn [mm].
    """

    shell: int
    other: int
    chance: float
    read_mm: float


@dataclass(frozen=True, slots=True)
class MeasureGain:
    """What a measure is expected to add to the best build's chance, taken now or once more.

    Parameters
    ----------
    measure
        Key of the measure.
    gain, error
        What it adds, and the standard error of the count [1].
    minutes
        What taking it twice takes [min].
    repeat
        Whether it was read before, so that only its reading error would shrink.
    """

    measure: str
    gain: float
    error: float
    minutes: float = 1.0
    repeat: bool = False


@dataclass(frozen=True, slots=True)
class InsideGain:
    """What inside calipers in the proposed shell would add to the best build's chance [1].

    `numbers` are keys of `catalogue.INSIDE_NUMBERS`.
    """

    numbers: tuple[str, ...]
    gain: float
    error: float


@dataclass(frozen=True, slots=True)
class Proposal:
    """The answer for one player.

    Parameters
    ----------
    model
        The helmet model.
    shells
        What the chart says, over the possible heads; likeliest first.
    ranked
        Builds, best first, at most five.
    delivered
        The best of the delivered builds, for comparison.
    next_measures
        What each measure would add, those read already by reading them again; best first.
    within_reach
        Chance that one of sixteen builds, in all the shells tried, fits: what checking and changing
        pads on the head can come to; counted on 300 fresh draws [1].
    draws
        How many fresh draws the other chances were counted on.
    measured
        Whether the size of the head was read at all, by tape or by length and breadth.
    insides_known
        Whether the inside of the proposed shell was measured.
    inside_gain
        What three numbers taken by inside calipers would add, where they are lacking.
    face
        Face guards and chin straps on the best build; None where they were not computed.
    size_risk
        Whether the tape's reading lies on a line between two shells; None where none was read.
    """

    model: str
    shells: tuple[ShellChance, ...]
    ranked: tuple[BuildOutlook, ...]
    delivered: BuildOutlook
    next_measures: tuple[MeasureGain, ...]
    within_reach: float
    draws: int
    measured: bool = True
    insides_known: bool = True
    inside_gain: InsideGain | None = None
    face: "FaceOutlook | None" = None
    size_risk: SizeRisk | None = None

    @property
    def suits(self) -> bool:
        """False for a measured head that the chart leaves out, or that pads cannot be found for.

        Where the shell was not measured, a low chance says nothing against the model.
        """
        charted = sum(shell.chance for shell in self.shells)
        reached = self.within_reach >= LEAST_WITHIN_REACH.value or not self.insides_known
        return not self.measured or (charted >= LEAST_CHARTED.value and reached)
