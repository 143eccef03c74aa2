"""Where a shell's pads bear: contact points on its bare inside, and the pads' laws."""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.foam import Foam
from helmwright.catalogue.hollow import BOTTOM_MM, FRONT_TAPER, JAW_FORWARD_MM
from helmwright.catalogue.sheet import ModelSheet, PadKind, Shell, ShellForm
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.law import HINGES, NO_LAW, PadLaw, fit_law, series_stroke
from helmwright.geometry import Ovoids
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

DRAG_PER_AREA = Figure(
    0.12, "N/mm per cm2", ASSUMED, note="tangential stiffness of pad, hair and scalp together"
)


@dataclass(frozen=True)
class Seating:
    """The contacts of one shell, in the head frame when the ear openings meet the ears.

    Parameters
    ----------
    points
        On the bare inside of the shell, shape (s, 3) [mm].
    inward
        The way each faces, toward the head, shape (s, 3) [1].
    zones
        Index into ZONES of each contact, shape (s,).
    areas_cm2
        Area of each contact, shape (s,) [cm2].
    front_edge
        Middle of the front edge, shape (3,) [mm].
    """

    points: Floats
    inward: Floats
    zones: Integers
    areas_cm2: Floats
    front_edge: Floats

    @property
    def drag_n_per_mm(self) -> Floats:
        """Tangential stiffness of each contact, shape (s,) [N/mm]."""
        return self.areas_cm2 * DRAG_PER_AREA.value

    @cached_property
    def area_shares(self) -> Floats:
        """Share of each contact in the area of each zone, shape (s, 8) [1]."""
        shares = np.zeros((self.zones.size, len(ZONES)))
        shares[np.arange(self.zones.size), self.zones] = self.areas_cm2
        return np.asarray(shares / np.maximum(shares.sum(axis=0), 1e-9))


def shell_surface(shell: Shell, form: ShellForm) -> Ovoids:
    """The bare inside of a shell as an ovoid that meets its caliper numbers."""
    half_jaw, half_breadth = shell.jaw_width_mm / 2.0, shell.inside_breadth_mm / 2.0
    half_length, depth = shell.inside_length_mm / 2.0, form.level_mm + BOTTOM_MM
    fall = (form.level_mm - form.jaw_height_mm) / depth
    along = np.sqrt(1.0 - fall**FRONT_TAPER)
    forward = JAW_FORWARD_MM / (half_length * along)
    shape = (1.0 - forward**form.section_exponent) ** (1.0 / form.section_exponent)
    left = np.clip(half_jaw / (half_breadth * shape), 0.55, 0.9995)
    row = [
        half_length, half_breadth, form.section_exponent, shell.crown_mm - form.level_mm,
        form.dome_exponent, 0.0, form.level_mm, 0.0, 1.0, depth, FRONT_TAPER,
        form.rear_taper, np.log1p(-(left**2)) / np.log(fall), form.front_slope,
    ]  # fmt: skip
    return Ovoids(np.array([row]))


def seat_shell(shell: Shell, sheet: ModelSheet) -> Seating:
    """The contacts of one shell of a sheet."""
    surface = shell_surface(shell, sheet.form)
    middle = np.array([0.0, 0.0, sheet.form.level_mm])
    points, inward, zones, areas = [], [], [], []
    for pad in sheet.pads:
        for direction in _directions(pad):
            point = surface.ray(0, middle, direction)
            points.append(point)
            inward.append(-surface.outward_normal(0, point))
            zones.append(ZONES.index(pad.zone))
            areas.append(pad.area_cm2 / len(pad.seats))
    edge_ray = np.array([1.0, 0.0, 0.0])
    edge = surface.ray(0, np.array([0.0, 0.0, shell.front_edge_mm]), edge_ray)
    return Seating(
        np.array(points), np.array(inward), np.array(zones), np.array(areas), front_edge=edge
    )


