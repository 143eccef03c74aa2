"""Heads and helmets that the tests of this room share."""

from dataclasses import replace

import numpy as np

from helmwright.anatomy import HeadDraws, Sex, adult_prior
from helmwright.anatomy.surface import HeadShapes, head_shapes
from helmwright.catalogue import ZONES, ModelSheet, Zone, load_packaged
from helmwright.fit import Bands, Build
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.seating import PadLaws, pad_laws
from helmwright.fit.unknowns import Unknowns
from helmwright.geometry import Ovoids

OUZEL = load_packaged("ouzel")
LAWS = pad_laws(OUZEL)
MIDDLE = 3
"""The shell for 560 to 580 mm."""


def nothing_unknown(count: int, *, friction: float = 0.32, foam: float = 1.0) -> Unknowns:
    """No unknown: every zone as modeled, every foam as stated."""
    flat = np.zeros((count, len(ZONES)))
    ones = np.ones(count)
    bumps = np.zeros((count, sum(len(pad.seats) for pad in OUZEL.pads)))
    return Unknowns(flat, bumps, np.zeros(count), flat + foam, ones * friction, ones)


def men(count: int, *, seed: int = 7, low: float = 560.0, high: float = 580.0) -> HeadDraws:
    """Men of the prior whose tape reads within a band."""
    return drawn(Sex.MALE, count, seed=seed, low=low, high=high)


def drawn(sex: Sex, count: int, *, seed: int = 7, low: float = 0.0, high: float = 1e9) -> HeadDraws:
    """Heads of the prior of one sex whose tape reads within a band."""
    values = adult_prior(sex).draw(40 * count, np.random.default_rng(seed))
    tape = HeadDraws(values).of("tape_circumference")
    return HeadDraws(values[(tape >= low) & (tape < high)][:count])


def trial_of(
    heads: HeadDraws,
    *,
    shell: int = MIDDLE,
    sheet: ModelSheet = OUZEL,
    laws: PadLaws | None = None,
    unknowns: Unknowns | None = None,
) -> Trial:
    """A shell on heads, with nothing unknown unless told."""
    known = laws or (LAWS if sheet is OUZEL else pad_laws(sheet))
    unknown = unknowns or nothing_unknown(len(heads))
    return Trial(sheet, sheet.shell(shell), known, head_shapes(heads), unknown, Bands())


def moved(build: Build, **steps: int) -> Build:
    """The build with the pads of some zones steps thicker; a zone's spaces are written as _."""
    pads = list(build.pads)
    for name, step in steps.items():
        pads[ZONES.index(Zone(name.replace("_", " ")))] += step
    return Build(build.shell, tuple(pads))


def delivered(shell: int = MIDDLE, sheet: ModelSheet = OUZEL) -> Build:
    """The build that a shell arrives with."""
    return Build(shell, sheet.delivered)


def pressure(rest: Rest, zone: Zone) -> np.ndarray:
    """Mean pressure of one zone on every head [kPa]."""
    return rest.zone_pressure_kpa[:, ZONES.index(zone)]


def round_heads(radius: float, count: int = 1, *, brow: float = 30.0) -> HeadShapes:
    """Spheres about the middle between the ears, raised by 30 mm."""
    row = [
        radius, radius, 2.0, radius, 2.0, 0.0, 30.0, 0.0, 1.0, radius, 2.0, 2.0, 2.0, 0.0,
    ]  # fmt: skip
    return HeadShapes(Ovoids(np.array([row] * count)), np.full(count, brow))


def without_scatter(sheet: ModelSheet, **changes) -> ModelSheet:
    """A sheet with some fields changed."""
    return replace(sheet, **changes)
