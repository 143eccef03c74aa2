"""Which heads a model can be made to fit: shell by shell, between bands, and where it fails."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws
from helmwright.anatomy.age import YOUNGEST
from helmwright.anatomy.head_prior import head_prior
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue.sheet import ModelSheet, PadKind
from helmwright.catalogue.window import snug_window
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.chart import charted_shell
from helmwright.fit.contact import Trial
from helmwright.fit.insides import draw_insides, in_shell
from helmwright.fit.kernels.each import HIGH, LOW
from helmwright.fit.outlook import Build, FaultKind
from helmwright.fit.response import Response, respond
from helmwright.fit.seating import pad_laws
from helmwright.fit.tailor import Choices, Tailor, Tailored, tailored
from helmwright.fit.unknowns import draw_unknowns
from helmwright.fit.verdict import Bands

Floats = npt.NDArray[np.float64]
Bits = npt.NDArray[np.bool_]

POPULATION = 40_000
"""Heads that are drawn to find those of each band."""

BORDER_MM = 3.2
"""Within an eighth of an inch of where two bands meet, a tape may give either shell [mm]."""

THINNEST_MM = 4.0
"""No thinner pad is thought of [mm]."""

MOST_LACKING = 50
"""Of the heads of a shell that no build fits so many are asked what would help."""

SOLVED_REMEDIES = 3
"""Of the thicknesses that look best by the guess so many are solved."""

_TAPE = "tape_circumference"


@dataclass(frozen=True, slots=True)
class Share:
    """A share of heads that were tried.

    Parameters
    ----------
    value
        The share [1].
    error
        Its standard error, never below that of one head in doubt [1].
    """

    value: float
    error: float

    @classmethod
    def of(cls, heads: Bits) -> "Share":
        """The share of heads for which something holds."""
        count = max(heads.size, 1)
        value = float(heads.mean()) if heads.size else 0.0
        return cls(value, float(max(np.sqrt(value * (1.0 - value) / count), 0.5 / count)))


@dataclass(frozen=True, slots=True)
class Hole:
    """A fault that stays, in the best build of the heads that no build fits.

    Parameters
    ----------
    kind
        Loose, tight, or the brow too low or too high.
    zone
        Where; None for the brow.
    share
        Of the heads of the band [1].
    """

    kind: FaultKind
    zone: Zone | None
    share: float


@dataclass(frozen=True, slots=True)
class ShellCoverage:
    """One shell on the heads that the chart gives it.

    Parameters
    ----------
    shell
        Its number.
    share
        Of all heads [1].
    heads
        How many were tried.
    delivered, covered
        Share on which it is right as delivered, and in at least one build.
    holes
        What is in the way of the others, most frequent first.
    """

    shell: int
    share: float
    heads: int
    delivered: Share
    covered: Share
    holes: tuple[Hole, ...]


@dataclass(frozen=True, slots=True)
class BorderCoverage:
    """Heads whose tape lies where two bands meet, leave a gap or overlap.

    Parameters
    ----------
    smaller, larger
        The two shells.
    low_mm, high_mm
        The interval of the tape [mm].
    share
        Of all heads [1].
    heads
        How many were tried in both shells.
    in_smaller, in_larger, in_either
        Share on which at least one build fits.
    """

    smaller: int
    larger: int
    low_mm: float
    high_mm: float
    share: float
    heads: int
    in_smaller: Share
    in_larger: Share
    in_either: Share


@dataclass(frozen=True, slots=True)
class AddedThickness:
    """A thickness that the sheet does not have.

    Parameters
    ----------
    zones
        The zone, or the pair of mirrored zones, that would take it.
    thickness_mm
        The thickness [mm].
    closes
        Of the heads that no build fits, the share that one would then fit [1].
    """

    zones: tuple[Zone, ...]
    thickness_mm: float
    closes: float


@dataclass(frozen=True)
class Coverage:
    """What a model can be made to fit.

    Parameters
    ----------
    shells, borders
        Shell by shell, and where two bands meet.
    below, above
        Share of heads outside the chart, on either side [1].
    added
        The one thickness that would help most; None where none would, or nothing lacks.
    guessed
        Whether insides are guessed.
    ages
        Whose heads were tried [years], none under 8; None for adults.
    """

    shells: tuple[ShellCoverage, ...]
    borders: tuple[BorderCoverage, ...]
    below: float
    above: float
    added: AddedThickness | None
    guessed: bool
    ages: tuple[float, float] | None

    @property
    def covered(self) -> float:
        """Share of the charted heads for which at least one build fits [1]."""
        whole = sum(each.share for each in self.shells)
        return sum(each.share * each.covered.value for each in self.shells) / max(whole, 1e-9)


@dataclass(frozen=True)
class _Tried:
    """One shell on heads, each in the best build found."""

    trial: Trial
    response: Response
    best: Tailored
    weight: float

    @cached_property
    def lacking(self) -> "_Tried":
        """The same with only the heads that no build fits, weighing as all of those do."""
        which = np.flatnonzero(~self.best.right)[:MOST_LACKING]
        trial = _some(self.trial, which)
        response = replace(
            self.response,
            trial=trial,
            stroke_mm=self.response.stroke_mm[which],
            brow_mm=self.response.brow_mm[which],
            stroke_slope=self.response.stroke_slope[which],
            brow_slope=self.response.brow_slope[which],
        )
        best = self.best
        few = Tailored(best.builds[which], best.flags[which], best.cost[which])
        every = float((~self.best.right).mean())
        return _Tried(trial, response, few, self.weight * every / max(len(which), 1))


def cover(
    sheet: ModelSheet,
    *,
    rng: np.random.Generator,
    heads: int = 200,
    tick: Callable[[], None] = lambda: None,
) -> Coverage:
    """Try a model on heads of those it is made for, each in the best build for it alone.

    Parameters
    ----------
    sheet
        The model; its ages say whose heads are drawn.
    rng
        The random generator; the same one gives the same answer.
    heads
        How many heads are tried in each shell; half as many where two bands meet.
    tick
        Called once for each of `coverage_parts`.

    Returns
    -------
    Coverage

    Notes
    -----
    A head comes with all that no tape tells, drawn once: so stands a player before the fitter. Its
    build is sought by descent over the linear guess from every crown pad, in single zones and in
    pairs, and solved; where the solution is off, the guess is corrected and the search repeated.
    What is called covered was solved and is right. A build may be missed: the shares are lower
    bounds, by 1 or 2 of 100 against a search on.
    """
    ages = sheet.ages and (max(sheet.ages[0], YOUNGEST), max(sheet.ages[1], YOUNGEST + 1.0))
    population = HeadDraws(head_prior(ages=ages).draw(POPULATION, rng).copy())
    tape = population.of(_TAPE)
    given = charted_shell(sheet, tape)
    tried, shells = [], []
    for shell in sheet.shells:
        where = given == shell.number
        chosen = np.flatnonzero(where)[:heads]
        share = float(where.mean())
        if chosen.size:
            one = _try(sheet, shell.number, population.values[chosen], share, rng)
            tried.append(one)
            shells.append(_told(one, shell.number, share))
        tick()
    borders = []
    for smaller, larger in pairwise(sheet.shells):
        ends = smaller.chart_high_mm, larger.chart_low_mm
        between = (min(ends) - BORDER_MM, max(ends) + BORDER_MM)
        borders += _border(sheet, (smaller.number, larger.number), between, population, heads, rng)
        tick()
    added = _added(sheet, tried)
    tick()
    lowest, highest = sheet.shells[0].chart_low_mm, sheet.shells[-1].chart_high_mm
    return Coverage(
        tuple(shells), tuple(borders), float((tape < lowest).mean()),
        float((tape > highest).mean()), added, sheet.insides is not None, ages,
    )  # fmt: skip


def coverage_parts(sheet: ModelSheet) -> int:
    """How often `cover` ticks."""
    return 2 * len(sheet.shells)


def _try(
    sheet: ModelSheet, number: int, values: Floats, weight: float, rng: np.random.Generator
) -> _Tried:
    """One shell on heads, each in the best build that is found for it."""
    count, laws = len(values), pad_laws(sheet)
    unknowns = draw_unknowns(sheet, count, rng)
    unknowns = in_shell(unknowns, draw_insides(sheet, count, rng).get(number))
    shapes = head_shapes(HeadDraws(values))
    trial = Trial(sheet, sheet.shell(number), laws, shapes, unknowns, Bands.of(sheet))
    response = respond(trial, Build(number, sheet.delivered), count)
    best = tailored(Tailor(response, Choices.of(sheet, laws)), trial)
    return _Tried(trial, response, best, weight)


def _told(one: _Tried, number: int, share: float) -> ShellCoverage:
    delivered = one.trial.rest(Build(number, one.trial.sheet.delivered)).right
    count = len(one.trial)
    return ShellCoverage(
        number, share, count, Share.of(delivered), Share.of(one.best.right), _holes(one.best)
    )


def _holes(best: Tailored) -> tuple[Hole, ...]:
    """Faults of the best builds that are not right, most frequent first."""
    brow = best.flags[:, -1]
    found = [
        Hole(FaultKind.BROW_LOW, None, float((brow == LOW).mean())),
        Hole(FaultKind.BROW_HIGH, None, float((brow == HIGH).mean())),
    ]
    for place, zone in enumerate(ZONES):
        found.append(Hole(FaultKind.LOOSE, zone, float(best.loose[:, place].mean())))
        found.append(Hole(FaultKind.TIGHT, zone, float(best.tight[:, place].mean())))
    held = [hole for hole in found if hole.share > 0]
    return tuple(sorted(held, key=lambda hole: -hole.share))


def _border(
    sheet: ModelSheet, numbers: tuple[int, int], between: tuple[float, float],
    population: HeadDraws, heads: int, rng: np.random.Generator,
) -> list[BorderCoverage]:  # fmt: skip
    """Both shells on the heads between them; nothing where there is no such head."""
    tape = population.of(_TAPE)
    where = (tape >= between[0]) & (tape <= between[1])
    chosen = np.flatnonzero(where)[: heads // 2]
    if not chosen.size:
        return []
    state = rng.bit_generator.state
    fits = []
    for number in numbers:
        rng.bit_generator.state = state  # the same unknowns in both shells
        fits.append(_try(sheet, number, population.values[chosen], 0.0, rng).best.right)
    told = (Share.of(fits[0]), Share.of(fits[1]), Share.of(fits[0] | fits[1]))
    return [BorderCoverage(*numbers, *between, float(where.mean()), chosen.size, *told)]


def _added(sheet: ModelSheet, tried: list[_Tried]) -> AddedThickness | None:
    """The thickness that closes most holes: all by the guess, the best few solved."""
    weighed = [one.lacking for one in tried if not one.best.right.all()]
    whole = sum(one.weight * len(one.trial) for one in weighed)
    if whole <= 0:
        return None
    candidates = _candidates(sheet)
    promised = [_closes(weighed, sheet, each, solved=False) for each in candidates]
    order = sorted(range(len(candidates)), key=lambda place: -promised[place])
    best: AddedThickness | None = None
    for place in order[:SOLVED_REMEDIES]:
        zones, thickness = candidates[place]
        closes = _closes(weighed, sheet, candidates[place], solved=True) / whole
        if closes > 0 and (best is None or closes > best.closes):
            best = AddedThickness(zones, thickness, closes)
    return best


def _candidates(sheet: ModelSheet) -> list[tuple[tuple[Zone, ...], float]]:
    """A step thinner, a step thicker, and into a step that is wider than the window forgives."""
    found: list[tuple[tuple[Zone, ...], float]] = []
    for zone in ZONES:
        pad = sheet.pad(zone)
        if ZONES.index(zone.mirrored) < ZONES.index(zone) or not pad.seats:
            continue
        zones = tuple(dict.fromkeys((zone, zone.mirrored)))
        found += [(zones, thickness) for thickness in _new_thicknesses(pad)]
    return found


def _new_thicknesses(pad: PadKind) -> list[float]:
    sizes = pad.thicknesses_mm
    steps = np.diff(sizes)
    step = float(np.median(steps)) if len(steps) else 3.175
    found = [size for size in (sizes[0] - step, sizes[-1] + step) if size >= THINNEST_MM]
    window = snug_window(pad).window_mm
    if len(steps) and steps.max() > 0.8 * window:
        place = int(np.argmax(steps))
        found.append(0.5 * (sizes[place] + sizes[place + 1]))
    return found


def _closes(
    lacking: list[_Tried], sheet: ModelSheet, added: tuple[tuple[Zone, ...], float], *, solved: bool
) -> float:
    """Weight of the heads that one thickness more would fit."""
    wider = _with_thickness(sheet, *added)
    laws = pad_laws(wider)
    choices = Choices.of(wider, laws)
    closed = 0.0
    for one in lacking:
        tailor = Tailor(one.response, choices)
        if solved:
            trial = replace(one.trial, sheet=wider, laws=laws)
            right = tailored(tailor, trial, polish=False).right
        else:
            off = np.zeros_like(one.response.stroke_mm), np.zeros_like(one.response.brow_mm)
            right = tailor.sought(*off).cost == 0.0
        closed += one.weight * float(right.sum())
    return closed


def _with_thickness(sheet: ModelSheet, zones: tuple[Zone, ...], thickness_mm: float) -> ModelSheet:
    """The sheet with a thickness behind the others, which keep their places."""
    pads = tuple(
        replace(
            pad,
            labels=(*pad.labels, f"{thickness_mm:.1f} mm"),
            thicknesses_mm=(*pad.thicknesses_mm, thickness_mm),
        )
        if pad.zone in zones
        else pad
        for pad in sheet.pads
    )
    return replace(sheet, pads=pads)


def _some(trial: Trial, which: npt.NDArray[np.intp]) -> Trial:
    """A trial on some of its heads."""
    return trial.on(trial.heads.chosen(which), trial.unknowns.chosen(which))
