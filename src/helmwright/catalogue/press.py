"""The press test: what thicknesses under known weights say of a pad's soft layer."""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
from scipy.special import gammaincc

from helmwright.catalogue.foam import Foam
from helmwright.catalogue.sheet import PadKind, PressFinding
from helmwright.catalogue.zone import Zone
from helmwright.sources import Figure, Source, Standing
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]

STANDARD_GRAVITY = 9.80665
KPA_PER_N_CM2 = 10.0

READING_ERROR = Figure(
    0.4, "mm", ASSUMED, note="error of a thickness read under the plate with a caliper or rule, SD"
)
SCALE_ERROR = Figure(
    0.03, "1", ASSUMED, note="error of a kitchen scale read while a hand presses, SD of its share"
)
PLATE_ERROR = Figure(
    0.03, "1", ASSUMED, note="error of the area that the plate bears on, SD of its share"
)
THICKNESS_ERROR = Figure(
    0.8, "mm", ASSUMED, note="how far a pad's free thickness is off what its bag says, SD"
)
PIECE_SCATTER = Figure(
    0.08, "1", ASSUMED, note="stiffness from piece to piece of one kind of pad, SD of its logarithm"
)
DOUBT_OF_ASSUMED = Figure(
    0.4, "1", ASSUMED, note="how far off an assumed foam curve may be, SD of its logarithm"
)
DOUBT_OF_PUBLISHED = Figure(
    0.1, "1", ASSUMED, note="how far a program's foam may be from a published one, likewise"
)

MOST_FACTOR = 4.0
"""A foam more than so many times stiffer or softer than its sheet's is taken for a slip [1]."""

TELLING_KPA = (0.3, 40.0)
"""Pressures between which a thickness says something of a soft foam [kPa]."""

UNLIKELY = 0.001
"""Chance of so large a misfit below which points are said to lie off any curve of the foam."""

_DOUBTED = (Standing.ASSUMED, Standing.FROM_MEMORY, Standing.INVENTED, Standing.COMMON_PRACTICE)
_NINETEEN_OF_20 = 1.959963984540054
_STEPS, _LAYERS = 321, 41


@dataclass(frozen=True, slots=True)
class PressPoint:
    """One reading: what the scale shows [kg], and how thick the pad then is [mm]."""

    weight_kg: float
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class Press:
    """One pad pressed on a kitchen scale.

    Parameters
    ----------
    pad, index
        The kind of pad, and which of its thicknesses was pressed.
    plate_cm2
        Area of the plate [cm2]; where the pad is smaller, the pad's counts.
    points
        The readings.
    reading_error_mm
        Error of one thickness, SD [mm].
    fit_layer_error_mm
        How well the sheet knows the fit layer's thickness, SD [mm]; 0 for exactly.
    """

    pad: PadKind
    index: int
    plate_cm2: float
    points: tuple[PressPoint, ...]
    reading_error_mm: float = READING_ERROR.value
    fit_layer_error_mm: float = 0.0

    @property
    def free_mm(self) -> float:
        """The pad's thickness by its bag [mm]."""
        return self.pad.thicknesses_mm[self.index]

    @property
    def pressures_kpa(self) -> Floats:
        """Mean pressure under the plate at each point [kPa]."""
        area = min(self.plate_cm2, self.pad.area_cm2)
        weights = np.array([point.weight_kg for point in self.points])
        return np.asarray(weights * STANDARD_GRAVITY / area * KPA_PER_N_CM2)

    @property
    def thicknesses_mm(self) -> Floats:
        """The readings [mm]."""
        return np.array([point.thickness_mm for point in self.points])


def prior_sd(foam: Foam) -> float:
    """How far the sheet's curve may be off for a pad, SD of the logarithm of its stress [1]."""
    doubted = foam.source.standing in _DOUBTED
    doubt = DOUBT_OF_ASSUMED if doubted else DOUBT_OF_PUBLISHED
    return float(np.hypot(foam.scatter, doubt.value))


def likely_factors(sd: float) -> tuple[float, float]:
    """Between which factors a foam lies in 19 of 20, from how far its curve may be off [1]."""
    return float(np.exp(-_NINETEEN_OF_20 * sd)), float(np.exp(_NINETEEN_OF_20 * sd))


def is_far(finding: PressFinding) -> bool:
    """Whether a foam came out further from the sheet's than was held likely before."""
    low, high = likely_factors(finding.prior)
    return not low <= finding.factor <= high


def least_give_mm(press: Press) -> float:
    """What the pad gives from the lightest to the heaviest point, were its foam stiff [mm].

    As stiff as `likely_factors` has it at the most, with the sheet's fit layer.
    """
    _, stiff = likely_factors(prior_sd(press.pad.fit_foam))
    layer = np.array([press.pad.fit_layer_mm])
    return float(np.ptp(strokes_mm(press, np.array([stiff]), layer, press.pressures_kpa)))


def strokes_mm(press: Press, factors: Floats, layers_mm: Floats, pressures_kpa: Floats) -> Floats:
    """Squeeze of the pressed pad by factor, layer and pressure, shape (f, l, p) [mm].

    Notes
    -----
    As `window.pad_stroke_mm`, with the fit foam's stress alone multiplied by the factor.
    """
    soft = press.pad.fit_foam.strain_at(pressures_kpa[None, :] / factors[:, None])
    stiff = press.pad.energy_foam.strain_at(pressures_kpa)
    layer = np.minimum(layers_mm, press.free_mm)[None, :, None]
    return np.asarray(layer * soft[:, None, :] + (press.free_mm - layer) * stiff[None, None, :])