def _directions(pad: PadKind) -> Floats:
    azimuth = np.radians([seat.azimuth_deg for seat in pad.seats])
    elevation = np.radians([seat.elevation_deg for seat in pad.seats])
    flat = np.cos(elevation)
    return np.column_stack([flat * np.cos(azimuth), flat * np.sin(azimuth), np.sin(elevation)])


@dataclass(frozen=True)
class PadLaws:
    """The laws of every pad of a sheet, as arrays for the kernels.

    Parameters
    ----------
    thickness_mm
        Shape (8, t), padded by the thickest of each zone [mm].
    knots, weights
        Shape (8, t, HINGES) [mm], [kPa/mm2].
    collapse_mm
        What of the covering over the crown gives way as soon as the helmet rests on it [mm].
    """

    thickness_mm: Floats
    knots: Floats
    weights: Floats
    collapse_mm: float = 0.0

    def law(self, zone: Zone, index: int) -> PadLaw:
        """The law of one pad."""
        place = ZONES.index(zone)
        return PadLaw(self.knots[place, index], self.weights[place, index])

    @cached_property
    def _strokes(self) -> dict[tuple[Zone, int, float], float]:
        return {}

    def stroke(self, zone: Zone, index: int, pressure_kpa: float) -> float:
        """The stroke [mm] at which one pad presses so hard [kPa], sought once."""
        asked = (zone, index, pressure_kpa)
        if asked not in self._strokes:
            self._strokes[asked] = self.law(zone, index).stroke(pressure_kpa)
        return self._strokes[asked]


Layers = tuple[tuple[Foam, float], ...]

_REST_KPA = 2.5


@lru_cache(maxsize=24)
def pad_laws(
    sheet: ModelSheet, *, over: Layers = (), zones_over: tuple[Layers, ...] = ()
) -> PadLaws:
    """The laws of every pad of a sheet.

    Parameters
    ----------
    sheet
        The model.
    over
        Layers between pad and scalp, such as hair: foam and free thickness [mm]. The jaw pads
        bear on bare cheeks.
    zones_over
        The same zone by zone, in the order of ZONES, instead.
    """
    jaws = (Zone.JAW_LEFT, Zone.JAW_RIGHT)
    covers = zones_over or tuple(() if zone in jaws else over for zone in ZONES)
    most = max(len(pad.thicknesses_mm) for pad in sheet.pads)
    thickness = np.empty((len(ZONES), most))
    knots, weights = np.empty((2, len(ZONES), most, HINGES))
    for z, pad in enumerate(sheet.pads):
        for t in range(most):
            index = min(t, len(pad.thicknesses_mm) - 1)
            layers = (*pad_layers(pad, pad.thicknesses_mm[index]), *covers[z])
            law = fit_law(layers, bends_kpa=bends_kpa(pad)) if pad.seats else NO_LAW
            thickness[z, t] = sum(part for _, part in layers)
            knots[z, t], weights[z, t] = law.knots, law.weights
    collapse = float(series_stroke(covers[ZONES.index(Zone.CROWN)], _REST_KPA))
    return PadLaws(thickness, knots, weights, collapse)


def pad_layers(pad: PadKind, thickness_mm: float) -> tuple[tuple[Foam, float], ...]:
    """Foam and free thickness [mm] of a pad's layers, next to the head first.

    Notes
    -----
    An air cell is a layer that keeps its pressure over all its reach: so it is while a fitter
    fills it until it feels snug. `thickness_mm` is then that of the pad with the cell full.
    """
    air = ((pad.cell.kept_at_its_pressure(), pad.cell.reach_mm),) if pad.cell else ()
    foam_mm = thickness_mm - sum(height for _, height in air)
    soft = min(pad.fit_layer_mm, foam_mm)
    parts = ((pad.fit_foam, soft), *air, (pad.energy_foam, foam_mm - soft))
    return tuple((foam, height) for foam, height in parts if height > 0)


def bends_kpa(pad: PadKind) -> tuple[float, ...]:
    """Pressures at which an air cell begins and ends to give [kPa]; none for a foam pad."""
    return pad.cell.bends_kpa() if pad.cell else ()
