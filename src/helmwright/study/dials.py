"""What of the truth is turned, to see how far a result hangs on it."""

from dataclasses import dataclass, replace

from helmwright.fit import Bands
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

STRONG_STRAP = Figure(1.8, "1", ASSUMED, note="every strap pulls so many times as hard as assumed")
SLIPPERY_HEAD = Figure(0.15, "1", ASSUMED, note="friction of every head, sweat and a cap")
WIDE_EYEBROWS = Figure(
    2.0, "1", ASSUMED, note="eyebrow heights spread so many times as far: 10 mm instead of 5"
)
SAME_LOOK = Figure(0.5, "1", ASSUMED, note="share of a look's noise that the next look repeats")
HALF, DOUBLE = 0.5, 2.0


@dataclass(frozen=True, slots=True)
class Dials:
    """How the truth differs from the truth as assumed.

    Parameters
    ----------
    bumps
        Bumps, left-right difference and skew, times so much [1].
    foam
        Scatter of the pads' stiffness, times so much [1].
    limits
        Width of what is right, for fitter, judge and program alike, times so much [1].
    noise
        The fitters' noise and bias, times so much [1].
    eyebrows
        Spread of the eyebrows' height, times so much [1].
    strap
        Every strap's pull, times so much [1].
    friction
        Of every head; each its own where None [1].
    same_look
        Share of the variance of a look's noise that later looks repeat [1].
    frictionless
        Whether the program reckons with a contact without friction.
    """

    bumps: float = 1.0
    foam: float = 1.0
    limits: float = 1.0
    noise: float = 1.0
    eyebrows: float = 1.0
    strap: float = 1.0
    friction: float | None = None
    same_look: float = 0.0
    frictionless: bool = False

    def __post_init__(self) -> None:
        """Refuse dials that leave nothing to play."""
        factors = (self.bumps, self.foam, self.limits, self.noise, self.eyebrows, self.strap)
        if min(factors) <= 0.0:
            raise ValueError("dials are factors greater than 0")
        if not 0.0 <= self.same_look <= 1.0:
            raise ValueError(f"a share of noise must lie from 0 to 1, not {self.same_look}")
        if self.friction is not None and not 0.05 <= self.friction <= 1.0:
            raise ValueError(f"a friction must lie from 0.05 to 1, not {self.friction}")

    @property
    def first_differs(self) -> bool:
        """Whether a first proposal differs from that of the truth as assumed."""
        return self.frictionless or self.limits != 1.0 or self.eyebrows != 1.0

    def bands(self, usual: Bands) -> Bands:
        """The limits of what is right, as wide as the dial says.

        Notes
        -----
        Pressure is widened about the middle of its logarithms, since no pressure lies below none;
        a hot spot stays as far above tight; brow height about its middle; the gap by the factor.
        """
        if self.limits == 1.0:
            return usual
        middle = (usual.loose_kpa * usual.tight_kpa) ** 0.5
        ratio = (usual.tight_kpa / usual.loose_kpa) ** (0.5 * self.limits)
        brow = 0.5 * (usual.brow_low_mm + usual.brow_high_mm)
        half = 0.5 * (usual.brow_high_mm - usual.brow_low_mm) * self.limits
        return replace(
            usual,
            loose_kpa=middle / ratio,
            tight_kpa=middle * ratio,
            hot_spot_kpa=middle * ratio * usual.hot_spot_kpa / usual.tight_kpa,
            brow_low_mm=brow - half,
            brow_high_mm=brow + half,
            gap_mm=usual.gap_mm * self.limits,
        )


AS_ASSUMED = Dials()

TURNED = {
    "bumps halved": Dials(bumps=HALF),
    "bumps doubled": Dials(bumps=DOUBLE),
    "foam scatter halved": Dials(foam=HALF),
    "foam scatter doubled": Dials(foam=DOUBLE),
    "limits of right halved": Dials(limits=HALF),
    "limits of right doubled": Dials(limits=DOUBLE),
    "fitter's noise halved": Dials(noise=HALF),
    "fitter's noise doubled": Dials(noise=DOUBLE),
    "eyebrows spread 10 mm": Dials(eyebrows=WIDE_EYEBROWS.value),
    "strap pulls 1.8 times": Dials(strap=STRONG_STRAP.value),
    "friction 0.15": Dials(friction=SLIPPERY_HEAD.value),
    "half a look's noise kept": Dials(same_look=SAME_LOOK.value),
    "program without friction": Dials(frictionless=True),
}
"""Every way that the truth, or the program, is turned, by its name in tables and files."""
