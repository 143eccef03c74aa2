"""From a head estimate and a model sheet to ranked builds with their chances."""

from collections.abc import Sequence
from copy import deepcopy
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws, HeadEstimate
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.account import account
from helmwright.fit.begin import begins
from helmwright.fit.chart import shell_chances, shells_to_try
from helmwright.fit.contact import Trial
from helmwright.fit.covering import covered, covering_layers, worn_tape
from helmwright.fit.drivers import count_drivers
from helmwright.fit.face import face_outlook
from helmwright.fit.insides import calipers_gain, draw_insides, in_shell
from helmwright.fit.near import Near, near
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.next_measure import Earlier, earlier_of, fit_chances, measure_gains, rivals
from helmwright.fit.outlook import (
    Build,
    BuildOutlook,
    InsideGain,
    MeasureGain,
    Proposal,
    ShellChance,
)
from helmwright.fit.race import Track
from helmwright.fit.rater import Rater
from helmwright.fit.search import (
    Allowed,
    Effort,
    anything,
    best_delivered,
    has_in,
    origin,
    ranked,
    search,
)
from helmwright.fit.seating import PadLaws, pad_laws
from helmwright.fit.size_risk import size_risk
from helmwright.fit.turns import Ground
from helmwright.fit.unknowns import draw_unknowns
from helmwright.fit.verdict import Bands

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Draws:
    """Heads, and the trials of each shell, all on the same draws; errors of guessed insides."""

    heads: HeadDraws
    track: Track
    insides: dict[int, Floats]


def propose(
    estimate: HeadEstimate,
    sheet: ModelSheet,
    *,
    rng: np.random.Generator,
    current: Build | None = None,
    effort: Effort | None = None,
    bands: Bands | None = None,
    rater: Rater | None = None,
    laws: PadLaws | None = None,
    allowed: Allowed = anything,
    lies: Sequence[Build] = (),
) -> Proposal:
    """Rank the builds of a model for one head.

    Parameters
    ----------
    estimate
        What is believed of the head.
    sheet
        The model.
    rng
        The random generator; the same one gives the same answer.
    current
        The build in the helmet now; the delivered one of the likeliest shell where None. Another
        shell's changes are counted from how that shell is delivered.
    effort, bands, rater
        How many draws; what counts as right, by default with the brow height of the maker's
        instructions; who checks.
    laws
        The sheet's pad laws, where they are at hand; by default over what the readings were taken
        over.
    allowed
        Whether the parts of a build are at hand; the builds ranked are only such.
    lies
        What lies in further helmets that may be taken.

    Returns
    -------
    Proposal

    Raises
    ------
    ForbiddenBuildError
        Where `current` is no build of the sheet.
    NothingAtHandError
        Where no build of any shell is at hand.

    Notes
    -----
    Half a million builds of a shell cannot be tried on every head. For each shell that the chart
    makes possible, a climb over single and paired changes of pads uses a linear guess that is
    solved anew where it arrives; its best builds race on common draws, losers dropping out by a
    sign test; the winner's neighbors are climbed and raced once more. The guess is an
    approximation, the climb may miss a better build, and the race tells builds apart only as far
    as its draws go: `docs/explanation/search.md` says what that costs. The chances are counted on
    draws that chose nothing.
    """
    effort, bands, rater = effort or Effort(), bands or Bands.of(sheet), rater or Rater()
    laws = laws or laws_on(estimate, sheet)
    tape = worn_tape(estimate, CHART_DRAWS, rng)
    numbers = _at_hand(sheet, shells_to_try(sheet, tape), current, lies, allowed)
    start = _allowed(current, sheet) if current else Build(numbers[0], sheet.delivered)
    draws = _draw(estimate, sheet, laws, bands, numbers, effort.race, rng)
    field = search(draws.track, sheet, start, effort, allowed, lies)
    shells = shell_chances(sheet, tape)
    builds = ranked(field, _charted(shells, numbers), start, sheet, allowed)[: effort.ranked]
    delivered = best_delivered(draws.track, sheet, effort)
    again = deepcopy(rng)
    fresh = _draw(estimate, sheet, laws, bands, numbers, effort.fresh, rng)
    outlooks = _accounts(fresh, [*builds, delivered], start, sheet, rater)
    ground = Ground(estimate, fresh.heads, fresh.track.trials, again, fresh.insides)
    outlooks = _driven(ground, outlooks, rater, effort)
    best = builds[0]
    around = near(draws.track, field, best, sheet, effort)
    return Proposal(
        model=sheet.model,
        shells=shells,
        ranked=outlooks[:-1],
        delivered=outlooks[-1],
        next_measures=_gains(draws, around, builds, earlier_of(estimate), effort, rng),
        within_reach=_within_reach(fresh, around.covering(REACH)),
        draws=effort.fresh,
        measured=estimate.is_sized,
        insides_known=sheet.insides is None or not sheet.insides.unmeasured(builds[0].shell),
        inside_gain=_calipers(draws, outlooks[0], effort, rng),
        face=face_outlook(
            fresh.track.trials[best.shell],
            fresh.heads,
            best,
            rng=rng,
            labels=estimate.belief.labels,
            weights=estimate.belief.weights,
        ),
        size_risk=size_risk(estimate, sheet, tape),
    )


CHART_DRAWS = 4000
REACH = 16
"""Builds that are tried together to say what is within reach."""

