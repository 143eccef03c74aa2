"""Cells of a build that hold sealed air: rests at given pressures, and the pressures they come to.

A rest is found with laws fitted for a row of pressures; heads whose bladders come nearest the
same ones are solved together, the rest of the difference being taken in proportion.
"""

from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from functools import cached_property, lru_cache

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.air import Surroundings
from helmwright.catalogue.sheet import ModelSheet, PadKind
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.fill import bladders, cell_of, mean_over_pad, volume_ml
from helmwright.fit.law import PadLaw
from helmwright.fit.outlook import Build
from helmwright.fit.seating import PadLaws

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]
LawsOf = Callable[[ModelSheet], PadLaws]

LEVELS_KPA = np.geomspace(0.2, 40.0, 161)
"""Gauge pressures for which laws are fitted [kPa]; under the least a cell counts as slack."""

HALVINGS = 11
"""How often the interval of a pressure is halved: to a quarter of a percent of it."""

SWEEPS = 2
"""How often bladders are balanced in turn, where there are several."""


@dataclass(frozen=True)
class AtPressure:
    """Heads at rest with their bladders at certain pressures.

    Parameters
    ----------
    rest
        How they rest.
    level
        The place in LEVELS_KPA of each bladder's law on each head, shape (n, b).
    """

    rest: Rest
    level: Integers


class SealedCells:
    """The cells of a build on the heads of a trial, at any pressures.

    Parameters
    ----------
    trial, build
        The heads, and the build.
    laws_of
        Gives the laws of a sheet over what is worn.
    """

    def __init__(self, trial: Trial, build: Build, laws_of: LawsOf) -> None:
        self.trial = trial
        self.build = build
        self.bladders = bladders(trial.sheet)
        self._laws_of = lru_cache(maxsize=None)(laws_of)
        self._strokes: dict[tuple[int, int], tuple[float, float]] = {}

    @cached_property
    def filled_kpa(self) -> Floats:
        """Gauge pressure of each bladder filled by feel on each head, shape (n, b) [kPa]."""
        first = [each.places[0] for each in self.bladders]
        nominal = np.array([each.cell.gauge_kpa for each in self.bladders])
        return np.asarray(nominal * self.trial.unknowns.foam[:, first])

    def rest(self, gauge_kpa: Floats) -> AtPressure:
        """Every head at rest with its bladders at these pressures, shape (n, b) [kPa]."""
        level, share = _levels(gauge_kpa)
        kinds, which = np.unique(level, axis=0, return_inverse=True)
        parts = [np.flatnonzero(which.ravel() == kind) for kind in range(len(kinds))]
        rests = [
            self._at(tuple(kind.tolist()), part, share[part]).rest(self.build)
            for kind, part in zip(kinds, parts, strict=True)
        ]
        return AtPressure(_joined(rests, np.argsort(np.concatenate(parts))), level)

    def volumes_ml(self, found: AtPressure) -> Floats:
        """Air space of each bladder, shape (n, b) [mL]."""
        return np.column_stack([self._volume(found, b) for b in range(len(self.bladders))])

    def _volume(self, found: AtPressure, b: int) -> Floats:
        bladder = self.bladders[b]
        heights = [self._height(found, b, pad) for pad in bladder.pads]
        return volume_ml(bladder, heights)

    def _height(self, found: AtPressure, b: int, pad: PadKind) -> Floats:
        """Mean height of the air in one cell, shape (n,) [mm]; as `fill.air_height_mm`."""
        place = self.bladders[b].places[self.bladders[b].pads.index(pad)]
        ends = np.array([self._ends(place, level) for level in found.level[:, b].tolist()])
        given = (found.rest.stroke_mm - ends[:, :1]) / (ends[:, 1:] - ends[:, :1])
        height = cell_of(pad).reach_mm * (1.0 - np.clip(given, 0.0, 1.0))
        return mean_over_pad(self.trial, np.asarray(height, dtype=np.float64), place)

    def _ends(self, place: int, level: int) -> tuple[float, float]:
        """Strokes at which a zone's cell begins and ends to give [mm]."""
        if (place, level) not in self._strokes:
            sheet = cells_at(self.trial.sheet, float(LEVELS_KPA[level]))
            laws = self._laws_of(sheet)
            law = PadLaw(laws.knots[place, 0], laws.weights[place, 0])
            full, flat = (law.stroke(kpa) for kpa in cell_of(sheet.pads[place]).bends_kpa())
            self._strokes[place, level] = (full, flat)
        return self._strokes[place, level]

    def balanced_kpa(self, air: Floats, field: Surroundings) -> Floats:
        """Gauge pressures at which the bladders hold so much air, shape (n, b) [kPa].

        Parameters
        ----------
        air
            Absolute pressure times space over temperature of each, shape (n, b) [kPa mL/K].
        field
            The air around.

        Notes
        -----
        Halving on the logarithm of the gauge pressure, bladder by bladder, the others as they
        were; what a bladder holds rises with its pressure. Below the least level it is slack.
        """
        gauge = self.filled_kpa.copy()
        for _ in range(SWEEPS if len(self.bladders) > 1 else 1):
            for b in range(len(self.bladders)):
                gauge[:, b] = self._halved(gauge, b, air[:, b], field)
        return gauge

    def _halved(self, gauge: Floats, b: int, air: Floats, field: Surroundings) -> Floats:
        low = np.full(gauge.shape[0], np.log(LEVELS_KPA[0]))
        high = np.full(gauge.shape[0], np.log(LEVELS_KPA[-1]))
        tried = gauge.copy()
        for _ in range(HALVINGS):
            middle = 0.5 * (low + high)
            tried[:, b] = np.exp(middle)
            space = self._volume(self.rest(tried), b)
            held = (field.pressure_kpa + tried[:, b]) * space / field.temperature_k
            low, high = np.where(held < air, middle, low), np.where(held < air, high, middle)
        return np.asarray(np.exp(0.5 * (low + high)))

    def _at(self, level: tuple[int, ...], part: Integers, share: Floats) -> Trial:
        """The trial on some of its heads, with the bladders at these levels."""
        trial = self.trial
        unknown = trial.unknowns.chosen(part)
        foam = unknown.foam.copy()
        for b, each in enumerate(self.bladders):
            foam[:, each.places] = share[:, b, None]
        return trial.part(self.build, part, self._laws(level), replace(unknown, foam=foam))

    def _laws(self, level: tuple[int, ...]) -> PadLaws:
        """The trial's laws, with those of the cells at these levels in their places."""
        laws = self.trial.laws
        thickness, knots, weights = (
            each.copy() for each in (laws.thickness_mm, laws.knots, laws.weights)
        )
        for each, one in zip(self.bladders, level, strict=True):
            own = self._laws_of(cells_at(self.trial.sheet, float(LEVELS_KPA[one])))
            for place in each.places:
                thickness[place] = own.thickness_mm[place, 0]
                knots[place], weights[place] = own.knots[place, 0], own.weights[place, 0]
        return replace(laws, thickness_mm=thickness, knots=knots, weights=weights)


