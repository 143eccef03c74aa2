"""Sealed air cells away from the room where they were filled: cold, heat, altitude.

Filled by feel, every cell presses as its fill has it, and holds the air that its height then
leaves room for. Sealed, it keeps that air. Elsewhere its pressure p is the one at which

    (pa2 + p) V(p) / T2 = (pa1 + p1) V1 / T1

where V(p) is the air space that the rest of the helmet on that head leaves cells that press with
p. V rises with p, for a firmer cell pushes further, so that there is one such pressure. It lies
between two limits: a rigid cell, whose volume stays, moves most; one that gives freely keeps its
pressure. Where even the least pressure leaves more room than the air takes, the cell is slack.

The helmet is taken off and put on again in between, as it is on the way to a field. Leak, the air
in tubes and valves, and foam that stiffens in the cold are not modeled.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadEstimate
from helmwright.catalogue.air import Surroundings, rigid_gauge_kpa
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.outlook import Build, Chance, Spread
from helmwright.fit.proposal import laws_on, trial_on
from helmwright.fit.sealed import LawsOf, SealedCells

Floats = npt.NDArray[np.float64]
FIELD_HEADS = 300

LEAST_ML = 0.05
"""Air space under which a bladder counts as flat [mL]."""


@dataclass(frozen=True, slots=True)
class ZoneShift:
    """One cell's zone, filled in the room and then in the field.

    Parameters
    ----------
    zone
        Which.
    pressure_kpa, loose, tight
        Each in the room and in the field: mean pressure on the head [kPa], chances [1].
    """

    zone: Zone
    pressure_kpa: tuple[Spread, Spread]
    loose: tuple[float, float]
    tight: tuple[float, float]


@dataclass(frozen=True, slots=True)
class BladderShift:
    """One bladder's air.

    Parameters
    ----------
    zones
        The zones whose cells share it.
    gauge_kpa
        In the room and in the field [kPa].
    rigid_kpa
        What a volume that cannot change would come to: the upper limit of the change [kPa].
    volume
        Air space in the field over that in the room [1].
    """

    zones: tuple[Zone, ...]
    gauge_kpa: tuple[Spread, Spread]
    rigid_kpa: Spread
    volume: Spread


@dataclass(frozen=True, slots=True)
class FieldOutlook:
    """A build with sealed cells, where it was filled and elsewhere, on the same heads.

    Parameters
    ----------
    room, field
        Both surroundings.
    fits
        Chance that everything is right, in the room and in the field.
    brow_mm
        Brow height, likewise [mm].
    bladders, zones
        What becomes of the air, and of the zones over it.
    draws
        On how many heads it was counted.
    """

    room: Surroundings
    field: Surroundings
    fits: tuple[Chance, Chance]
    brow_mm: tuple[Spread, Spread]
    bladders: tuple[BladderShift, ...]
    zones: tuple[ZoneShift, ...]
    draws: int


def field_outlook(
    estimate: HeadEstimate,
    sheet: ModelSheet,
    build: Build,
    *,
    room: Surroundings,
    field: Surroundings,
    rng: np.random.Generator,
    heads: int = FIELD_HEADS,
) -> FieldOutlook:
    """What becomes of a build with air cells away from where they were filled.

    Parameters
    ----------
    estimate
        What is believed of the head.
    sheet, build
        The model and one of its builds.
    room, field
        Where the cells were filled, and where the helmet is worn.
    rng
        The random generator.
    heads
        How many are drawn.

    Raises
    ------
    ValueError
        Where the sheet has no air cells.
    """
    trial = trial_on(estimate, sheet, build.shell, heads, rng)
    return moved(trial, build, room=room, field=field, laws_of=lambda one: laws_on(estimate, one))


def moved(
    trial: Trial, build: Build, *, room: Surroundings, field: Surroundings, laws_of: LawsOf
) -> FieldOutlook:
    """The same on the heads of a trial; `laws_of` gives a sheet's laws over what is worn."""
    cells = SealedCells(trial, build, laws_of)
    if not cells.bladders:
        raise ValueError(f"{trial.sheet.model} has no air cells")
    filled = cells.filled_kpa
    before = cells.rest(filled)
    spaces = cells.volumes_ml(before)
    air = (room.pressure_kpa + filled) * spaces / room.temperature_k
    there = cells.balanced_kpa(air, field)
    after = cells.rest(there)
    ratio = cells.volumes_ml(after) / np.maximum(spaces, LEAST_ML)
    pair = (before.rest, after.rest)
    return FieldOutlook(
        room=room,
        field=field,
        fits=(_chance(pair[0].right), _chance(pair[1].right)),
        brow_mm=(Spread.of(pair[0].brow_mm), Spread.of(pair[1].brow_mm)),
        bladders=tuple(
            BladderShift(
                each.zones,
                (Spread.of(filled[:, b]), Spread.of(there[:, b])),
                Spread.of(_rigid(filled[:, b], room, field)),
                Spread.of(ratio[spaces[:, b] > LEAST_ML, b]),
            )
            for b, each in enumerate(cells.bladders)
        ),
        zones=tuple(_shift(trial, pair, pad.zone) for each in cells.bladders for pad in each.pads),
        draws=len(trial),
    )


def _rigid(gauge: Floats, room: Surroundings, field: Surroundings) -> Floats:
    return np.array([rigid_gauge_kpa(float(each), room, field) for each in gauge])


def _chance(right: npt.NDArray[np.bool_]) -> Chance:
    error = float(right.std() / np.sqrt(right.size))
    return Chance(float(right.mean()), max(error, 0.5 / right.size))


def _shift(trial: Trial, pair: tuple[Rest, Rest], zone: Zone) -> ZoneShift:
    bands, place = trial.bands, ZONES.index(zone)
    one, two = (rest.zone_pressure_kpa[:, place] for rest in pair)
    return ZoneShift(
        zone,
        (Spread.of(one), Spread.of(two)),
        (float((one < bands.loose_kpa).mean()), float((two < bands.loose_kpa).mean())),
        (float((one > bands.tight_kpa).mean()), float((two > bands.tight_kpa).mean())),
    )
