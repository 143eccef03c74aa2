"""A player who comes to a fit visit: what stays with the head, with a pad, and with a try-on.

The head stays: its surface, bumps, hair, and how the player's skin and strap usually are. A pad is
a specimen: another thickness in a zone is another piece of foam, the same one put back is itself.
Putting on is new each time, around the player's own.
"""

from dataclasses import dataclass, field, replace

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr, ndtri

from helmwright.catalogue import ZONES, ModelSheet, Zone
from helmwright.fit import Bands, Build
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.seating import PadLaws
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from helmwright.study.dials import AS_ASSUMED, Dials
from helmwright.study.true_helmet import true_rest, true_trial
from helmwright.study.truth import (
    FOAM_SCATTER,
    FRICTION,
    KEPT,
    PULL,
    PUSH,
    SLIDE,
    THICKNESS,
    TrueHead,
)

Floats = npt.NDArray[np.float64]

ANEW = Figure(
    0.3, "1", ASSUMED, note="share of the variance of friction, strap and putting on that is new"
)
CLEARLY_LOOSE = Figure(0.4, "kPa", ASSUMED, note="a zone below this is clearly wrong")
CLEARLY_TIGHT = Figure(10.0, "kPa", ASSUMED, note="a zone above this is clearly wrong")
CLEAR_BROW = (
    Figure(15.0, "mm", ASSUMED, note="a brow below this is clearly wrong"),
    Figure(36.0, "mm", ASSUMED, note="a brow above this is clearly wrong"),
)

_LEAST_CHANCE = 1e-9


A_HAND_FEELS = Figure(
    1.0, "mm", ASSUMED, note="gap beyond the loose edge that a hand can tell at all"
)


@dataclass(frozen=True)
class TriedOn:
    """A build on a true head at one try-on.

    Parameters
    ----------
    trial, build, rest
        The helmet and how it rests; one head.
    """

    trial: Trial
    build: Build
    rest: Rest

    @property
    def is_right(self) -> bool:
        """Everything in its band at once."""
        return bool(self.rest.right[0])

    @property
    def is_clearly_wrong(self) -> bool:
        """Some zone or the brow far out of its band, by the limits above.

        Notes
        -----
        Where the bands of right are wider than these limits, nothing in them is clearly wrong.
        """
        return self._is_off(loose=self._pressure_kpa.min() < self._least_kpa)

    @property
    def is_wrong_to_a_hand(self) -> bool:
        """The same, but loose only where a zone lacks more give than a hand can tell.

        A soft pad goes from nothing to the loose edge within some tenths of a millimeter: a zone
        that is clearly loose by its pressure may be a hair's breadth from right.
        """
        lacking = min(self.hold_mm(zone) for zone in ZONES if self.trial.sheet.pad(zone).seats)
        return self._is_off(loose=lacking < -A_HAND_FEELS.value)

    def hold_mm(self, zone: Zone) -> float:
        """Give beyond the loose edge, or room left to the largest gap, whichever is less [mm]."""
        trial, rest, place = self.trial, self.rest, ZONES.index(zone)
        stroke = np.maximum(rest.stroke_mm[0], 0.0) @ trial.seating.area_shares[:, place]
        edge = trial.laws.stroke(zone, self.build.pads[place], trial.bands.loose_kpa)
        return float(min(stroke - edge, trial.bands.gap_mm - rest.zone_gap_mm[0, place]))

    @property
    def _pressure_kpa(self) -> Floats:
        padded = np.array([bool(pad.seats) for pad in self.trial.sheet.pads])
        return np.asarray(self.rest.zone_pressure_kpa[0, padded])

    @property
    def _least_kpa(self) -> float:
        return min(CLEARLY_LOOSE.value, self.trial.bands.loose_kpa)

    def _is_off(self, *, loose: bool) -> bool:
        bands, brow = self.trial.bands, self.rest.brow_mm[0]
        tight = max(CLEARLY_TIGHT.value, bands.tight_kpa)
        low = min(CLEAR_BROW[0].value, bands.brow_low_mm)
        high = max(CLEAR_BROW[1].value, bands.brow_high_mm)
        return bool(loose or self._pressure_kpa.max() > tight or not low <= brow <= high)


