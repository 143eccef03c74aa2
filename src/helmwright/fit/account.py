"""One build on fresh heads: its chances, and what to expect of it."""

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.fill import fill_outlooks
from helmwright.fit.grip import FORE_AND_AFT, UPRIGHT, held_moment_nm
from helmwright.fit.outlook import (
    Build,
    BuildOutlook,
    Chance,
    Fault,
    FaultKind,
    Spread,
    ZoneOutlook,
)
from helmwright.fit.rater import Rater
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]
Bits = npt.NDArray[np.bool_]

HELD_BY = Figure(
    4.0, "N", ASSUMED, note="least force of front, rear and sides together that holds a helmet"
)
_RING = (Zone.FRONT, Zone.REAR, Zone.LEFT, Zone.RIGHT, Zone.NAPE, Zone.JAW_LEFT, Zone.JAW_RIGHT)


def account(
    trial: Trial, build: Build, current: Build, *, rater: Rater, rest: Rest | None = None
) -> BuildOutlook:
    """Chances and expectations of one build on the heads of a trial.

    Parameters
    ----------
    trial
        Fresh draws: not those that chose the build.
    build, current
        The build, and the one that is in the helmet now.
    rater
        The fitter who will check it.
    rest
        Its rest on those heads, where it is known already.
    """
    solved = trial.rest(build) if rest is None else rest
    found = rater.found_right(trial, build, solved)
    twist, roll = (held_moment_nm(trial, build, solved, e) for e in (UPRIGHT, FORE_AND_AFT))
    return BuildOutlook(
        build=build,
        fits=_chance(solved.right.astype(np.float64)),
        found_right=_chance(found),
        changes=build.changes_from(current),
        zones=tuple(_zone(trial, build, solved, zone) for zone in ZONES),
        brow_mm=Spread.of(solved.brow_mm),
        tilt_deg=Spread.of(solved.tilt_deg),
        twist_nm=Spread.of(twist),
        roll_nm=Spread.of(roll),
        floats=float((_ring_force(trial, solved) < HELD_BY.value).mean()),
        faults=_faults(trial, solved),
        fills=fill_outlooks(trial, build, solved),
    )


def _chance(values: Floats) -> Chance:
    error = values.std() / np.sqrt(values.size)
    return Chance(float(values.mean()), float(max(error, 0.5 / values.size)))


def _zone(trial: Trial, build: Build, rest: Rest, zone: Zone) -> ZoneOutlook:
    place = ZONES.index(zone)
    kind, index = trial.sheet.pads[place], build.pads[place]
    pressure = rest.zone_pressure_kpa[:, place]
    force = rest.force_n[:, trial.seating.zones == place].sum(axis=1)
    used = bool(kind.seats)
    return ZoneOutlook(
        zone=zone,
        pad_label=kind.labels[index],
        pad_mm=kind.thicknesses_mm[index],
        stroke_mm=Spread.of(rest.zone_stroke_mm[:, place]),
        pressure_kpa=Spread.of(pressure),
        force_n=Spread.of(force),
        loose=float((pressure < trial.bands.loose_kpa).mean()) if used else 0.0,
        tight=float((pressure > trial.bands.tight_kpa).mean()) if used else 0.0,
    )


def _faults(trial: Trial, rest: Rest) -> tuple[Fault, ...]:
    found = [*_brow_faults(trial, rest)]
    for place, zone in enumerate(ZONES):
        if trial.sheet.pads[place].seats:
            found += _zone_faults(trial, rest, zone)
    return tuple(sorted((f for f in found if f.chance > 0), key=lambda fault: -fault.chance))


def _brow_faults(trial: Trial, rest: Rest) -> list[Fault]:
    low, high = trial.bands.brow_low_mm, trial.bands.brow_high_mm
    return [
        Fault(FaultKind.BROW_LOW, None, float((rest.brow_mm < low).mean())),
        Fault(FaultKind.BROW_HIGH, None, float((rest.brow_mm > high).mean())),
    ]


def _zone_faults(trial: Trial, rest: Rest, zone: Zone) -> list[Fault]:
    """Each head counts under one kind: loose or tight before hot spot or gap."""
    place, bands = ZONES.index(zone), trial.bands
    pressure = rest.zone_pressure_kpa[:, place]
    loose, tight = pressure < bands.loose_kpa, pressure > bands.tight_kpa
    between = ~(loose | tight)
    hot = between & (rest.zone_peak_kpa[:, place] > bands.hot_spot_kpa)
    gap = between & ~hot & (rest.zone_gap_mm[:, place] > bands.gap_mm)
    kinds = (FaultKind.LOOSE, FaultKind.TIGHT, FaultKind.HOT_SPOT, FaultKind.GAP)
    return [
        Fault(kind, zone, float(where.mean()))
        for kind, where in zip(kinds, (loose, tight, hot, gap), strict=True)
    ]


def _ring_force(trial: Trial, rest: Rest) -> Floats:
    ring = np.isin(trial.seating.zones, [ZONES.index(zone) for zone in _RING])
    return np.asarray(rest.force_n[:, ring].sum(axis=1))
