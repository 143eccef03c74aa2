"""What a drawing is made of: lines, areas and labels, in millimeters of the thing drawn."""

from dataclasses import dataclass
from enum import Enum, StrEnum
from functools import cached_property

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.zone import Zone

Floats = npt.NDArray[np.float64]


class Ink(StrEnum):
    """What a line stands for; each form of the drawing gives it a weight."""

    SHELL = "shell"
    HEAD = "head"
    BROW = "brow"
    PAD = "pad"
    LAYER = "layer"
    BEHIND = "behind"
    FREE = "free"
    HATCH = "hatch"
    DOT = "dot"
    WORN = "worn"
    PRESSURE = "pressure"
    CLEARANCE = "clearance"
    PLANE = "plane"
    ORIGIN = "origin"


class Size(Enum):
    """How large a label is."""

    ZONE = "zone"
    THICKNESS = "thickness"
    WORD = "word"


@dataclass(frozen=True, eq=False)
class Line:
    """One stroke of the pen.

    Parameters
    ----------
    ink
        What it stands for.
    points
        Right and up, shape (n, 2) [mm].
    closed
        Whether the last point is joined to the first.
    """

    ink: Ink
    points: Floats
    closed: bool = False

    def __post_init__(self) -> None:
        """Refuse what cannot be drawn."""
        if self.points.ndim != 2 or self.points.shape[1] != 2 or len(self.points) < 1:
            raise ValueError(f"a line needs points of shape (n, 2), not {self.points.shape}")
        if not np.isfinite(self.points).all():
            raise ValueError(f"a line of {self.ink} needs finite points [mm]")


@dataclass(frozen=True)
class Label:
    """A word or a number beside what it tells of.

    Parameters
    ----------
    text
        What is written; a fraction such as "1 1/8" is built, numerator over denominator.
    at
        Its middle, right and up [mm].
    size
        How large.
    zone
        The pad that it tells of; None for anything else.
    """

    text: str
    at: tuple[float, float]
    size: Size
    zone: Zone | None = None


@dataclass(frozen=True, eq=False)
class Section:
    """One cut through head and helmet.

    Parameters
    ----------
    name
        Which cut: "side", "level" or "jaw".
    caption
        A few words to print below it.
    told
        What it shows, for whoever cannot see it.
    shell
        The cut shell as an outline of its own, shape (n, 2) [mm].
    lines, labels
        All the rest.
    """

    name: str
    caption: str
    told: str
    shell: Floats
    lines: tuple[Line, ...]
    labels: tuple[Label, ...]

    @property
    def low(self) -> Floats:
        """Least right and up of anything drawn, labels included, shape (2,) [mm]."""
        return np.asarray(self._extent[0])

    @property
    def high(self) -> Floats:
        """Largest right and up, likewise [mm]."""
        return np.asarray(self._extent[1])

    def of(self, ink: Ink) -> tuple[Line, ...]:
        """The lines that stand for one thing."""
        return tuple(line for line in self.lines if line.ink is ink)

    @cached_property
    def _extent(self) -> Floats:
        around = ROOM_MM * np.array([[-1.0, -1.0], [1.0, 1.0]])
        labels = [np.array(label.at) + around for label in self.labels]
        drawn = np.concatenate([self.shell, *(line.points for line in self.lines), *labels])
        return np.stack([drawn.min(axis=0), drawn.max(axis=0)])


ROOM_MM = 9.0
"""Half of what a label takes of the drawing, at least [mm]."""
