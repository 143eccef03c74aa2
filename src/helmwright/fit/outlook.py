"""What the fit room answers: builds, their chances, what may go wrong, what to measure next."""

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

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
    """Mean and central 90 percent of a quantity over the draws."""

    mean: float
    low: float
    high: float


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


@dataclass(frozen=True, slots=True)
class ShellChance:
    """How likely the chart would choose one shell, had the head been measured without error."""

    shell: int
    chance: float


@dataclass(frozen=True, slots=True)
class MeasureGain:
    """What one more measure is expected to add to the best build's chance [1]."""

    measure: str
    gain: float
    error: float


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
        What each missing measure would add, best first.
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

    @property
    def suits(self) -> bool:
        """False for a measured head that the chart leaves out, or that pads cannot be found for.

        Where the shell was not measured, a low chance says nothing against the model.
        """
        charted = sum(shell.chance for shell in self.shells)
        reached = self.within_reach >= LEAST_WITHIN_REACH.value or not self.insides_known
        return not self.measured or (charted >= LEAST_CHARTED.value and reached)
