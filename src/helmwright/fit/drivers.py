"""What drives a chance: how far it moves when each main assumption goes to its low and its high.

The heads, the bumps and the pads are those that the chance was counted on, so that only the
assumption differs: a move of a few hundredths shows on some hundred heads. One assumption moves at
a time; nothing is said of two that are wrong together.
"""

from collections.abc import Callable, Iterable
from copy import deepcopy
from dataclasses import dataclass, field, replace
from functools import partial

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws, HeadEstimate
from helmwright.anatomy.age import adult_share
from helmwright.anatomy.measures import MEASURE_KEYS
from helmwright.anatomy.part import age_of
from helmwright.anatomy.surface import HeadShapes, head_shapes
from helmwright.catalogue.instruction import FitTopic
from helmwright.fit.contact import Rest, Trial
from helmwright.fit.insides import in_shell
from helmwright.fit.outlook import Assumption, Build, Driver, Shift
from helmwright.fit.rater import Rater
from helmwright.fit.unknowns import FRICTION, Unknowns
from helmwright.fit.verdict import Bands
from helmwright.sources import Figure
from helmwright.sources.records import (
    ASSUMED,
    NIOSH_2003,
    SNYDER_1977,
    UK_1990,
    US_ARMY_2012,
)

Floats = npt.NDArray[np.float64]
Turn = Callable[[Trial], Trial]
"""A trial on the same draws under another assumption."""

LIMITS_RANGE = (
    Figure(0.75, "1", ASSUMED, note="strict limits: of tight, hot spot and gap a share is allowed"),
    Figure(1.33, "1", ASSUMED, note="lenient limits: so many times the tight, hot spot and gap"),
)
BROW_RANGE = (
    Figure(-3.2, "mm", ASSUMED, note="the brow's window narrower at either end, an eighth inch"),
    Figure(3.2, "mm", ASSUMED, note="the brow's window wider at either end, an eighth inch"),
)
FOAM_RANGE = (
    Figure(0.75, "1", ASSUMED, note="every pad softer than its stated curve"),
    Figure(1.3, "1", ASSUMED, note="every pad stiffer than its stated curve"),
)
SURVEY_RANGE = (
    Figure(0.0, "1", US_ARMY_2012, note="share of the survey of workers: soldiers alone"),
    Figure(1.0, "1", NIOSH_2003, note="share of the survey of workers: workers alone"),
)
YOUTH_SURVEY_RANGE = (
    Figure(0.0, "1", SNYDER_1977, note="share of the UK reference: US children of 1977 alone"),
    Figure(1.0, "1", UK_1990, note="share of the UK reference: its circumferences alone"),
)
EYEBROW_RANGE = (
    Figure(4.0, "mm", ASSUMED, note="spread of the eyebrow's height above the ears, SD"),
    Figure(10.0, "mm", ASSUMED, note="the same; photographs of 90 people suggest as much"),
)
FRICTION_RANGE = (
    Figure(0.15, "1", ASSUMED, note="coefficient of a slippery liner or sweat"),
    Figure(0.45, "1", ASSUMED, note="coefficient of a sticky liner"),
)
STRAP_RANGE = (
    Figure(0.56, "1", ASSUMED, note="strap's pull over the sheet's"),
    Figure(1.8, "1", ASSUMED, note="strap's pull over the sheet's"),
)
BUMPS_RANGE = (
    Figure(0.6, "1", ASSUMED, note="how far heads stand off the modeled surface, over its usual"),
    Figure(1.4, "1", ASSUMED, note="how far heads stand off the modeled surface, over its usual"),
)
INSIDES_RANGE = (
    Figure(0.6, "1", ASSUMED, note="how far unmeasured insides are off, over its usual"),
    Figure(1.4, "1", ASSUMED, note="how far unmeasured insides are off, over its usual"),
)


@dataclass(frozen=True)
class Ground:
    """What chances were counted on, so that they can be counted again under other assumptions.

    Parameters
    ----------
    estimate
        What is believed of the head.
    heads
        The heads drawn from it.
    trials
        By shell, all on those heads.
    again
        The random generator as it stood before the heads were drawn.
    insides
        By shell, what its inside numbers are off by where they were not measured, shape (n, 5)
        [mm].
    """

    estimate: HeadEstimate
    heads: HeadDraws
    trials: dict[int, Trial]
    again: np.random.Generator
    insides: dict[int, Floats] = field(default_factory=dict)

    def drawn_from(self, estimate: HeadEstimate) -> HeadDraws:
        """As many heads of another estimate, by the same random numbers."""
        return estimate.draw(len(self.heads), deepcopy(self.again))


@dataclass(frozen=True)
class _Case:
    """One assumption, its low and high, and the turn that sets it to either."""

    assumption: Assumption
    low: Figure
    high: Figure
    turn_to: Callable[[float], Turn]


