"""A head whose very surface is known: the bound that no measuring can pass."""

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from helmwright.anatomy.surface import HeadShapes
from helmwright.catalogue import ZONES, ModelSheet
from helmwright.fit import Bands
from helmwright.fit.contact import Trial
from helmwright.fit.seating import PadLaws, Seating, seat_shell
from helmwright.fit.unknowns import Unknowns, draw_unknowns
from helmwright.geometry import Ovoids
from helmwright.geometry.kernels.rays import clearances
from helmwright.study.truth import TrueHead

Floats = npt.NDArray[np.float64]


def known_trial(
    truth: TrueHead, sheet: ModelSheet, laws: PadLaws, shell: int, count: int,
    rng: np.random.Generator,
) -> Trial:  # fmt: skip
    """One shell on a head whose surface is known, bumps as their mean under each pad.

    What differs within a pad, hair, foam, friction and strap stay unknown.
    """
    drawn = draw_unknowns(sheet, count, rng)
    bumps = zone_bumps(truth, seat_shell(sheet.shell(shell), sheet))
    known = replace(drawn, zone_mm=np.repeat(bumps[None], count, axis=0), brow_mm=np.zeros(count))
    return trial_of(truth, sheet, laws, shell, known, Bands())


def trial_of(
    truth: TrueHead, sheet: ModelSheet, laws: PadLaws, shell: int, unknowns: Unknowns, bands: Bands
) -> Trial:
    """One shell on as many copies of a known surface as there are draws of what is unknown."""
    count = len(unknowns)
    shapes = HeadShapes(
        Ovoids(np.repeat(truth.surface[None], count, axis=0)), np.full(count, truth.brow_mm)
    )
    return Trial(sheet, sheet.shell(shell), laws, shapes, unknowns, bands)


def zone_bumps(truth: TrueHead, seat: Seating) -> Floats:
    """Mean bump under each zone of a shell on a true head, shape (8,) [mm]."""
    bumps = contact_bumps(truth, seat)
    whole = np.bincount(seat.zones, seat.areas_cm2, minlength=len(ZONES))
    mean = np.bincount(seat.zones, bumps * seat.areas_cm2, minlength=len(ZONES))
    return np.divide(mean, whole, out=np.zeros(len(ZONES)), where=whole > 0)


def contact_bumps(truth: TrueHead, seat: Seating) -> Floats:
    """Bump under each contact of a shell on a true head, shape (s,) [mm]."""
    count = seat.zones.size
    gaps, normals = np.empty((1, 1, count)), np.empty((1, 1, count, 3))
    level = np.zeros((1, 1))
    clearances(truth.surface[None], seat.points, seat.inward, level, gaps, normals)
    return truth.bumps.at(seat.points + gaps[0, 0][:, None] * seat.inward)
