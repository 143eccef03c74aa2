"""What is in the air cells of a helmet at rest: heights, pressures, air."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.air import SEA_LEVEL_KPA
from helmwright.catalogue.cell import AirCell
from helmwright.catalogue.sheet import ModelSheet, PadKind
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.law import PadLaw
from helmwright.fit.outlook import Build, FillOutlook, Spread

Floats = npt.NDArray[np.float64]

NEARLY = 0.02
"""Share of its reach by which a cell may miss full or flat and still be called so [1]."""

ML_PER_CM2_MM = 0.1


@dataclass(frozen=True)
class Bladder:
    """Cells that share their air.

    Parameters
    ----------
    name
        As the sheet has it.
    pads
        The pads that carry them, in the order of ZONES.
    """

    name: str
    pads: tuple[PadKind, ...]

    @property
    def places(self) -> list[int]:
        """Its zones' places in ZONES."""
        return [ZONES.index(pad.zone) for pad in self.pads]

    @property
    def zones(self) -> tuple[Zone, ...]:
        """Its zones."""
        return tuple(pad.zone for pad in self.pads)

    @property
    def cell(self) -> AirCell:
        """Its first cell, whose pressure and pump stand for all."""
        return cell_of(self.pads[0])


def cell_of(pad: PadKind) -> AirCell:
    """The cell of a pad that has one."""
    if pad.cell is None:
        raise ValueError(f"the {pad.zone} pad has no air cell")
    return pad.cell


def bladders(sheet: ModelSheet) -> tuple[Bladder, ...]:
    """The bladders of a sheet, in the order of their first zones."""
    found: dict[str, list[PadKind]] = {}
    for pad in sheet.pads:
        if pad.cell is not None:
            found.setdefault(pad.cell.bladder, []).append(pad)
    return tuple(Bladder(name, tuple(pads)) for name, pads in found.items())


def air_height_mm(cell: AirCell, law: PadLaw, stroke_mm: Floats) -> Floats:
    """Height of the air at strokes of its pad [mm], same shape.

    Notes
    -----
    Between the strokes at which the cell begins and ends to give, the height falls evenly from
    its reach to nothing. The foam's own give between the two pressures is shared out alike.
    """
    full, flat = (law.stroke(pressure) for pressure in cell.bends_kpa())
    given = np.clip((stroke_mm - full) / (flat - full), 0.0, 1.0)
    return np.asarray(cell.reach_mm * (1.0 - given))


def mean_over_pad(trial: Trial, values: Floats, place: int) -> Floats:
    """Mean of a quantity over the contacts of one zone, by area, shape (n,)."""
    chosen = trial.seating.zones == place
    areas = trial.seating.areas_cm2[chosen]
    return np.asarray(values[:, chosen] @ areas / areas.sum())


def zone_heights_mm(trial: Trial, build: Build, stroke_mm: Floats, pad: PadKind) -> Floats:
    """Mean height of the air in one zone's cell on each head, shape (n,) [mm]."""
    place = ZONES.index(pad.zone)
    law = trial.laws.law(pad.zone, build.pads[place])
    return mean_over_pad(trial, air_height_mm(cell_of(pad), law, stroke_mm), place)


def fill_outlooks(trial: Trial, build: Build, rest: Rest) -> tuple[FillOutlook, ...]:
    """What filling each bladder of a build by feel comes to, on the heads of a trial."""
    return tuple(_fill(trial, build, rest, bladder) for bladder in bladders(trial.sheet))


def _fill(trial: Trial, build: Build, rest: Rest, bladder: Bladder) -> FillOutlook:
    heights = [zone_heights_mm(trial, build, rest.stroke_mm, pad) for pad in bladder.pads]
    felt = trial.unknowns.foam[: rest.brow_mm.size, bladder.places[0]]
    gauge = bladder.cell.gauge_kpa * felt
    volume = volume_ml(bladder, heights)
    air = volume * (1.0 + gauge / SEA_LEVEL_KPA.value)
    pump = bladder.cell.pump_ml
    reach = np.array([cell_of(pad).reach_mm for pad in bladder.pads])
    shares = np.array(heights) / reach[:, None]
    return FillOutlook(
        zones=bladder.zones,
        pad_mm=tuple(
            Spread.of(pad.thicknesses_mm[0] - cell_of(pad).reach_mm + height)
            for pad, height in zip(bladder.pads, heights, strict=True)
        ),
        gauge_kpa=Spread.of(gauge),
        air_ml=Spread.of(air),
        strokes=None if pump is None else Spread.of(air / pump),
        full=float((shares > 1.0 - NEARLY).any(axis=0).mean()),
        flat=float((shares < NEARLY).any(axis=0).mean()),
    )


def volume_ml(bladder: Bladder, heights_mm: list[Floats]) -> Floats:
    """Air space of a bladder whose cells stand so high [mL], shape (n,)."""
    spaces = [
        ML_PER_CM2_MM * pad.area_cm2 * height
        for pad, height in zip(bladder.pads, heights_mm, strict=True)
    ]
    return np.asarray(np.sum(spaces, axis=0))