def count_drivers(
    ground: Ground, builds: Iterable[Build], rater: Rater, count: int
) -> dict[Build, tuple[Driver, ...]]:
    """How far the chances of builds move with each main assumption.

    Parameters
    ----------
    ground
        What the chances were counted on.
    builds
        Whose chances; their shells are among the trials.
    rater
        The fitter who will check them.
    count
        On how many of the heads, the first ones [1].

    Returns
    -------
    For each build its drivers, the one that moves the chance of a fit most first.

    Notes
    -----
    A driver says by how much a stated chance would be another if the world were otherwise; builds
    are not chosen anew for that world. The survey's turn draws heads of the other belief by the
    same normal numbers, which keeps them near the first ones. The eyebrow's turn is exact: where
    no reading tells of the brow, its height is independent of all else, and its departures from
    the mean are drawn out in proportion.
    """
    bases = {
        build: _Counted.of(ground.trials[build.shell], build, rater, count)
        for build in dict.fromkeys(builds)
    }
    found: dict[Build, list[Driver]] = {build: [] for build in bases}
    for case in _cases(ground, count):
        sides = [_turned(ground, case, side.value, bases, rater) for side in (case.low, case.high)]
        for build, base in bases.items():
            low, high = (base.shifts_to(side[build]) for side in sides)
            found[build].append(
                Driver(case.assumption, case.low, case.high, low[0], high[0], low[1], high[1])
            )
    return {
        build: tuple(sorted(drivers, key=lambda driver: -abs(driver.largest.value)))
        for build, drivers in found.items()
    }


@dataclass(frozen=True)
class _Counted:
    """One build on the first heads of a trial: how it rests, and both verdicts."""

    rest: Rest
    found: Floats

    @classmethod
    def of(cls, trial: Trial, build: Build, rater: Rater, count: int) -> "_Counted":
        rest = trial.rest(build, 0, count)
        return cls(rest, rater.found_right(trial, build, rest))

    def judged_by(self, trial: Trial, build: Build, rater: Rater) -> "_Counted":
        """The same rests under the bands of another trial."""
        rest, part = self.rest, slice(0, len(self.found))
        again = trial.judge(build, rest.stroke_mm, rest.force_n, rest.pose, rest.brow_mm, part)
        return _Counted(again, rater.found_right(trial, build, again))

    def shifts_to(self, other: "_Counted") -> tuple[Shift, Shift]:
        """How far the chance of a fit moves, and the chance of being found right."""
        fits = other.rest.right.astype(np.float64) - self.rest.right
        return _shift(fits), _shift(other.found - self.found)


def _shift(differences: Floats) -> Shift:
    error = float(differences.std() / np.sqrt(differences.size))
    return Shift(float(differences.mean()), max(error, 0.5 / differences.size))


def _turned(
    ground: Ground, case: _Case, value: float, bases: dict[Build, _Counted], rater: Rater
) -> dict[Build, _Counted]:
    turn = case.turn_to(value)
    trials = {number: turn(ground.trials[number]) for number in {b.shell for b in bases}}
    told = {}
    for build, base in bases.items():
        trial = trials[build.shell]
        told[build] = (
            base.judged_by(trial, build, rater)
            if trial.unknowns is ground.trials[build.shell].unknowns
            else _Counted.of(trial, build, rater, len(base.found))
        )
    return told


def _cases(ground: Ground, count: int) -> list[_Case]:
    """Every assumption that this answer leans on."""
    plain = [
        _Case(Assumption.LIMITS, *LIMITS_RANGE, _limits),
        _Case(Assumption.FOAM, *FOAM_RANGE, _foam),
        _Case(Assumption.FRICTION, *FRICTION_RANGE, _friction),
        _Case(Assumption.STRAP, *STRAP_RANGE, _strap),
        _Case(Assumption.BUMPS, *BUMPS_RANGE, partial(_bumps, ground)),
    ]
    if any(np.any(off) for off in ground.insides.values()):
        plain.append(_Case(Assumption.INSIDES, *INSIDES_RANGE, partial(_insides, ground)))
    return [*plain, *_brow_case(ground), *_eyebrow_case(ground, count), *_survey(ground, count)]


def _limits(factor: float) -> Turn:
    """Pressure and gap limits so many times as wide; the loose edge the other way."""

    def turn(trial: Trial) -> Trial:
        bands = trial.bands
        wider = replace(
            bands,
            loose_kpa=bands.loose_kpa / factor,
            tight_kpa=bands.tight_kpa * factor,
            hot_spot_kpa=bands.hot_spot_kpa * factor,
            gap_mm=bands.gap_mm * factor,
        )
        return trial.under(bands=wider)

    return turn


