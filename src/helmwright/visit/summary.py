"""A visit in retrospect, as data for pages and tables."""

from dataclasses import dataclass

from helmwright.anatomy import Reading
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import Zone
from helmwright.fit.finding import Grade
from helmwright.fit.outlook import Build
from helmwright.visit.at_hand import before_try_on
from helmwright.visit.check import SubScore
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import Accepted, NoBuild, Proposed, Stopped, SymptomReported
from helmwright.visit.looks import Looked
from helmwright.visit.round import answers_about
from helmwright.visit.state import Visit
from helmwright.visit.sub_scores import Score, sub_scores


@dataclass(frozen=True, slots=True)
class TryOnSummary:
    """One try-on in retrospect.

    Parameters
    ----------
    number
        From 1.
    build
        What was on the head.
    other_shell
        Whether another shell was taken for it.
    changed
        Zones whose pad was changed for it, from what lay in that shell before.
    proposed
        What the program had proposed: its chances, its minutes, and why; None where nothing.
    reason
        Why another build was put on than the proposed one.
    checks
        Every check that was answered, in the protocol's order, with all its answers.
    looks
        Why checks were asked again, by their key.
    """

    number: int
    build: Build
    other_shell: bool
    changed: tuple[Zone, ...]
    proposed: Proposed | None
    reason: str
    checks: tuple[Looked, ...]
    looks: dict[str, str]

    @property
    def wrong(self) -> tuple[Looked, ...]:
        """The checks that did not come out right."""
        return tuple(one for one in self.checks if one.verdict not in (None, Grade.RIGHT))


@dataclass(frozen=True, slots=True)
class VisitSummary:
    """A visit in retrospect.

    Parameters
    ----------
    who
        The player.
    try_ons
        In order.
    measured, skipped
        Readings taken in the visit, and measures left out.
    ended
        How it ended; None where it goes on.
    standing
        How each check came out when it was answered last, by its key.
    scores
        The five, each by itself; there is no total.
    """

    who: str
    try_ons: tuple[TryOnSummary, ...]
    measured: tuple[Reading, ...]
    skipped: tuple[str, ...]
    ended: Accepted | NoBuild | Stopped | SymptomReported | None
    standing: dict[str, Grade]
    scores: dict[SubScore, Score]


def summary(visit: Visit, protocol: Protocol, sheet: ModelSheet) -> VisitSummary:
    """A visit in retrospect.

    Parameters
    ----------
    visit
        Where it stands.
    protocol, sheet
        Its checks and the model.
    """
    tried = tuple(_summed(visit, place, protocol, sheet) for place in range(len(visit.try_ons)))
    standing: dict[str, Grade] = {}
    for one in (looked for each in tried for looked in each.checks):
        if one.verdict is not None:
            standing[one.check.key] = one.verdict
    return VisitSummary(
        who=visit.started.who,
        try_ons=tried,
        measured=visit.readings[len(visit.started.readings) :],
        skipped=tuple(sorted(visit.skipped)),
        ended=visit.ended,
        standing=standing,
        scores=sub_scores(protocol, standing),
    )


def _summed(visit: Visit, place: int, protocol: Protocol, sheet: ModelSheet) -> TryOnSummary:
    tried = visit.try_ons[place]
    looked = (Looked(check, answers_about(check, tried.answers)) for check in protocol.checks)
    there = before_try_on(visit, tried, sheet)
    before = tried.lay or there.lies_for(tried.build)
    return TryOnSummary(
        number=tried.number,
        build=tried.build,
        other_shell=there.helmet is not None and there.helmet.shell != tried.build.shell,
        changed=tried.build.changes_from(before),
        proposed=tried.proposed,
        reason=tried.reason,
        checks=tuple(one for one in looked if one.answers),
        looks={asked.check: asked.why for asked in tried.asked},
    )
