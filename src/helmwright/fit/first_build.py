"""The first build of a visit: a proposal, told as what to try and what to measure before."""

from collections.abc import Collection
from dataclasses import replace

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.minutes import Minutes
from helmwright.fit.next_build import LEAST_WORTH, NextBuilds, Option
from helmwright.fit.outlook import Build, BuildOutlook, MeasureGain, Proposal
from helmwright.fit.search import Effort, origin

QUICK = Effort(driven_builds=0)
"""A proposal that does not count what drives its chances."""


def as_next(
    proposal: Proposal,
    sheet: ModelSheet,
    current: Build | None,
    minutes: Minutes,
    skipped: Collection[str] = (),
) -> NextBuilds:
    """What to try first on a head, or to measure before that: a proposal, with its minutes.

    Parameters
    ----------
    proposal
        The answer for one player.
    sheet, current
        The model, and what is in the helmet now; where None, any shell is fetched as delivered,
        which is charged to none of them.
    minutes
        What each act takes.
    skipped
        Measures that are not to be asked for.

    Notes
    -----
    Before anything is found no pad is known to be snug, and the order is the proposal's: chance,
    with a charge for each pad and for another shell than the chart's. A measure is asked for where
    it pays as before any other try; one that was read already is not.
    """
    options = tuple(
        _option(one, current or Build(one.build.shell, sheet.delivered), sheet, minutes)
        for one in proposal.ranked
        if one.found_right.value >= LEAST_WORTH.value
    )
    measure = _measure(proposal, options[0], minutes, skipped) if options else None
    return NextBuilds(options, measure, proposal.draws)


def _option(one: BuildOutlook, start: Build, sheet: ModelSheet, minutes: Minutes) -> Option:
    changing = minutes.changing(start, one.build, sheet)
    whole = changing + minutes.trying(sheet)
    lying = origin(one.build, start, sheet)
    return Option(one.build, one.found_right, one.fits, changing, whole, lying, one.changes)


def _measure(
    proposal: Proposal, best: Option, minutes: Minutes, skipped: Collection[str]
) -> MeasureGain | None:
    """The measure that pays before the best build is tried, as in `next_build_measure`.

    A gain of fit counts as one of being found right by their ratio in the best build, and is told
    as that.
    """
    chance, found_share = best.found_right.value, best.found_right.value / best.fits.value

    def ratio(gain: MeasureGain) -> float:
        sure = max(gain.gain - gain.error, 0.0)
        return (minutes.measuring(gain.measure) + best.minutes) / (chance + sure)

    gains = [
        replace(gain, gain=gain.gain * found_share, error=gain.error * found_share)
        for gain in proposal.next_measures
        if not gain.repeat and gain.measure not in skipped
    ]
    found = min(gains, key=ratio, default=None)
    return found if found is not None and ratio(found) < best.minutes / chance else None
