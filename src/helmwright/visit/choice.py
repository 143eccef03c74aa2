"""What the program says once a round is over: the next build, a measure first, or none."""

from collections import OrderedDict
from collections.abc import Callable, Sequence
from functools import partial

import numpy as np

from helmwright.anatomy import HeadEstimate
from helmwright.fit.anew import Anew
from helmwright.fit.chart import shells_to_try
from helmwright.fit.finding import Finding
from helmwright.fit.first_build import QUICK, as_next
from helmwright.fit.minutes import Minutes
from helmwright.fit.next_build import NextBuilds, Option, next_builds
from helmwright.fit.next_build_why import why
from helmwright.fit.outlook import Build, MeasureGain, Proposal
from helmwright.fit.proposal import NothingAtHandError, propose
from helmwright.fit.search import Allowed, anything
from helmwright.fit.would_fit import would_fit
from helmwright.visit.at_hand import at_hand
from helmwright.visit.belief import FEW, Beliefs, batches, digest, generator, head_of, keep
from helmwright.visit.check import Check
from helmwright.visit.event import MeasureAsked, NoBuild, Proposed, Started, Would
from helmwright.visit.looks import Looked
from helmwright.visit.reasons import measure_sentence, sentence
from helmwright.visit.round import answers_about, is_wrong, standing_finding
from helmwright.visit.shelf import Shelf
from helmwright.visit.state import TryOn, Visit

Propose = Callable[[HeadEstimate, Build | None, Allowed, np.random.Generator], Proposal]
"""Finds builds for a head from what is in the helmet now, among those whose parts are at hand."""

NOTHING_HERE = (
    "No build that can be made up from the parts here is likely enough to be found right to be "
    "worth a try-on."
)
NOTHING_ANYWHERE = (
    "No build of this model that is left is likely enough to be found right to be worth a try-on: "
    "this head needs another model."
)
TAPE = "tape_circumference"
TAPE_FIRST = "Nothing says yet how large this head is: the tape comes first."

Said = Proposed | MeasureAsked | NoBuild


