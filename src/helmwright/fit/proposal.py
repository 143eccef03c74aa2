"""From a head estimate and a model sheet to ranked builds with their chances."""

from dataclasses import dataclass

import numpy as np

from helmwright.anatomy import HeadDraws, HeadEstimate
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.account import account
from helmwright.fit.chart import shell_chances, shells_to_try
from helmwright.fit.contact import Trial
from helmwright.fit.neighborhood import is_allowed
from helmwright.fit.next_measure import ASKABLE, measure_gains
from helmwright.fit.outlook import Build, BuildOutlook, Proposal
from helmwright.fit.race import Track
from helmwright.fit.rater import Rater
from helmwright.fit.search import Effort, best_delivered, near_verdicts, origin, ranked, search
from helmwright.fit.seating import PadLaws, pad_laws
from helmwright.fit.unknowns import draw_unknowns
from helmwright.fit.verdict import Bands


@dataclass(frozen=True)
class Draws:
    """Heads, and the trials of each shell, all on the same draws."""

    heads: HeadDraws
    track: Track


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
        How many draws; what counts as right; who checks.
    laws
        The sheet's pad laws, where they are at hand; with hair or a cap, if any is worn.

    Returns
    -------
    Proposal

    Raises
    ------
    ForbiddenBuildError
        Where `current` is no build of the sheet.

    Notes
    -----
    Half a million builds of a shell cannot be tried on every head. For each shell that the chart
    makes possible, a climb over single and paired changes of pads uses a linear guess that is
    solved anew where it arrives; its best builds race on common draws, losers dropping out by a
    sign test; the winner's neighbors are climbed and raced once more. The guess is an
    approximation and the climb may miss a better build: `docs/explanation/search.md` says how
    often and by how much. The race is exact up to its level, and the chances are counted on
    draws that chose nothing.
    """
    effort, bands, rater = effort or Effort(), bands or Bands(), rater or Rater()
    laws = laws or pad_laws(sheet)
    tape = estimate.draw(4000, rng).of("tape_circumference")
    numbers = shells_to_try(sheet, tape)
    start = _allowed(current, sheet) if current else Build(numbers[0], sheet.delivered)
    draws = _draw(estimate, sheet, laws, bands, numbers, effort.race, rng)
    field = search(draws.track, sheet, start, effort)
    builds = ranked(field, numbers, start, sheet)[: effort.ranked]
    delivered = best_delivered(draws.track, sheet, effort)
    fresh = _draw(estimate, sheet, laws, bands, numbers, effort.fresh, rng)
    outlooks = _accounts(fresh, [*builds, delivered], start, sheet, rater)
    near = near_verdicts(draws.track, builds[0], effort)
    missing = tuple(key for key in ASKABLE if key not in estimate.read)
    return Proposal(
        model=sheet.model,
        shells=shell_chances(sheet, tape),
        ranked=outlooks[:-1],
        delivered=outlooks[-1],
        next_measures=measure_gains(near, draws.heads, missing, rng),
        within_reach=float(near.any(axis=0).mean()),
        draws=effort.fresh,
    )


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


def _draw(
    estimate: HeadEstimate, sheet: ModelSheet, laws: PadLaws, bands: Bands,
    numbers: tuple[int, ...], count: int, rng: np.random.Generator,
) -> Draws:  # fmt: skip
    heads = estimate.draw(count, rng)
    shapes, unknowns = head_shapes(heads), draw_unknowns(sheet, count, rng)
    trials = {
        number: Trial(sheet, sheet.shell(number), laws, shapes, unknowns, bands)
        for number in numbers
    }
    return Draws(heads, Track(trials))


def _accounts(
    fresh: Draws, builds: list[Build], start: Build, sheet: ModelSheet, rater: Rater
) -> tuple[BuildOutlook, ...]:
    return tuple(
        account(fresh.track.trials[build.shell], build, origin(build, start, sheet), rater=rater)
        for build in builds
    )