def press_finding(press: Press, zones: tuple[Zone, ...] = ()) -> PressFinding:
    """What a press test says of the fit foam, and of the fit layer where that is in doubt.

    Parameters
    ----------
    press
        The test.
    zones
        The zones whose pads it speaks for; the pressed one's where empty.

    Notes
    -----
    A thickness is ``t = T - s(p; k, h) + e``: T the pad's own free thickness, normal about the
    bag's; s the squeeze with the fit foam's stress multiplied by k and a fit layer h; e normal
    with the reading's variance and that of the scale, ``(ds/dln p)^2 SCALE_ERROR^2``. ln k is
    normal about 0 a priori, as wide as the sheet's curve is doubted; h is normal about the
    sheet's. The posterior is summed on a grid of ln k and h, T being integrated out in closed
    form. An error of the plate's area moves all pressures alike and is the same as one of k: its
    variance is added. The energy layer keeps its curve. Creep, hysteresis and what the plate's
    edge does to the foam around it are ignored: read a few seconds after pressing.
    """
    sd = prior_sd(press.pad.fit_foam)
    logs = np.linspace(-1.0, 1.0, _STEPS) * np.log(1.5 * MOST_FACTOR)
    layers = _layers(press)
    strokes = strokes_mm(press, np.exp(logs), layers, press.pressures_kpa)
    score, misfit = _log_likelihood(press, logs, layers, strokes)
    score = score - 0.5 * (logs[:, None] / sd) ** 2
    if press.fit_layer_error_mm > 0:
        score = score - 0.5 * ((layers - press.pad.fit_layer_mm) / press.fit_layer_error_mm) ** 2
    weight = np.exp(score - score.max())
    weight = weight / weight.sum()
    over_k, over_h = weight.sum(axis=1), weight.sum(axis=0)
    mean, spread = _moments(logs, over_k)
    layer, layer_spread = _moments(layers, over_h)
    spread = float(np.hypot(spread, PLATE_ERROR.value))
    return PressFinding(
        zones=zones or (press.pad.zone,),
        pad_label=press.pad.labels[press.index],
        factor=float(np.exp(mean)),
        spread=spread,
        scatter=min(float(np.hypot(spread, np.sqrt(2.0) * PIECE_SCATTER.value)),
                    press.pad.fit_foam.scatter),
        before=press.pad.fit_foam.scatter,
        prior=sd,
        fit_layer_mm=layer,
        fit_layer_spread_mm=layer_spread,
        misfit=_tail(float(misfit.min()), len(press.points)),
    )  # fmt: skip


def _layers(press: Press) -> Floats:
    """The fit layers that are weighed [mm]."""
    error, here = press.fit_layer_error_mm, press.pad.fit_layer_mm
    if error == 0:
        return np.array([here])
    low, high = max(here - 3.0 * error, 0.5), min(here + 3.0 * error, press.free_mm)
    return np.linspace(low, max(high, low), _LAYERS)


def _log_likelihood(
    press: Press, logs: Floats, layers: Floats, strokes: Floats
) -> tuple[Floats, Floats]:
    """By factor and layer, up to a constant, and the misfit, shapes (f, l)."""
    step = 0.01
    nudged = strokes_mm(press, np.exp(logs), layers, press.pressures_kpa * np.exp(step))
    slope = (nudged - strokes) / step
    variance = press.reading_error_mm**2 + (slope * SCALE_ERROR.value) ** 2
    off = press.thicknesses_mm + strokes - press.free_mm
    weight, common = 1.0 / variance, THICKNESS_ERROR.value**2
    # A common error of all readings: the inverse of a diagonal plus a constant matrix.
    whole = weight.sum(axis=-1)
    inside = (weight * off).sum(axis=-1)
    squares = (weight * off**2).sum(axis=-1)
    misfit = squares - inside**2 * common / (1.0 + common * whole)
    spread = np.log(variance).sum(axis=-1) + np.log1p(common * whole)
    return np.asarray(-0.5 * (misfit + spread)), np.asarray(misfit)


def _moments(values: Floats, weights: Floats) -> tuple[float, float]:
    if values.size == 1:
        return float(values[0]), 0.0
    mean = float(weights @ values)
    return mean, float(np.sqrt(max(float(weights @ (values - mean) ** 2), 0.0)))


def _tail(misfit: float, points: int) -> float:
    """Chance of so large a misfit or a larger one, one parameter being fitted."""
    return float(gammaincc(0.5 * max(points - 1, 1), 0.5 * misfit))


def pressed_foam(pad: PadKind, finding: PressFinding, source: str) -> Foam:
    """The pad's fit foam as the press test has it.

    Parameters
    ----------
    pad
        A pad of the sheet.
    finding
        What the test says.
    source
        Who pressed it, and when.
    """
    foam = pad.fit_foam
    key = f"{foam.key}_pressed"
    cited = f"{foam.key}, pressed on a kitchen scale{': ' + source if source else ''}"
    record = Source(f"sheet_{key}", cited, Standing.ASSUMED, note="The curve's form is the foam's.")
    return replace(
        foam,
        key=key,
        stress_kpa=tuple(finding.factor * stress for stress in foam.stress_kpa),
        beyond_kpa=finding.factor * foam.beyond_kpa,
        scatter=finding.scatter,
        source=record,
    )


def pressed_pad(pad: PadKind, finding: PressFinding, source: str) -> PadKind:
    """A pad with what a press test says of it; the fit layer is that of the pressed zone alone."""
    foam = pressed_foam(pad, finding, source)
    own = pad.zone is finding.zones[0]
    layer = finding.fit_layer_mm if own else pad.fit_layer_mm
    return replace(pad, fit_foam=foam, fit_layer_mm=layer)
