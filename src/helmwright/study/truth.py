"""A truth that is not the program's model: heads, hair, helmets and hands as they may really be.

Everything here differs on purpose from what the program assumes when it proposes a build. Where a
value has a source it is named; the others are assumed. They were set by what they make of a
head, not by how builds fared on it.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue import ZONES, Foam, ModelSheet, Zone
from helmwright.fit.seating import PadLaws, pad_laws
from helmwright.geometry.ovoid import COLUMNS
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, STARK_2023
from helmwright.study.dials import AS_ASSUMED, Dials

Floats = npt.NDArray[np.float64]

BUMPS = Figure(2.0, "mm", ASSUMED, note="smooth random bumps of a head, SD")
BUMP_LENGTH = Figure(40.0, "mm", ASSUMED, note="how far bumps reach: length of their correlation")
LEFT_RIGHT = Figure(1.0, "mm", ASSUMED, note="left side fuller than right, SD, at 75 mm")
SKEW = Figure(0.8, "mm", ASSUMED, note="one front quarter and the other rear one fuller, SD")
DOME = Figure(2.25, "1", ASSUMED, spread=0.12, note="a head's own exponent of the dome")
REAR = Figure(1.45, "1", ASSUMED, spread=0.10, note="a head's own run-in toward the neck")
LEAN = Figure(0.22, "1", ASSUMED, spread=0.04, note="a head's own lean of the forehead")
HAIR_MOST = Figure(6.0, "mm", ASSUMED, note="free thickness of hair, uniform from none to this")
FOAM_SCATTER = Figure(0.25, "1", ASSUMED, note="stiffness from pad to pad, SD of its logarithm")
THICKNESS = Figure(0.5, "mm", ASSUMED, note="a pad's thickness from its label, SD")
FRICTION = (
    Figure(0.15, "1", ASSUMED, note="least friction: sweat, a cap"),
    Figure(0.45, "1", STARK_2023, note="most friction, above the range of live heads"),
)
PULL = Figure(0.45, "1", ASSUMED, note="strap's pull over the sheet's, SD of its logarithm")
GRIP = Figure(0.30, "1", ASSUMED, note="tangential stiffness over the model's, SD of its logarithm")
SLIDE = (Figure(18.0, "mm", ASSUMED), Figure(28.0, "mm", ASSUMED))
PUSH = (Figure(35.0, "N", ASSUMED), Figure(75.0, "N", ASSUMED))
KEPT = (Figure(0.2, "1", ASSUMED), Figure(0.6, "1", ASSUMED))
"""Slide-in, push from above, and the share of the drag that a shake leaves: uniform between."""

HAIR = Foam(
    key="hair",
    strain=(0.0, 0.3, 0.5, 0.65, 0.75, 0.85, 0.92),
    stress_kpa=(0.0, 0.05, 0.15, 0.4, 1.0, 4.0, 20.0),
    beyond_kpa=800.0,
    source=ASSUMED,
    scatter=0.0,
)
"""Hair as a foam: most of its height is gone at a twentieth of the pressure of a snug pad."""

BARE_ZONES = (Zone.FRONT, Zone.JAW_LEFT, Zone.JAW_RIGHT)
WAVES = 96
_QUARTER_MM = 75.0


@dataclass(frozen=True)
class Bumps:
    """A smooth random field over space: what a head has beyond its smooth surface.

    Parameters
    ----------
    waves, phases, heights
        Random waves, shapes (w, 3) [1/mm], (w,) [rad], (w,) [mm].
    left_mm, skew_mm
        Left fuller than right, and left front with right rear, at 75 mm [mm].

    Notes
    -----
    f(x) = sum_j h_j cos(k_j . x + p_j) with k_j normal of SD 1 / L has the correlation
    exp(-|x - y|^2 / (2 L^2)) over many waves. It is one field, whatever shell is put on.
    """

    waves: Floats
    phases: Floats
    heights: Floats
    left_mm: float
    skew_mm: float

    def at(self, points: Floats) -> Floats:
        """Height at points (s, 3), shape (s,) [mm]."""
        field = np.cos(points @ self.waves.T + self.phases) @ self.heights
        x, y = points[:, 0] / _QUARTER_MM, points[:, 1] / _QUARTER_MM
        return np.asarray(field + self.left_mm * y + self.skew_mm * x * y)


def draw_bumps(rng: np.random.Generator, size: float = 1.0) -> Bumps:
    """The bumps of one head, all of them so many times as large as assumed."""
    return Bumps(
        waves=rng.standard_normal((WAVES, 3)) / BUMP_LENGTH.value,
        phases=rng.uniform(0.0, 2.0 * np.pi, WAVES),
        heights=rng.standard_normal(WAVES) * size * BUMPS.value * np.sqrt(2.0 / WAVES),
        left_mm=rng.normal(0.0, LEFT_RIGHT.value) * size,
        skew_mm=rng.normal(0.0, SKEW.value) * size,
    )


@dataclass(frozen=True)
class TrueHead:
    """One head with its hair, and the helmet's and the hands' accidents on the day.

    Parameters
    ----------
    measures
        Its ten measures, in the order of MEASURES, shape (10,) [mm].
    surface
        Its smooth surface as an ovoid's row, shape (14,).
    brow_mm
        Height of the eyebrows [mm].
    bumps
        What it has beyond.
    hair_mm
        Free thickness of its hair, a whole number [mm].
    foam, thickness_mm
        Each zone's pad over its law [1] and beyond its label [mm], shape (8,).
    friction, pull, grip, slide_mm, push_n, kept
        Of this try-on.
    """

    measures: Floats
    surface: Floats
    brow_mm: float
    bumps: Bumps
    hair_mm: int
    foam: Floats
    thickness_mm: Floats
    friction: float
    pull: float
    grip: float
    slide_mm: float
    push_n: float
    kept: float


def draw_truth(measures: Floats, rng: np.random.Generator, dials: Dials = AS_ASSUMED) -> TrueHead:
    """A head with those measures, everything else drawn; its bumps as large as the dials say."""
    surface, brow = own_surface(measures, rng)
    zones = len(ZONES)
    return TrueHead(
        measures=measures,
        surface=surface,
        brow_mm=brow,
        bumps=draw_bumps(rng, dials.bumps),
        hair_mm=round(rng.uniform(0.0, HAIR_MOST.value)),
        foam=np.exp(rng.standard_normal(zones) * FOAM_SCATTER.value),
        thickness_mm=rng.standard_normal(zones) * THICKNESS.value,
        friction=_between(FRICTION, rng),
        pull=float(np.exp(rng.standard_normal() * PULL.value)),
        grip=float(np.exp(rng.standard_normal() * GRIP.value)),
        slide_mm=_between(SLIDE, rng),
        push_n=_between(PUSH, rng),
        kept=_between(KEPT, rng),
    )


def _between(limits: tuple[Figure, Figure], rng: np.random.Generator) -> float:
    return float(rng.uniform(limits[0].value, limits[1].value))


def own_surface(measures: Floats, rng: np.random.Generator) -> tuple[Floats, float]:
    """A surface with those measures but its own dome, nape and forehead; and its brow's height.

    Notes
    -----
    The dome's height is such that the top lies where it was measured: with q = m / (m - 1),
    h^q = (a sin p)^q + (c cos p)^q, where h is the rise, p the pitch, a half the length.
    """
    shapes = head_shapes(HeadDraws(measures[None]))
    row = shapes.ovoids.rows[0].copy()
    place = {name: index for index, name in enumerate(COLUMNS)}
    half, sine, cosine = (row[place[n]] for n in ("half_length", "pitch_sine", "pitch_cosine"))
    before = row[place["dome_exponent"]]
    rise = _support(half * sine, row[place["dome_height"]] * cosine, before)
    after = max(rng.normal(DOME.value, DOME.spread or 0.0), 1.9)
    dual = after / (after - 1.0)
    row[place["dome_exponent"]] = after
    row[place["dome_height"]] = (rise**dual - abs(half * sine) ** dual) ** (1.0 / dual) / cosine
    row[place["rear_taper"]] = max(rng.normal(REAR.value, REAR.spread or 0.0), 1.1)
    row[place["front_slope"]] = rng.normal(LEAN.value, LEAN.spread or 0.0)
    return row, float(shapes.brow_mm[0])


def _support(along: float, up: float, exponent: float) -> float:
    dual = exponent / (exponent - 1.0)
    return float((abs(along) ** dual + abs(up) ** dual) ** (1.0 / dual))


def laws_with_hair(sheet: ModelSheet) -> tuple[PadLaws, ...]:
    """The sheet's pad laws under 0, 1, ... mm of hair, where heads have hair."""
    bare = pad_laws(sheet)
    smooth = np.array([zone in BARE_ZONES for zone in ZONES])
    found = [bare]
    for hair in range(1, round(HAIR_MOST.value) + 1):
        over = pad_laws(sheet, over=((HAIR, float(hair)),))
        found.append(
            PadLaws(
                np.where(smooth[:, None], bare.thickness_mm, over.thickness_mm),
                np.where(smooth[:, None, None], bare.knots, over.knots),
                np.where(smooth[:, None, None], bare.weights, over.weights),
            )
        )
    return tuple(found)
