"""What each check looks at on a helmet at rest, and whether it truly is as it should be."""

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.finding import Sign
from helmwright.fit.grip import SIDE_TO_SIDE, UPRIGHT, held_moment_nm
from helmwright.fit.outlook import Build
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]
Bits = npt.NDArray[np.bool_]

EAR_PLAY = Figure(
    12.7, "mm", ASSUMED, note="how far an ear may lie above or below the middle of its opening"
)
HAND_TWIST = Figure(1.0, "N m", ASSUMED, note="twist by which a hand turns a helmet, median")
HAND_NOD = Figure(1.4, "N m", ASSUMED, note="moment by which a hand nods a helmet, median")
FALLS = Figure(
    -1.0, "mm", ASSUMED, note="mean give around the head below which a helmet falls about"
)

_RING = np.array([zone is not Zone.CROWN for zone in ZONES])


def in_band(trial: Trial, build: Build, rest: Rest, sign: Sign, zone: Zone | None = None) -> Bits:
    """Whether what a check looks at truly is in its band, on each head, shape (n,).

    A sign that tells nothing of the contact counts as in band.
    """
    match sign:
        case Sign.ZONE:
            return _snug(trial, rest, zone_place(zone))
        case Sign.HOT_SPOT:
            return _cool(trial, rest, zone_place(zone))
        case Sign.BROW:
            low, high = trial.bands.brow_low_mm, trial.bands.brow_high_mm
            return np.asarray((rest.brow_mm >= low) & (rest.brow_mm <= high))
        case Sign.EARS:
            return np.asarray(np.abs(ear_mm(trial, build, rest)) <= EAR_PLAY.value)
        case Sign.TURN:
            return np.asarray(held_moment_nm(trial, build, rest, UPRIGHT) >= HAND_TWIST.value)
        case Sign.NOD:
            return np.asarray(held_moment_nm(trial, build, rest, SIDE_TO_SIDE) >= HAND_NOD.value)
        case Sign.PUT_ON:
            stays = ring_stroke_mm(trial, rest) >= FALLS.value
            return np.asarray(stays & (ring_kpa(trial, rest) <= trial.bands.tight_kpa))
    return np.ones(rest.brow_mm.size, dtype=bool)


def zone_place(zone: Zone | None) -> int:
    """Place of a zone in ZONES.

    Raises
    ------
    ValueError
        Where a sign of a zone comes without one.
    """
    if zone is None:
        raise ValueError("what is found at a zone needs the zone")
    return ZONES.index(zone)


def _snug(trial: Trial, rest: Rest, place: int) -> Bits:
    bands, pressure = trial.bands, rest.zone_pressure_kpa[:, place]
    if not trial.sheet.pads[place].seats:
        return np.ones(pressure.size, dtype=bool)
    snug = (pressure >= bands.loose_kpa) & (pressure <= bands.tight_kpa)
    near = rest.zone_gap_mm[:, place] <= bands.gap_mm
    return np.asarray(snug & near & _cool(trial, rest, place))


def _cool(trial: Trial, rest: Rest, place: int) -> Bits:
    return np.asarray(rest.zone_peak_kpa[:, place] <= trial.bands.hot_spot_kpa)


def ear_mm(trial: Trial, build: Build, rest: Rest) -> Floats:
    """Height of the shell's ear openings over the ears, mean of both sides, shape (n,) [mm].

    Raises
    ------
    ValueError
        Where the rest is not on just the trial's heads: those that it is on are not known from it.

    Notes
    -----
    The openings lie on the axis through both ears in the drawing: pitch about it moves them not,
    roll moves one up and the other down as much.
    """
    lift, rested = trial.lift_mm(build), rest.pose.shape[0]
    if lift.size != rested:
        raise ValueError(
            f"a rest on {rested} heads needs a trial of the same {rested}, not of {lift.size}"
        )
    return np.asarray(lift + rest.pose[:, 2])


def ring_kpa(trial: Trial, rest: Rest) -> Floats:
    """Mean pressure of all pads but the crown's, by area, shape (n,) [kPa]."""
    return np.asarray(rest.zone_pressure_kpa @ _ring_shares(trial))


def ring_stroke_mm(trial: Trial, rest: Rest) -> Floats:
    """Mean stroke of all pads but the crown's, by area, gaps below 0, shape (n,) [mm]."""
    return np.asarray(rest.zone_stroke_mm @ _ring_shares(trial))


def _ring_shares(trial: Trial) -> Floats:
    padded = np.array([bool(pad.seats) for pad in trial.sheet.pads]) & _RING
    areas = np.array([pad.area_cm2 for pad in trial.sheet.pads]) * padded
    return np.asarray(areas / areas.sum())
