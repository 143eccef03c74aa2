"""An air cell: a pad that is filled until it feels snug instead of being chosen by thickness."""

from dataclasses import dataclass, replace

from helmwright.catalogue.foam import Foam
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

SNUG_FEEL = Figure(
    2.5, "kPa", ASSUMED, note="mean pressure on the head at which a fitter stops pumping a cell"
)
FILL_SPREAD = Figure(
    0.35, "1", ASSUMED, note="how far fills by feel differ from that, SD of the logarithm"
)
SKIN_SHARE = Figure(
    0.3, "1", ASSUMED, note="part of a full cell's pressure that its skin carries, not the head"
)

SKIN_SHARES = (0.1, 0.9)
"""Least and most that a full cell's skin may carry; with none the pressure would be level [1]."""

_TAKE_UP = 0.002
"""Share of a cell's height over which it comes under pressure; it makes the curve a curve [1]."""

_PAST_FLAT_KPA = 1e6
"""A flat cell gives no more: slope past strain 1 [kPa per unit strain]."""

AIR = "air"
"""What stands for a thickness where a pad is an air cell."""


@dataclass(frozen=True, slots=True)
class AirCell:
    """The air cell of a pad.

    Parameters
    ----------
    reach_mm
        How much thinner the pad is with the cell flat than with it full [mm].
    bladder
        Cells of one bladder are connected and share their air; a cell by itself has its own name.
    skin_share
        Part of a full cell's gauge pressure that its skin carries [1].
    snug_kpa
        Mean pressure on the head to which it is filled by feel [kPa].
    pump_ml
        Air that one stroke of the pump gives [mL], where the sheet says so.
    """

    reach_mm: float
    bladder: str
    skin_share: float = SKIN_SHARE.value
    snug_kpa: float = SNUG_FEEL.value
    pump_ml: float | None = None

    def __post_init__(self) -> None:
        """Refuse a cell that cannot hold or press."""
        if self.reach_mm <= 0 or self.snug_kpa <= 0:
            raise ValueError("a cell's reach and its snug pressure must be greater than 0")
        low, high = SKIN_SHARES
        if not low <= self.skin_share <= high:
            raise ValueError(f"a skin's share must be from {low:g} to {high:g}")

    @property
    def gauge_kpa(self) -> float:
        """Gauge pressure of its air when filled by feel [kPa]; the skin takes half its share."""
        return self.snug_kpa / (1.0 - 0.5 * self.skin_share)

    def at_gauge(self, gauge_kpa: float) -> "AirCell":
        """The same cell at another gauge pressure [kPa]."""
        return replace(self, snug_kpa=gauge_kpa * (1.0 - 0.5 * self.skin_share))

    def bends_kpa(self) -> tuple[float, float]:
        """Pressure on the head [kPa] of the full and of the flat cell."""
        return self.gauge_kpa * (1.0 - self.skin_share), self.gauge_kpa

    def kept_at_its_pressure(self) -> Foam:
        """The cell at an even gauge pressure, as a layer as thick as its reach.

        Notes
        -----
        At a height g of air the head feels ``p = pg (1 - k g / H)``: the gauge pressure less
        what the skin carries, which falls evenly from its share k in a full cell (g = H) to
        nothing in a flat one. So p rises with the stroke, from ``pg (1 - k)`` to ``pg``. That is
        a cell while it is being filled, and one that is connected to a large store of air. A
        sealed one follows the gas law besides: `helmwright.fit.field`.
        """
        full, flat = self.bends_kpa()
        return Foam(
            key=f"air_at_{self.gauge_kpa:.3f}_kpa",
            strain=(0.0, _TAKE_UP, 1.0),
            stress_kpa=(0.0, full, flat),
            beyond_kpa=_PAST_FLAT_KPA,
            source=ASSUMED,
            scatter=FILL_SPREAD.value,
        )
