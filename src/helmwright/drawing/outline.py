"""Where a plane cuts the head, the shell and the pads."""

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.foam import Foam
from helmwright.catalogue.sheet import PadKind
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.drawing.plane import Plane
from helmwright.fit.middle import MiddleRest
from helmwright.fit.seating import pad_layers
from helmwright.geometry.kernels.rays import MISSED_MM
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]

SHELL_THICKNESS = Figure(5.0, "mm", ASSUMED, note="how thick a shell is drawn; no sheet says it")
LEAST_RIM = Figure(
    10.0, "mm", ASSUMED, note="least that a pad is drawn to reach beyond its contacts, both sides"
)
POINTS_PER_RADIAN, LEAST_POINTS = 40.0, 15
"""Points along a pad: about 2.5 mm apart."""

MOST_STRAIN = 0.9
"""A layer is drawn at least a tenth as thick as it is free [1]."""


class Fill(StrEnum):
    """How a layer of a pad is drawn."""

    STIFF = "stiff"
    AIR = "air"
    SOFT = "soft"


@dataclass(frozen=True, eq=False)
class PadCut:
    """A pad as the plane shows it; all points right and up, from one end of the pad to the other.

    Parameters
    ----------
    zone
        Which zone.
    back
        Against the shell, shape (n, 2) [mm].
    inward
        The way the pad faces, shape (n, 2) [1].
    free_mm
        Its thickness before it is pressed [mm].
    layers
        Its layers from the back on, each with the depth where it ends as it is pressed, shape
        (n,) [mm]; the last ends at the face.
    skin_mm
        From the back to the head, shape (n,) [mm].
    worn_mm
        Thickness of what is worn between pad and head, before it is pressed [mm].
    """

    zone: Zone
    back: Floats
    inward: Floats
    free_mm: float
    layers: tuple[tuple[Fill, Floats], ...]
    skin_mm: Floats
    worn_mm: float

    def at(self, depth_mm: Floats | float) -> Floats:
        """Points so far from the back, shape (n, 2) [mm]."""
        return self.back + np.asarray(depth_mm).reshape(-1, 1) * self.inward

    @property
    def face_mm(self) -> Floats:
        """From the back to the face as it is pressed, shape (n,) [mm]."""
        return self.layers[-1][1]

    @property
    def clear_mm(self) -> Floats:
        """From the face, or from what is worn, to the head; 0 where it touches, (n,) [mm]."""
        return np.maximum(self.skin_mm - self.free_mm - self.worn_mm, 0.0)

    @property
    def touches(self) -> npt.NDArray[np.bool_]:
        """Where the pad meets the head or what is worn on it, shape (n,)."""
        return np.asarray(self.clear_mm <= 0.0)

    def part(self, kept: npt.NDArray[np.bool_]) -> "PadCut":
        """A stretch of the pad."""
        return replace(
            self,
            back=self.back[kept],
            inward=self.inward[kept],
            layers=tuple((fill, depth[kept]) for fill, depth in self.layers),
            skin_mm=self.skin_mm[kept],
        )


def head_cut(rest: MiddleRest, plane: Plane, angles: Floats) -> Floats:
    """Outline of the head at angles from the plane's origin, shape (n, 2) [mm]."""
    found = rest.head.ovoids.surface_points(0, plane.origin, plane.directions(angles))
    return plane.flat(found)


def shell_cut(rest: MiddleRest, plane: Plane, angles: Floats) -> Floats:
    """Bare inside of the shell at angles from the plane's origin, shape (n, 2) [mm]."""
    return plane.flat(_shell_points(rest, plane, angles))


def _shell_points(rest: MiddleRest, plane: Plane, angles: Floats) -> Floats:
    origin = rest.drawn(plane.origin[None, :])[0]
    directions = plane.directions(angles) @ rest.turn
    return rest.placed(rest.shell.surface_points(0, origin, directions))


def inward_of(points: Floats) -> Floats:
    """Unit vectors square to a curve that runs counterclockwise, toward its inside, (n, 2)."""
    along = np.gradient(points, axis=0)
    turned = np.column_stack([-along[:, 1], along[:, 0]])
    return np.asarray(turned / np.linalg.norm(turned, axis=1, keepdims=True))