@dataclass(frozen=True)
class Wearer:
    """One player, with every accident that awaits him.

    Parameters
    ----------
    head
        The head, and what its player's friction, strap and hands usually are.
    sheet, laws
        The model, and its pads' laws under 0, 1, ... mm of hair.
    stream
        What all accidents are drawn from: the same try-on of the same player has the same ones,
        whoever proposes the builds.
    dials
        How the truth is turned.
    """

    head: TrueHead
    sheet: ModelSheet
    laws: tuple[PadLaws, ...]
    stream: tuple[int, ...]
    dials: Dials = AS_ASSUMED
    _trials: dict[int, Trial] = field(default_factory=dict, compare=False, repr=False)

    def tried_on(self, build: Build, try_on: int) -> TriedOn:
        """The build on the head at one try-on, counted from 1."""
        day = self.day(build, try_on)
        trial = replace_unknowns(self._trial(build.shell), day)
        return TriedOn(trial, build, true_rest(day, trial, build))

    def day(self, build: Build, try_on: int) -> TrueHead:
        """The head with that build's pads and that try-on's accidents.

        Notes
        -----
        A quantity q with the distribution function G is the player's own by q0 = G^-1(Phi(z0)),
        and at a try-on G^-1(Phi(sqrt(1 - w) z0 + sqrt(w) z1)) with a normal z1 of its own: over
        players and try-ons it keeps the distribution G that `truth` states.
        """
        new = np.random.default_rng([*self.stream, 21, try_on]).standard_normal(5)
        foam, thickness = self._specimens(build)
        pull = PULL.value
        strap = np.exp(pull * _around(np.log(self.head.pull) / pull, new[1])) * self.dials.strap
        friction = _between(self.head.friction, FRICTION, new[0])
        return replace(
            self.head,
            foam=foam,
            thickness_mm=thickness,
            friction=friction if self.dials.friction is None else self.dials.friction,
            pull=float(strap),
            slide_mm=_between(self.head.slide_mm, SLIDE, new[2]),
            push_n=_between(self.head.push_n, PUSH, new[3]),
            kept=_between(self.head.kept, KEPT, new[4]),
        )

    def _specimens(self, build: Build) -> tuple[Floats, Floats]:
        """Stiffness over the law [1] and thickness over the label [mm] of a build's pads."""
        drawn = np.array(
            [
                np.random.default_rng([*self.stream, 22, build.shell, zone, pad]).standard_normal(2)
                for zone, pad in enumerate(build.pads)
            ]
        )
        foam = np.exp(drawn[:, 0] * FOAM_SCATTER.value * self.dials.foam)
        return foam, drawn[:, 1] * THICKNESS.value

    def _trial(self, shell: int) -> Trial:
        if shell not in self._trials:
            bands = self.dials.bands(Bands.of(self.sheet))
            self._trials[shell] = true_trial(self.head, self.sheet, self.laws, shell, bands)
        return self._trials[shell]


def replace_unknowns(trial: Trial, day: TrueHead) -> Trial:
    """The trial with one try-on's pads, friction and strap."""
    return trial.under(
        unknowns=replace(
            trial.unknowns,
            foam=day.foam[None],
            friction=np.array([day.friction]),
            pull=np.array([day.pull]),
        )
    )


def _around(own: float, new: float) -> float:
    return float(np.sqrt(1.0 - ANEW.value) * own + np.sqrt(ANEW.value) * new)


def _between(own: float, limits: tuple[Figure, Figure], new: float) -> float:
    """A quantity that is uniform between its limits, at one try-on."""
    low, high = limits[0].value, limits[1].value
    chance = np.clip((own - low) / (high - low), _LEAST_CHANCE, 1.0 - _LEAST_CHANCE)
    return low + (high - low) * float(ndtr(_around(float(ndtri(chance)), new)))
