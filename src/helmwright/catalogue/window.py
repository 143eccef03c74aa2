"""How much squeeze a pad forgives: its snug window."""

from dataclasses import dataclass
from statistics import median

import numpy as np

from helmwright.catalogue.sheet import PadKind
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

LOOSE_BELOW = Figure(0.7, "kPa", ASSUMED, note="mean pressure under which a pad feels loose")
"""Lower end of the snug band of mean pressure."""

TIGHT_ABOVE = Figure(6.0, "kPa", ASSUMED, note="mean pressure over which a pad feels tight")
"""Upper end of the snug band of mean pressure."""

BROW_LOW = Figure(
    19.0, "mm", ASSUMED, note="lowest right brow height, 3/4 in; an inch is common practice"
)
"""Lower end of the window of the brow height."""

BROW_HIGH = Figure(31.8, "mm", ASSUMED, note="highest right brow height, 1 1/4 in; likewise")
"""Upper end of that window."""


@dataclass(frozen=True, slots=True)
class SnugWindow:
    """The squeeze between too loose and too tight, against the step between thicknesses.

    Parameters
    ----------
    window_mm
        Stroke from the loose to the tight end of the snug band [mm].
    step_mm
        The usual step from one thickness to the next [mm]; 0 where there is one thickness only.
    """

    window_mm: float
    step_mm: float

    @property
    def steps(self) -> float:
        """How many steps the window spans: thicknesses that are snug on one gap [1]."""
        return self.window_mm / self.step_mm if self.step_mm else float("inf")


def pad_stroke_mm(
    pad: PadKind, thickness_mm: float, pressure_kpa: float, *, stress_factor: float = 1.0
) -> float:
    """Squeeze of a pad under an even pressure [mm].

    Parameters
    ----------
    pad
        The kind of pad.
    thickness_mm
        Its free thickness [mm].
    pressure_kpa
        Pressure over the pad [kPa].
    stress_factor
        How much stiffer the foams are than their curves [1].

    Notes
    -----
    The layers bear the same pressure and their squeezes add:
    ``stroke = h_fit e_fit(p) + (h - h_fit) e_energy(p)``, with ``h_fit`` the fit layer, or the
    whole thickness where the pad is thinner than that. An air cell is a layer of its own, at the
    pressure of its fill.
    """
    pressure = np.asarray(pressure_kpa / stress_factor)
    air_mm = pad.cell.reach_mm if pad.cell else 0.0
    given = float(pad.cell.kept_at_its_pressure().strain_at(pressure)) if pad.cell else 0.0
    fit_mm = min(pad.fit_layer_mm, thickness_mm - air_mm)
    soft = float(pad.fit_foam.strain_at(pressure))
    stiff = float(pad.energy_foam.strain_at(pressure))
    return fit_mm * soft + air_mm * given + (thickness_mm - air_mm - fit_mm) * stiff


def snug_window(
    pad: PadKind,
    *,
    loose_below_kpa: float = LOOSE_BELOW.value,
    tight_above_kpa: float = TIGHT_ABOVE.value,
    stress_factor: float = 1.0,
) -> SnugWindow:
    """The snug window of a pad in its delivered thickness.

    Parameters
    ----------
    pad
        The kind of pad.
    loose_below_kpa, tight_above_kpa
        Ends of the snug band [kPa].
    stress_factor
        How much stiffer the foams are than their curves [1].
    """
    thickness = pad.thicknesses_mm[pad.delivered]
    loose, tight = (
        pad_stroke_mm(pad, thickness, pressure, stress_factor=stress_factor)
        for pressure in (loose_below_kpa, tight_above_kpa)
    )
    steps = np.diff(pad.thicknesses_mm).tolist()
    return SnugWindow(tight - loose, median(steps) if steps else 0.0)