class Chooser:
    """Chooses what to try or to measure next.

    Parameters
    ----------
    beliefs
        What is believed of the head, the helmet and the fitter.
    checks
        The protocol's.
    minutes
        What each act takes.
    measures
        Whether a measure may be asked for.
    propose
        Finds the first build; the usual search where None.
    """

    def __init__(
        self,
        beliefs: Beliefs,
        checks: Sequence[Check],
        minutes: Minutes,
        *,
        measures: bool = True,
        propose: Propose | None = None,
    ) -> None:
        self.beliefs, self.checks, self.minutes = beliefs, checks, minutes
        self.measures, self._propose = measures, propose
        self._said: OrderedDict[str, Said] = OrderedDict()
        self._options: OrderedDict[str, tuple[Option, ...]] = OrderedDict()
        self._proposals: OrderedDict[str, Proposal | None] = OrderedDict()
        self._shelves: OrderedDict[str, Shelf] = OrderedDict()

    def choose(self, visit: Visit) -> Said:
        """What to say where another build is needed, or the first."""
        key = digest(visit)
        if key not in self._said:
            keep(self._said, key, self._chosen(visit), FEW)
        return self._said[key]

    def options(self, visit: Visit) -> tuple[Option, ...]:
        """What could be tried where another build is needed, or the first; the best first."""
        key = digest(visit)
        if key not in self._options:
            following = self._following(visit)
            keep(self._options, key, following.options if following else (), FEW)
        return self._options[key]

    def gains(self, visit: Visit) -> tuple[MeasureGain, ...]:
        """What one more measure would add to the first build's chance to fit; the most first."""
        if visit.try_ons or not self.options(visit):
            return ()
        proposal = self._first_proposal(visit)
        found = () if proposal is None else proposal.next_measures
        return tuple(
            gain for gain in found if not gain.repeat and gain.measure not in visit.skipped
        )

    def nothing(self, visit: Visit, because: str = "") -> Said:
        """The end where nothing here fits, with what would.

        Parameters
        ----------
        visit
            Where the visit stands.
        because
            Why it ends; by default that nothing is worth a try-on.
        """
        key = digest(visit, because)
        if key not in self._said:
            keep(self._said, key, self._ended(visit, because), FEW)
        return self._said[key]

    def _ended(self, visit: Visit, because: str) -> NoBuild:
        shelf = self._shelf(visit)
        if shelf.counts is None:
            return NoBuild(because or NOTHING_ANYWHERE)
        instead = would_fit(
            self.beliefs.after(visit, batches(self.checks, visit)).cloud,
            self._in_helmet(visit),
            lacking=partial(shelf.lacking, helmet=visit.in_helmet, worn=bool(visit.try_ons)),
            rejected=self.rejected(visit),
            rater=self.beliefs.rater,
        )
        would = tuple(Would(plain(one.build), one.lacking, one.fits.value) for one in instead)
        return NoBuild(because or (NOTHING_HERE if would else NOTHING_ANYWHERE), would)

    def at_hand(self, shell: int) -> Build:
        """A shell as it arrives: what is in the helmet where nobody said."""
        return Build(shell, self.beliefs.sheet.delivered)

    def rejected(self, visit: Visit) -> tuple[Build, ...]:
        """Builds that were given up for what was found, and those on which something is wrong."""
        given_up = set(visit.rejected)
        builds = (
            tried.build
            for tried in visit.try_ons
            if tried.build in given_up or self._is_wrong(tried)
        )
        return tuple(dict.fromkeys(builds))

    def _chosen(self, visit: Visit) -> Said:
        following = self._following(visit)
        if following is None:
            return MeasureAsked(TAPE, TAPE_FIRST)
        keep(self._options, digest(visit), following.options, FEW)
        if not visit.try_ons:
            return self._said_of(visit, following, float("nan"))
        belief = self.beliefs.after(visit, batches(self.checks, visit))
        share = following.draws / len(belief.cloud)
        return self._said_of(visit, following, belief.effective * share)

    def _following(self, visit: Visit) -> NextBuilds | None:
        """What to do next; None where nothing says yet how large the head is."""
        if not visit.try_ons:
            unsized = not self.beliefs.estimate(visit).is_sized and TAPE not in visit.skipped
            return None if self.measures and unsized else self._first(visit)
        tried = batches(self.checks, visit)
        belief = self.beliefs.after(visit, tried)
        rng = generator(visit, "next", visit.skipped, tried)
        return next_builds(
            Anew.drawn(belief.cloud, rng),
            self._in_helmet(visit),
            rng=rng,
            lies=at_hand(visit, self.beliefs.sheet).lying,
            rejected=self.rejected(visit),
            tried=[each.build for each in visit.try_ons],
            allowed=self._allowed(visit),
            found=self._found(visit),
            minutes=self.minutes,
            rater=self.beliefs.rater,
            skipped=visit.skipped,
            would_measure=self.measures,
        )

    def _said_of(self, visit: Visit, following: NextBuilds, effective: float) -> Said:
        if not following.options:
            return self.nothing(visit)
        best = following.options[0]
        gain = following.measure
        if gain is not None and self.measures:
            said = measure_sentence(gain, best.found_right.value)
            return MeasureAsked(gain.measure, said)
        found = self._found(visit) if visit.try_ons else ()
        before = visit.in_helmet or best.lying
        return Proposed(
            build=plain(best.build),
            fits=best.fits.value,
            found_right=best.found_right.value,
            minutes=best.minutes,
            why=sentence(why(best, found, self.beliefs.sheet, before)),
            effective=float(following.draws) if np.isnan(effective) else effective,
        )

    def _first(self, visit: Visit) -> NextBuilds:
        proposal = self._first_proposal(visit)
        if proposal is None:
            return NextBuilds(())
        sheet, current = self.beliefs.sheet, visit.started.current
        return as_next(proposal, sheet, current, self.minutes, visit.skipped)

    def _first_proposal(self, visit: Visit) -> Proposal | None:
        begun = visit.started
        here = begun.current, begun.shelf, begun.helmets, visit.missing
        key = digest(head_of(visit), *here)
        if key not in self._proposals:
            keep(self._proposals, key, self._proposal(visit))
        return self._proposals[key]

    def _proposal(self, visit: Visit) -> Proposal | None:
        estimate, rng = self.beliefs.estimate(visit), generator(visit, "first", head_of(visit))
        begun, allowed = visit.started, self._allowed(visit)
        try:
            if self._propose is not None:
                return self._propose(estimate, begun.current, allowed, rng)
            return self._searched(estimate, begun, allowed, rng)
        except NothingAtHandError:
            return None

    def _searched(
        self, estimate: HeadEstimate, begun: Started, allowed: Allowed, rng: np.random.Generator
    ) -> Proposal:
        beliefs = self.beliefs
        return propose(
            estimate, beliefs.sheet, rng=rng, current=begun.current, effort=QUICK,
            bands=beliefs.bands, rater=beliefs.rater, laws=beliefs.laws, allowed=allowed,
            lies=begun.helmets,
        )  # fmt: skip

    def _found(self, visit: Visit) -> tuple[Finding, ...]:
        """What stands of every check on the build that was on the head last."""
        answers = visit.try_ons[-1].answers
        looked = [Looked(check, answers_about(check, answers)) for check in self.checks]
        return tuple(finding for one in looked for finding in standing_finding(one))

    def _is_wrong(self, tried: TryOn) -> bool:
        looked = (Looked(check, answers_about(check, tried.answers)) for check in self.checks)
        return any(is_wrong(one) for one in looked)

    def _in_helmet(self, visit: Visit) -> Build:
        if visit.in_helmet is not None:
            return visit.in_helmet
        tape = np.array([self.beliefs.estimate(visit).mean_of("tape_circumference")])
        return self.at_hand(shells_to_try(self.beliefs.sheet, tape)[0])

    def _shelf(self, visit: Visit) -> Shelf:
        """What is at this store now, beside the helmet at hand."""
        sheet, rows = self.beliefs.sheet, visit.started.shelf
        there = at_hand(visit, sheet)
        key = digest(rows, there, visit.missing)
        if key not in self._shelves:
            shelf = Shelf.of(sheet, rows).after(there).without(visit.missing)
            keep(self._shelves, key, shelf)
        return self._shelves[key]

    def _allowed(self, visit: Visit) -> Allowed:
        shelf = self._shelf(visit)
        if shelf.counts is None:
            return anything
        return partial(shelf.allows, helmet=visit.in_helmet, worn=bool(visit.try_ons))


def plain(build: Build) -> Build:
    """A build in plain whole numbers, as it is written down."""
    return Build(int(build.shell), tuple(int(pad) for pad in build.pads))
