"""The head's surface from its measures: smooth, closed, and true to the tape and the calipers."""

from dataclasses import dataclass
from typing import Protocol

import numpy as np
import numpy.typing as npt

from helmwright.geometry import Ovoids, section_exponent
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, NIOSH_2003

Floats = npt.NDArray[np.float64]

SURVEY_ABOVE_BROW = Figure(
    6.0, "mm", ASSUMED, note="the surveys' tape runs just above the brow ridges"
)
REARMOST_HEIGHT = Figure(
    25.0, "mm", ASSUMED, note="height of the head's most rearward point above the ear openings"
)
DOME_EXPONENT = Figure(
    2.25,
    "1",
    NIOSH_2003,
    note="rise of the dome; chosen so that the arc from tragion over the crown to tragion comes "
    "out at the survey's mean",
)
FRONT_SLOPE = Figure(
    0.22,
    "1",
    ASSUMED,
    note="lean of the forehead; chosen so that the trade's tape reads as much less than the "
    "surveys' as real surfaces show",
)
JAW_POINT_FORWARD = Figure(35.0, "mm", ASSUMED, note="jaw pads' middle ahead of the ear openings")
JAW_POINT_BELOW = Figure(35.0, "mm", ASSUMED, note="jaw pads' middle below the ear openings")
CHIN_BELOW = Figure(105.0, "mm", ASSUMED, note="where the surface closes, below the ear openings")
FRONT_TAPER = Figure(3.5, "1", ASSUMED, note="the face falls nearly straight")
REAR_TAPER = Figure(1.45, "1", ASSUMED, note="the back of the head runs in toward the neck")

TRADE_TAPE_ABOVE_BROW = Figure(
    25.4, "mm", ASSUMED, note="the trade's tape runs an inch above the brow"
)


class Measured(Protocol):
    """Anything that gives one measure's values, shape (n,) [mm], by its key."""

    def of(self, key: str) -> Floats:
        """Values of one measure, shape (n,) [mm]."""


@dataclass(frozen=True)
class HeadShapes:
    """Surfaces of n heads.

    Parameters
    ----------
    ovoids
        The surfaces in the head frame: origin midway between the ear openings, x forward, y to
        the wearer's left, z up, the Frankfurt plane level [mm].
    brow_mm
        Height of the eyebrows above the origin, shape (n,) [mm].
    """

    ovoids: Ovoids
    brow_mm: Floats

    def __len__(self) -> int:
        return len(self.ovoids)

    def chosen(self, which: npt.NDArray[np.intp]) -> "HeadShapes":
        """Some of the heads."""
        return HeadShapes(Ovoids(self.ovoids.rows[which]), self.brow_mm[which])

    def taking(self, other: "HeadShapes", taken: npt.NDArray[np.bool_]) -> "HeadShapes":
        """The other's heads where taken, shape (n,)."""
        rows = np.where(taken[:, None], other.ovoids.rows, self.ovoids.rows)
        return HeadShapes(Ovoids(rows), np.where(taken, other.brow_mm, self.brow_mm))

    def survey_tape(self, index: int) -> float:
        """Circumference of one head as the surveys take it [mm]."""
        front = self.brow_mm[index] + SURVEY_ABOVE_BROW.value
        return self._tape(index, front)

    def trade_tape(self, index: int) -> float:
        """Circumference of one head as the trade takes it, an inch above the brow [mm]."""
        return self._tape(index, self.brow_mm[index] + TRADE_TAPE_ABOVE_BROW.value)

    def _tape(self, index: int, front_height: float) -> float:
        half = self.ovoids.column("half_length")[index]
        rear = np.array([-half, 0.0, REARMOST_HEIGHT.value])
        forward = np.array([2.0 * half, 0.0, front_height - rear[2]])
        forward /= np.linalg.norm(forward)
        origin = rear + half * forward
        return self.ovoids.girth(index, origin, forward)


def head_shapes(heads: Measured) -> HeadShapes:
    """Surfaces that reproduce every head's circumference, length, breadth, heights and jaw.

    Parameters
    ----------
    heads
        Heads by measure; circumference, length, breadth, the two heights and the width at the
        jaw pads are used.

    Returns
    -------
    HeadShapes

    Notes
    -----
    The section at the survey's plane is the superellipse whose perimeter is the circumference.
    That plane rises from the most rearward point to just above the brow. The dome's height is
    such that the surface's highest point lies at tragion-to-top:
    h^q = (a sin p)^q + (c cos p)^q with q = m / (m - 1), the support function of the dome in the
    middle plane pitched by p. The sides narrow so that the width at the jaw pads is met.
    """
    top, brow = heads.of("tragion_to_top"), heads.of("tragion_to_top") - heads.of("brow_to_top")
    a, b = heads.of("head_length") / 2.0, heads.of("head_breadth") / 2.0
    n = section_exponent(heads.of("head_circumference"), 2.0 * a, 2.0 * b)
    front = brow + SURVEY_ABOVE_BROW.value
    pitch = np.arcsin(np.clip((front - REARMOST_HEIGHT.value) / (2.0 * a), -0.5, 0.5))
    middle = 0.5 * (front + REARMOST_HEIGHT.value)
    m = np.full_like(a, DOME_EXPONENT.value)
    depth = (middle + CHIN_BELOW.value) / np.cos(pitch)
    rows = np.column_stack(
        [
            a, b, n, _dome_height(top - middle, a, pitch, m), m, np.zeros_like(a), middle,
            np.sin(pitch), np.cos(pitch), depth, np.full_like(a, FRONT_TAPER.value),
            np.full_like(a, REAR_TAPER.value),
            _side_taper(heads.of("jaw_pad_width") / 2.0, a, b, n, middle, pitch, depth),
            np.full_like(a, FRONT_SLOPE.value),
        ]
    )  # fmt: skip
    return HeadShapes(Ovoids(rows), brow)


def _dome_height(rise: Floats, a: Floats, pitch: Floats, m: Floats) -> Floats:
    dual = m / (m - 1.0)
    left = np.maximum(rise, 40.0) ** dual - np.abs(a * np.sin(pitch)) ** dual
    return np.asarray(left ** (1.0 / dual) / np.cos(pitch))


def _side_taper(
    half_jaw: Floats, a: Floats, b: Floats, n: Floats, middle: Floats, pitch: Floats, depth: Floats
) -> Floats:
    x, z = JAW_POINT_FORWARD.value, -JAW_POINT_BELOW.value - middle
    u = np.cos(pitch) * x + np.sin(pitch) * z
    fall = (np.sin(pitch) * x - np.cos(pitch) * z) / depth
    along = np.sqrt(1.0 - fall**FRONT_TAPER.value)
    shape = (1.0 - np.clip(np.abs(u) / (a * along), 0.0, 0.95) ** n) ** (1.0 / n)
    left = np.clip(half_jaw / (b * shape), 0.55, 0.9995)
    return np.asarray(np.maximum(np.log1p(-(left**2)) / np.log(fall), 1.02))