REACH_HEADS = 300


def _charted(shells: tuple[ShellChance, ...], numbers: tuple[int, ...]) -> dict[int, float]:
    """How often the chart names each shell that is tried; 0 for one that it never names."""
    said = {one.shell: one.chance for one in shells}
    return {number: said.get(number, 0.0) for number in numbers}


def laws_on(estimate: HeadEstimate, sheet: ModelSheet) -> PadLaws:
    """The laws of a sheet's pads over what the readings were taken over."""
    return pad_laws(sheet, zones_over=covering_layers(estimate))


def trial_on(
    estimate: HeadEstimate, sheet: ModelSheet, shell: int, count: int, rng: np.random.Generator
) -> Trial:
    """One shell on fresh draws of a head, as a proposal would state its chances on."""
    laws, bands = laws_on(estimate, sheet), Bands.of(sheet)
    return _draw(estimate, sheet, laws, bands, (shell,), count, rng).track.trials[shell]


class ForbiddenBuildError(ValueError):
    """The build in the helmet is none that the model sheet has."""


def _allowed(current: Build, sheet: ModelSheet) -> Build:
    listed = any(shell.number == current.shell for shell in sheet.shells)
    if not (listed and is_allowed(sheet, current.pads)):
        raise ForbiddenBuildError(
            f"the build in the helmet now (shell {current.shell}, pads {current.pads}) is none "
            f"that the sheet of {sheet.model} allows; give one of its shells and its pads"
        )
    return current


class NothingAtHandError(ValueError):
    """No build of the model can be put together from what is at hand."""


def _at_hand(
    sheet: ModelSheet,
    numbers: tuple[int, ...],
    current: Build | None,
    lies: Sequence[Build],
    allowed: Allowed,
) -> tuple[int, ...]:
    """The shells of which a build is at hand; where that is none, the nearest one of which it is.

    Of two that are as near, the one that a reading between two bands would take.
    """
    larger = 1 if sheet.between_bands == "larger" else -1
    others = [shell.number for shell in sheet.shells if shell.number not in numbers]
    others.sort(key=lambda number: (abs(number - numbers[0]), -larger * number))
    start = current.pads if current else sheet.delivered

    def is_here(number: int) -> bool:
        return bool(begins(sheet, start, lies, number, has_in(number, allowed)))

    found = tuple(number for number in numbers if is_here(number))
    found = found or tuple(number for number in others if is_here(number))[:1]
    if not found:
        raise NothingAtHandError(
            f"no build of {sheet.model} can be put together from what is at hand"
        )
    return found


def _within_reach(fresh: Draws, builds: list[Build]) -> float:
    """Share of fresh heads on which at least one of the builds fits."""
    heads = min(REACH_HEADS, len(fresh.heads))
    fitted = [fresh.track.run(build, heads).right for build in builds]
    return float(np.any(fitted, axis=0).mean()) if fitted else 0.0


def _draw(
    estimate: HeadEstimate, sheet: ModelSheet, laws: PadLaws, bands: Bands,
    numbers: tuple[int, ...], count: int, rng: np.random.Generator,
) -> Draws:  # fmt: skip
    heads = estimate.draw(count, rng)
    shapes = head_shapes(heads)
    unknowns = covered(draw_unknowns(sheet, count, rng), heads, estimate)
    insides = draw_insides(sheet, count, rng)
    trials = {
        number: Trial(
            sheet, sheet.shell(number), laws, shapes, in_shell(unknowns, insides.get(number)), bands
        )
        for number in numbers
    }
    return Draws(heads, Track(trials), insides)


def _calipers(
    draws: Draws, best: BuildOutlook, effort: Effort, rng: np.random.Generator
) -> InsideGain | None:
    """What calipers in the proposed shell would add."""
    shell = best.build.shell
    return calipers_gain(draws.track.trials[shell], draws.insides.get(shell), best, effort, rng)


def _gains(
    draws: Draws, around: Near, builds: list[Build], earlier: dict[str, Earlier],
    effort: Effort, rng: np.random.Generator,
) -> tuple[MeasureGain, ...]:  # fmt: skip
    """What each measure would add, on all heads of the race."""
    trials = draws.track.trials
    shares = [
        fit_chances(trials[build.shell], build, effort.race, draws.insides.get(build.shell))
        for build in rivals(around, builds, draws.heads)
    ]
    return measure_gains(np.array(shares), draws.heads, earlier, rng)


def _driven(
    ground: Ground, outlooks: tuple[BuildOutlook, ...], rater: Rater, effort: Effort
) -> tuple[BuildOutlook, ...]:
    """The outlooks, those that were asked for with what drives their chances."""
    best, delivered = outlooks[:-1][: effort.driven_builds], outlooks[-1:]
    asked = (*best, *delivered) if effort.driven_builds > 1 else best
    drivers = count_drivers(ground, [one.build for one in asked], rater, effort.driven)
    return tuple(replace(one, drivers=drivers.get(one.build, ())) for one in outlooks)


def _accounts(
    fresh: Draws, builds: list[Build], start: Build, sheet: ModelSheet, rater: Rater
) -> tuple[BuildOutlook, ...]:
    told = {
        build: account(
            fresh.track.trials[build.shell], build, origin(build, start, sheet), rater=rater
        )
        for build in dict.fromkeys(builds)
    }
    return tuple(told[build] for build in builds)