def pad_span(rest: MiddleRest, plane: Plane, zone: Zone) -> tuple[float, float]:
    """Angles [rad] between which a pad is drawn, the lower first.

    Notes
    -----
    A sheet gives a pad's contacts and its area, not its outline. It is drawn as a rectangle that
    reaches the same distance beyond its outermost contacts on all sides and has that area:
    (a + s)(b + s) = A, a and b being the spans of the contacts in the plane and across it.
    """
    contacts = rest.contacts(zone)
    angles = np.sort(plane.angles(contacts))
    if np.ptp(angles) > np.pi:  # across the left, where angles start anew
        angles = np.sort(np.mod(angles, 2.0 * np.pi))
    radius = float(np.linalg.norm(plane.flat(contacts - plane.origin), axis=1).mean())
    within = radius * float(angles[-1] - angles[0])
    across = float(np.ptp(contacts @ plane.normal))
    area = 100.0 * rest.sheet.pad(zone).area_cm2
    both = within + across
    beyond = 0.5 * (np.sqrt(max(both**2 - 4.0 * (within * across - area), 0.0)) - both)
    rim = 0.5 * max(beyond, LEAST_RIM.value) / radius
    return float(angles[0] - rim), float(angles[-1] + rim)


def pad_cut(rest: MiddleRest, plane: Plane, zone: Zone) -> PadCut:
    """A pad as the plane shows it, pressed as far as the head has it.

    Notes
    -----
    From each point of the shell the pad reaches inward until its free thickness or the head ends
    it. What it gives is shared by its layers as their curves have it under the same pressure.
    """
    low, high = pad_span(rest, plane, zone)
    count = max(round(POINTS_PER_RADIAN * (high - low)), LEAST_POINTS)
    angles = np.linspace(low, high, count)
    points = _shell_points(rest, plane, angles)
    back = plane.flat(points)
    inward = inward_of(back)
    space = inward[:, :1] * plane.right + inward[:, 1:] * plane.up
    gap = rest.head.ovoids.clearances(0, points, space)
    return _pressed(rest, zone, back, inward, gap)


def _pressed(rest: MiddleRest, zone: Zone, back: Floats, inward: Floats, gap: Floats) -> PadCut:
    """The pad between shell and head, a gap apart."""
    place = ZONES.index(zone)
    kind, index = rest.sheet.pads[place], rest.build.pads[place]
    free = kind.thicknesses_mm[index]
    worn = float(rest.laws.thickness_mm[place, index]) - free
    skin = np.where(gap >= MISSED_MM, free + worn + 1.0, gap)
    pressure = rest.laws.law(zone, index).pressure(np.maximum(free + worn - skin, 0.0))
    stack = [
        (_fill(foam, kind), thickness * (1.0 - np.minimum(foam.strain_at(pressure), MOST_STRAIN)))
        for foam, thickness in reversed(pad_layers(kind, free))
    ]
    depth = np.cumsum([part for _, part in stack], axis=0)
    # What a law says of its layers and the geometry say the same, but for rounding.
    room = np.minimum(skin, free) if worn <= 0.0 else np.minimum(skin, depth[-1])
    shrunk = depth * (room / depth[-1])
    layers = tuple((fill, each) for (fill, _), each in zip(stack, shrunk, strict=True))
    return PadCut(zone, back, inward, free, layers, skin, max(worn, 0.0))


def _fill(foam: Foam, kind: PadKind) -> Fill:
    """What a layer of a pad is."""
    if foam.key == kind.fit_foam.key:
        return Fill.SOFT
    return Fill.STIFF if foam.key == kind.energy_foam.key else Fill.AIR


def cut_off(pad: PadCut, plane: Plane, least: float) -> PadCut:
    """The part of a pad above an angle at the plane's origin: none is drawn past a shell's edge."""
    away = pad.back - plane.flat(plane.origin[None, :])
    kept = np.arctan2(away[:, 1], away[:, 0]) >= least
    if np.all(kept) or kept.sum() < 2:
        return pad
    return pad.part(kept)
