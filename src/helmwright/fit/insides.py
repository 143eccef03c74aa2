"""Insides that nobody measured: how they are drawn with the heads, and what measuring would buy.

A shell is tried as its sheet has it, on its usual insides. What they may be off by is told to the
contact model as if the head stood off by so much less: half a length error at front and rear,
half a breadth error on each side, half a jaw error at each jaw. The crown lies at front edge and
depth together, and its slanting seats take nine tenths of what it rises; a front edge that is
higher leaves more room above the brow. Against shells built anew with the other number the strokes
come out right to two thirds of a millimeter for an error of four, and the compiled contact stays
as it is.
"""

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from helmwright.belief import Normal, Observation, exactly
from helmwright.catalogue.insides import INSIDE_NUMBERS
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.climb import climb
from helmwright.fit.contact import Trial
from helmwright.fit.outlook import Build, BuildOutlook, InsideGain
from helmwright.fit.search import Effort
from helmwright.fit.unknowns import Unknowns
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]

CALIPER_ERROR = Figure(1.0, "mm", ASSUMED, note="error of inside calipers on a bare shell, SD")

CALIPERED = ("inside_length", "inside_breadth", "jaw_width")
"""The three numbers that inside calipers take; depth and front edge want a straight edge."""

CORNERS = np.array([[1, 1, 1], [1, -1, -1], [-1, 1, -1], [-1, -1, 1]], dtype=np.float64)
"""Four readings that have mean nothing and spread one, and are uncorrelated."""

FEW = 6
"""Builds of a climb that are tried on further heads."""

_SHARES = {
    "inside_length": {Zone.FRONT: 0.5, Zone.REAR: 0.5, Zone.NAPE: 0.5},
    "inside_breadth": {Zone.LEFT: 0.5, Zone.RIGHT: 0.5},
    "inside_depth": {Zone.CROWN: 0.9},
    "jaw_width": {Zone.JAW_LEFT: 0.5, Zone.JAW_RIGHT: 0.5},
    "front_edge": {Zone.CROWN: 0.9},
}
"""What of an error of each number every zone's gap takes [mm/mm]."""

ROOM = np.array([[_SHARES[number].get(zone, 0.0) for zone in ZONES] for number in INSIDE_NUMBERS])
"""The same as an array, (5, 8)."""

_EDGE = INSIDE_NUMBERS.index("front_edge")


def draw_insides(sheet: ModelSheet, count: int, rng: np.random.Generator) -> dict[int, Floats]:
    """How far each shell's inside numbers are from the sheet's, by shell, (count, 5) [mm].

    Nothing is drawn, and nothing returned, where all of them were measured.
    """
    return {} if sheet.insides is None else sheet.insides.errors(count, rng)


def in_shell(unknowns: Unknowns, errors: Floats | None) -> Unknowns:
    """What is not known of a head in one shell, whose inside numbers are off by `errors` [mm].

    Parameters
    ----------
    unknowns
        n draws of what is not known in any shell.
    errors
        True less believed, shape (n, 5); None where the shell was measured.
    """
    if errors is None:
        return unknowns
    return replace(
        unknowns,
        zone_mm=unknowns.zone_mm - errors @ ROOM,
        brow_mm=unknowns.brow_mm + errors[:, _EDGE],
    )


def calipers_gain(
    trial: Trial,
    errors: Floats | None,
    best: BuildOutlook,
    effort: Effort,
    rng: np.random.Generator,
) -> InsideGain | None:
    """What three numbers taken by inside calipers are expected to add to the best build's chance.

    Parameters
    ----------
    trial
        The proposed shell on draws of the head, its errors among the unknowns.
    errors
        Those errors, shape (n, 5) [mm]; None where the shell was measured.
    best
        The proposed build as it stands.
    effort
        How many of the heads are used.
    rng
        For the draws that go on from each reading.

    Returns
    -------
    None where none of the three is lacking.

    Notes
    -----
    The calipers may say this or that. Four readings stand for all of them, a quarter of the
    corners at one standard deviation: their mean and spread are those of the belief. After each,
    the belief is conditioned on it and a climb looks for the build that is best then; of the few
    it finds, one is chosen on further heads and counted on yet others, so that no choice is
    counted on what made it.
    """
    insides, shell = trial.sheet.insides, trial.shell.number
    if insides is None or errors is None:
        return None
    numbers = tuple(n for n in CALIPERED if n in insides.unmeasured(shell))
    if not numbers:
        return None
    known = in_shell(trial.unknowns, -errors)
    before = insides.of(shell)
    chances = []
    for reading in _readings(before, numbers):
        after = before.given(reading).draw(len(trial), rng) - before.mean
        chances.append(
            _best_chance(trial.under(unknowns=in_shell(known, after)), best.build, effort)
        )
    mean = float(np.mean(chances))
    counted = len(chances) * (effort.near - _middle(effort))
    error = np.hypot(best.fits.error, np.sqrt(max(mean * (1.0 - mean), 0.01) / counted))
    return InsideGain(numbers, mean - best.fits.value, float(error))


def _readings(before: Normal, numbers: tuple[str, ...]) -> list[list[Observation]]:
    """Four things that calipers may say."""
    names = [quantity_of(before, number) for number in numbers]
    part = before.marginal(names)
    variance = CALIPER_ERROR.value**2
    root = np.linalg.cholesky(part.covariance + variance * np.eye(len(names)))
    points = part.mean + CORNERS[:, : len(names)] @ root.T
    return [
        [exactly(name, float(value), variance) for name, value in zip(names, point, strict=True)]
        for point in points
    ]


def quantity_of(belief: Normal, number: str) -> str:
    """Name of a number in the belief of one shell."""
    return next(name for name in belief.names if name.endswith(f" {number}"))


def _best_chance(trial: Trial, about: Build, effort: Effort) -> float:
    """Chance of the best build that a climb from one finds."""
    first, middle = effort.climb // 2, _middle(effort)
    found = [Build(about.shell, pads) for pads in climb(trial, about.pads, first).top(FEW)]
    shares = [trial.rest(build, first, middle).right.mean() for build in found]
    best = found[int(np.argmax(shares))]
    return float(trial.rest(best, middle, effort.near).right.mean())


def _middle(effort: Effort) -> int:
    return (effort.climb // 2 + effort.near) // 2