def _levels(gauge_kpa: Floats) -> tuple[Integers, Floats]:
    """The nearest level of each pressure, and the pressure over it."""
    step = np.log(LEVELS_KPA[1] / LEVELS_KPA[0])
    place = np.rint(np.log(gauge_kpa / LEVELS_KPA[0]) / step)
    level = np.clip(place, 0, LEVELS_KPA.size - 1).astype(np.int64)
    return level, gauge_kpa / LEVELS_KPA[level]


def cells_at(sheet: ModelSheet, gauge_kpa: float) -> ModelSheet:
    """The sheet with every cell at one gauge pressure [kPa], and no other pad to fit laws for."""
    return replace(sheet, pads=tuple(_cell_at(pad, gauge_kpa) for pad in sheet.pads))


def _cell_at(pad: PadKind, gauge_kpa: float) -> PadKind:
    if pad.cell is not None:
        return replace(pad, cell=pad.cell.at_gauge(gauge_kpa))
    return replace(
        pad, seats=(), labels=pad.labels[:1], thicknesses_mm=pad.thicknesses_mm[:1], delivered=0
    )


def _joined(rests: list[Rest], order: Integers) -> Rest:
    """Rests of parts as one, in the order of the heads."""
    arrays = [each.name for each in fields(Rest) if each.name != "unsettled"]
    whole = {
        name: np.concatenate([getattr(rest, name) for rest in rests])[order] for name in arrays
    }
    return Rest(**whole, unsettled=sum(rest.unsettled for rest in rests))
