"""The main assumptions that a chance leans on: the low and the high of each, and what to turn.

A turn is a trial on the same draws under another assumption: same heads, bumps, pads and straps
wherever the assumption itself is not about them.
"""

from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass, field, replace
from functools import cached_property, partial

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws, HeadEstimate
from helmwright.anatomy.age import adult_share
from helmwright.anatomy.estimate import with_layers
from helmwright.anatomy.measures import MEASURE_KEYS
from helmwright.anatomy.part import age_of
from helmwright.anatomy.reading import combined
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue.instruction import FitTopic
from helmwright.fit.contact import Trial
from helmwright.fit.covering import departures_mm
from helmwright.fit.insides import in_shell
from helmwright.fit.outlook import Assumption
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
FILL_RANGE = (
    Figure(0.6, "1", ASSUMED, note="air cells filled softer than feels snug to most"),
    Figure(1.6, "1", ASSUMED, note="air cells filled firmer than feels snug to most"),
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
COVERING_RANGE = (
    Figure(0.5, "1", ASSUMED, note="thickness of hair and headwear over the table's"),
    Figure(1.5, "1", ASSUMED, note="thickness of hair and headwear over the table's"),
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

    @cached_property
    def departures(self) -> Floats:
        """What each head's covering adds under each zone to the nominal one, shape (n, 8) [mm]."""
        return departures_mm(self.heads, self.estimate)

    def on_heads(self, heads: HeadDraws) -> Turn:
        """Trials on other heads, the first ones' successors, with the same unknowns.

        Parameters
        ----------
        heads
            In the place of as many first ones, each with its covering.
        """
        count, shapes = len(heads), head_shapes(heads)
        more = departures_mm(heads, self.estimate) - self.departures[:count]

        def turn(trial: Trial) -> Trial:
            first = trial.unknowns.first(count)
            return trial.on(shapes, replace(first, zone_mm=first.zone_mm + more))

        return turn

    def first(self, count: int) -> HeadDraws:
        """The first of the heads."""
        return first_heads(self.heads, count)


@dataclass(frozen=True)
class Case:
    """One assumption, its low and high, and the turn that sets it to either."""

    assumption: Assumption
    low: Figure
    high: Figure
    turn_to: Callable[[float], Turn]


def cases(ground: Ground, count: int) -> list[Case]:
    """Every assumption that this answer leans on."""
    plain = [
        Case(Assumption.LIMITS, *LIMITS_RANGE, _limits),
        Case(Assumption.FOAM, *FOAM_RANGE, _foam),
        Case(Assumption.FRICTION, *FRICTION_RANGE, _friction),
        Case(Assumption.STRAP, *STRAP_RANGE, _strap),
        Case(Assumption.BUMPS, *BUMPS_RANGE, partial(_bumps, ground)),
    ]
    if any(np.any(off) for off in ground.insides.values()):
        plain.append(Case(Assumption.INSIDES, *INSIDES_RANGE, partial(_insides, ground)))
    about_heads = (_eyebrow_case, _survey_case, _covering_case)
    rest = [case for each in about_heads for case in each(ground, count)]
    return [*plain, *_fill_case(ground), *_brow_case(ground), *rest]


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


def _brow_case(ground: Ground) -> list[Case]:
    """None where the maker's instructions give the limits: those are no assumption."""
    trial = next(iter(ground.trials.values()))
    said = trial.sheet.instruction(FitTopic.BROW_HEIGHT)
    if said is not None and said.accept_mm is not None:
        return []
    return [Case(Assumption.BROW_WINDOW, *BROW_RANGE, _brow_window)]


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
    """Foam pads so many times as stiff; what feels snug in a cell is another matter."""
    return lambda trial: _stiffer(trial, np.where(_celled(trial), 1.0, factor))


def _fill_case(ground: Ground) -> list[Case]:
    """None where no pad is an air cell."""
    trial = next(iter(ground.trials.values()))
    return [Case(Assumption.FILL, *FILL_RANGE, _fill)] if _celled(trial).any() else []


def _fill(factor: float) -> Turn:
    """Cells filled to so many times the pressure."""
    return lambda trial: _stiffer(trial, np.where(_celled(trial), factor, 1.0))


def _celled(trial: Trial) -> npt.NDArray[np.bool_]:
    """Whose pad is an air cell, shape (8,)."""
    return np.array([pad.cell is not None for pad in trial.sheet.pads])


def _stiffer(trial: Trial, factors: Floats) -> Trial:
    known = trial.unknowns
    return trial.under(unknowns=replace(known, foam=known.foam * factors))


def _friction(coefficient: float) -> Turn:
    by = coefficient - FRICTION.value
    return _of_unknowns(lambda known: replace(known, friction=np.maximum(known.friction + by, 0.0)))


def _strap(factor: float) -> Turn:
    return _of_unknowns(lambda known: replace(known, pull=known.pull * factor))


def _bumps(ground: Ground, factor: float) -> Turn:
    """The head's own bumps and residuals; what is worn and what the shell is off by stay."""

    def turn(trial: Trial) -> Trial:
        off, known = ground.insides.get(trial.shell.number), trial.unknowns
        bare = known if off is None else in_shell(known, -off)
        own = bare.zone_mm - ground.departures
        zone = known.zone_mm + (factor - 1.0) * own
        return trial.under(
            unknowns=replace(known, zone_mm=zone, contact_mm=known.contact_mm * factor)
        )

    return turn


def _insides(ground: Ground, factor: float) -> Turn:
    """What unmeasured insides are off by, so many times as large."""

    def turn(trial: Trial) -> Trial:
        off = ground.insides.get(trial.shell.number)
        more = None if off is None else (factor - 1.0) * off
        return trial.under(unknowns=in_shell(trial.unknowns, more))

    return turn


def _eyebrow_case(ground: Ground, count: int) -> list[Case]:
    """None where brow to top was read: then the eyebrow's height is known as well as that."""
    if "brow_to_top" in ground.estimate.read:
        return []
    heads = ground.first(count)
    ears, brow = (MEASURE_KEYS.index(key) for key in ("tragion_to_top", "brow_to_top"))
    known = ground.estimate.covariance
    usual = float(np.sqrt(known[ears, ears] + known[brow, brow] - 2.0 * known[ears, brow]))

    def turn_to(spread_mm: float) -> Turn:
        return ground.on_heads(eyebrow_spread(heads, spread_mm / usual))

    return [Case(Assumption.EYEBROW, *EYEBROW_RANGE, turn_to)]


def eyebrow_spread(heads: HeadDraws, factor: float) -> HeadDraws:
    """The heads with eyebrows so many times as far from their mean height above the ears."""
    above = heads.of("tragion_to_top") - heads.of("brow_to_top")
    moved = above.mean() + (above - above.mean()) * factor
    values = heads.values.copy()
    values[:, MEASURE_KEYS.index("brow_to_top")] = heads.of("tragion_to_top") - moved
    return replace(heads, values=values)


def _survey_case(ground: Ground, count: int) -> list[Case]:
    """None where no survey was blended, or where the surveys say the same of this head."""
    sides = YOUTH_SURVEY_RANGE if _is_youth(ground.estimate) else SURVEY_RANGE
    low, high = (ground.estimate.by_survey(side.source.key) for side in sides)
    if low is None or high is None or np.allclose(low.mean, high.mean, rtol=0.0, atol=1e-6):
        return []
    by_share = {sides[0].value: low, sides[1].value: high}

    def turn_to(share: float) -> Turn:
        return ground.on_heads(first_heads(ground.drawn_from(by_share[share]), count))

    return [Case(Assumption.SURVEY, *sides, turn_to)]


def _is_youth(estimate: HeadEstimate) -> bool:
    """Whether the head is drawn from the youth surveys more than from the adults'."""
    age = age_of(estimate.likeliest)
    return age is not None and adult_share(age) < 0.5


def _covering_case(ground: Ground, count: int) -> list[Case]:
    """None where nothing is worn that a table gives the thickness of."""
    if not np.any(covering_shift(ground.estimate)):
        return []
    heads = ground.first(count)

    def turn_to(factor: float) -> Turn:
        return ground.on_heads(under_thicker(heads, ground.estimate, factor))

    return [Case(Assumption.COVERING, *COVERING_RANGE, turn_to)]


def covering_shift(estimate: HeadEstimate) -> Floats:
    """How far belief moves where the table has every covering as thick again, shape (d,) [mm].

    Returns
    -------
    Over the measures and then the thicknesses, in the order of `estimate.whole`; empty where that
    holds no covering.

    Notes
    -----
    With thicknesses t of mean m and covariance L before any reading, and C their covariances with
    everything believed after it, a prior mean m + d moves the belief by C L^-1 d: readings say the
    same of another prior. Exact within the likeliest sex and age.
    """
    whole = estimate.whole
    if whole is None:
        return np.zeros(0)
    place = int(np.argmax(whole.weights))
    names = whole.names[len(MEASURE_KEYS) :]
    before = with_layers(estimate.prior, combined(estimate.readings), estimate.worn)
    prior, after = before.marginal(names).parts[place], whole.parts[place]
    kept = np.linalg.pinv(prior.covariance, hermitian=True) @ prior.mean
    return np.asarray(after.covariance[:, len(MEASURE_KEYS) :] @ kept)


def under_thicker(heads: HeadDraws, estimate: HeadEstimate, factor: float) -> HeadDraws:
    """The heads where the table has every covering so many times as thick.

    What a reading over it shows more of hair it shows less of head.
    """
    shift, known = (factor - 1.0) * covering_shift(estimate), len(MEASURE_KEYS)
    layers = {
        name: thickness + more
        for (name, thickness), more in zip(heads.layers.items(), shift[known:], strict=True)
    }
    return HeadDraws(heads.values + shift[:known], layers)


def first_heads(heads: HeadDraws, count: int) -> HeadDraws:
    """The first of some heads, with what they wear."""
    layers = {name: thickness[:count] for name, thickness in heads.layers.items()}
    return HeadDraws(heads.values[:count], layers)