def _brow_case(ground: Ground) -> list[_Case]:
    """None where the maker's instructions give the limits: those are no assumption."""
    trial = next(iter(ground.trials.values()))
    said = trial.sheet.instruction(FitTopic.BROW_HEIGHT)
    if said is not None and said.accept_mm is not None:
        return []
    return [_Case(Assumption.BROW_WINDOW, *BROW_RANGE, _brow_window)]


def _brow_window(wider_mm: float) -> Turn:
    def turn(trial: Trial) -> Trial:
        bands = trial.bands
        most = 0.25 * (bands.brow_high_mm - bands.brow_low_mm)
        by = max(wider_mm, -most)
        return trial.under(bands=_brow_bands(bands, by))

    return turn


def _brow_bands(bands: Bands, by: float) -> Bands:
    low = max(bands.brow_low_mm - by, 0.1)
    return replace(bands, brow_low_mm=low, brow_high_mm=bands.brow_high_mm + by)


def _of_unknowns(change: Callable[[Unknowns], Unknowns]) -> Turn:
    return lambda trial: trial.under(unknowns=change(trial.unknowns))


def _foam(factor: float) -> Turn:
    return _of_unknowns(lambda known: replace(known, foam=known.foam * factor))


def _friction(coefficient: float) -> Turn:
    by = coefficient - FRICTION.value
    return _of_unknowns(lambda known: replace(known, friction=np.maximum(known.friction + by, 0.0)))


def _strap(factor: float) -> Turn:
    return _of_unknowns(lambda known: replace(known, pull=known.pull * factor))


def _bumps(ground: Ground, factor: float) -> Turn:
    """The head's own bumps and residuals; what the shell is off by stays."""

    def turn(trial: Trial) -> Trial:
        off = ground.insides.get(trial.shell.number)
        own = trial.unknowns if off is None else in_shell(trial.unknowns, -off)
        scaled = replace(own, zone_mm=own.zone_mm * factor, contact_mm=own.contact_mm * factor)
        return trial.under(unknowns=in_shell(scaled, off))

    return turn


def _insides(ground: Ground, factor: float) -> Turn:
    """What unmeasured insides are off by, so many times as large."""

    def turn(trial: Trial) -> Trial:
        off = ground.insides.get(trial.shell.number)
        more = None if off is None else (factor - 1.0) * off
        return trial.under(unknowns=in_shell(trial.unknowns, more))

    return turn


def _on_heads(shapes: HeadShapes) -> Turn:
    """A trial on other heads, as many as there are shapes, with the same unknowns."""
    return lambda trial: replace(trial, heads=shapes, unknowns=trial.unknowns.first(len(shapes)))


def _eyebrow_case(ground: Ground, count: int) -> list[_Case]:
    """None where brow to top was read: then the eyebrow's height is known as well as that."""
    if "brow_to_top" in ground.estimate.read:
        return []
    heads = HeadDraws(ground.heads.values[:count])
    ears, brow = (MEASURE_KEYS.index(key) for key in ("tragion_to_top", "brow_to_top"))
    known = ground.estimate.covariance
    usual = float(np.sqrt(known[ears, ears] + known[brow, brow] - 2.0 * known[ears, brow]))

    def turn_to(spread_mm: float) -> Turn:
        return _on_heads(head_shapes(eyebrow_spread(heads, spread_mm / usual)))

    return [_Case(Assumption.EYEBROW, *EYEBROW_RANGE, turn_to)]


def eyebrow_spread(heads: HeadDraws, factor: float) -> HeadDraws:
    """The heads with eyebrows so many times as far from their mean height above the ears."""
    above = heads.of("tragion_to_top") - heads.of("brow_to_top")
    moved = above.mean() + (above - above.mean()) * factor
    values = heads.values.copy()
    values[:, MEASURE_KEYS.index("brow_to_top")] = heads.of("tragion_to_top") - moved
    return HeadDraws(values)


def _survey(ground: Ground, count: int) -> list[_Case]:
    """None where no survey was blended, or where the surveys say the same of this head."""
    sides = YOUTH_SURVEY_RANGE if _is_youth(ground.estimate) else SURVEY_RANGE
    low, high = (ground.estimate.by_survey(side.source.key) for side in sides)
    if low is None or high is None or np.allclose(low.mean, high.mean, rtol=0.0, atol=1e-6):
        return []
    by_share = {sides[0].value: low, sides[1].value: high}

    def turn_to(share: float) -> Turn:
        values = ground.drawn_from(by_share[share]).values[:count]
        return _on_heads(head_shapes(HeadDraws(values)))

    return [_Case(Assumption.SURVEY, *sides, turn_to)]


def _is_youth(estimate: HeadEstimate) -> bool:
    """Whether the head is drawn from the youth surveys more than from the adults'."""
    age = age_of(estimate.likeliest)
    return age is not None and adult_share(age) < 0.5
