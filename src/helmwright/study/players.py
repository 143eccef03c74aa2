"""Who comes to the fit visits of the study, and with what readings."""

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import numpy as np

from helmwright.anatomy import MEASURE_KEYS, Reading, Sex
from helmwright.catalogue import ModelSheet, load_packaged
from helmwright.fit import Build
from helmwright.fit.chart import shells_to_try
from helmwright.fit.seating import PadLaws
from helmwright.study.dials import AS_ASSUMED, Dials
from helmwright.study.fitter import Fitter
from helmwright.study.people import SURVEYS, person, readings_of
from helmwright.study.truth import draw_truth, laws_with_hair
from helmwright.study.wearer import Wearer

MODEL = "ouzel"
"""The invented model that is played."""

OTHER = dict(zip(SURVEYS, reversed(SURVEYS), strict=True))
"""Whose prior the heads of a survey are met with."""


@dataclass(frozen=True)
class Player:
    """One head of one survey, met with the prior of the other.

    Parameters
    ----------
    sex, survey, index
        Which head.
    seed
        Of every draw.
    rows
        Folder of individual survey rows; drawn from the summary where None.
    """

    sex: Sex
    survey: str
    index: int
    seed: int
    rows: Path | None = None

    @property
    def stream(self) -> tuple[int, ...]:
        """What everything of this player's visit is drawn from."""
        return (self.seed, SURVEYS.index(self.survey), list(Sex).index(self.sex), self.index)

    @property
    def prior(self) -> str:
        """The survey whose prior the program has."""
        return OTHER[self.survey]


@dataclass(frozen=True)
class Met:
    """A player with everything that a visit needs.

    Parameters
    ----------
    player
        Who.
    wearer, fitter
        The true head, and who checks.
    readings
        Of all measures; a policy takes its own.
    delivered
        What the chart's shell arrives with.
    """

    player: Player
    wearer: Wearer
    fitter: Fitter
    readings: tuple[Reading, ...]
    delivered: Build

    def read(self, measures: tuple[str, ...]) -> tuple[Reading, ...]:
        """The readings of some measures."""
        return tuple(reading for reading in self.readings if reading.measure in measures)


def meet(player: Player, dials: Dials = AS_ASSUMED) -> Met:
    """A player's true head, fitter and readings; the same whatever is played."""
    sheet, laws = model()
    measures = person(
        player.sex, player.survey, player.index,
        seed=player.seed, rows=player.rows, eyebrows=dials.eyebrows,
    )  # fmt: skip
    head = draw_truth(measures, np.random.default_rng([*player.stream, 7]), dials)
    readings = readings_of(measures, MEASURE_KEYS, np.random.default_rng([*player.stream, 8]))
    tape = np.mean([read.value_mm for read in readings if read.measure == "tape_circumference"])
    shell = shells_to_try(sheet, np.array([tape]))[0]
    return Met(
        player,
        Wearer(head, sheet, laws, player.stream, dials),
        Fitter(player.stream, dials.noise, dials.same_look),
        readings,
        Build(shell, sheet.delivered),
    )


def origin_of(rows: Path | None) -> str:
    """Where heads come from, as the result file says it."""
    return "summaries" if rows is None else "rows"


@lru_cache(maxsize=1)
def model() -> tuple[ModelSheet, tuple[PadLaws, ...]]:
    """The model, and its pads' laws under 0, 1, ... mm of hair."""
    sheet = load_packaged(MODEL)
    return sheet, laws_with_hair(sheet)
