"""A guide without beliefs: from each wrong zone one step; for the terminal's own tests."""

from collections.abc import Sequence

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES
from helmwright.fit.finding import Grade
from helmwright.fit.outlook import Build
from helmwright.visit.check import Check, Stage
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import Accepted, Event, LookAsked, NoBuild, Proposed, Would
from helmwright.visit.looks import grade_of
from helmwright.visit.state import Visit, fold
from helmwright.visit.step import AskCheck, AskPutOn, Ended, PausedNow, Record, Step


class StepGuide:
    """Proposes what is in the helmet, then one step at every wrong zone; looks twice at a brow."""

    def __init__(self, sheet: ModelSheet, protocol: Protocol, most_try_ons: int = 3) -> None:
        self.sheet, self.protocol, self.most_try_ons = sheet, protocol, most_try_ons

    def visit(self, events: Sequence[Event]) -> Visit:
        return fold(events)

    def next(self, events: Sequence[Event]) -> Step:
        visit = fold(events)
        if visit.ended is not None:
            return Ended(visit.ended)
        if visit.paused:
            return PausedNow()
        if visit.proposal is not None:
            before = self._unanswered(Stage.BEFORE, visit.ahead)
            if before and not visit.try_ons:
                return AskCheck(before[0], 1, "", before[1:])
            return AskPutOn(visit.proposal.build, visit.in_helmet or self._delivered())
        if visit.now is None:
            return self._propose(visit)
        return self._checked(visit)

    def _checked(self, visit: Visit) -> Step:
        now = visit.now
        assert now is not None
        if visit.look is not None:
            return AskCheck(self.protocol.check(visit.look.check), 2, visit.look.why)
        for stage in (Stage.CONTACT, Stage.HELD, Stage.WORN, Stage.HANDED_OVER):
            left = self._unanswered(stage, now.answers)
            if self._wrong(visit) and left and left[0].key == "brow":
                return self._propose(visit)  # it did not go on
            if left:
                return AskCheck(left[0], 1, "", () if left[0].key == "put on" else left[1:])
            wrong = self._wrong(visit)
            if any(check.key == "brow" for check in wrong) and not now.asked:
                return Record(LookAsked("brow", "The brow surprised."))
            if wrong:
                return self._propose(visit)
        return Record(Accepted(now.build))

    def _wrong(self, visit: Visit) -> list[Check]:
        assert visit.now is not None
        last = {given.check: given for given in visit.now.answers}
        return [
            check
            for check in self.protocol.checks
            if check.key in last and grade_of(check, last[check.key]) is not Grade.RIGHT
        ]

    def _propose(self, visit: Visit) -> Step:
        if len(visit.try_ons) >= self.most_try_ons:
            would = Would(self._delivered(), ("front 1 1/8 in",), 0.61)
            return Record(NoBuild("Three builds were tried.", (would,)))
        if visit.now is None:
            build, why = visit.in_helmet or self._delivered(), "It is in the helmet now."
        else:
            build, why = self._stepped(visit), f"{self._wrong(visit)[0].title} was wrong."
        return Record(Proposed(build, 0.56, 0.48, 4.2, why, 300.0))

    def _stepped(self, visit: Visit) -> Build:
        assert visit.now is not None
        pads = dict(zip(ZONES, visit.now.build.pads, strict=True))
        last = {given.check: given for given in visit.now.answers}
        for check in self._wrong(visit):
            if check.zone is not None:
                step = -int(grade_of(check, last[check.key]))
                most = len(self.sheet.pad(check.zone).labels) - 1
                pads[check.zone] = min(max(pads[check.zone] + step, 0), most)
        return Build(visit.now.build.shell, tuple(pads.values()))

    def _delivered(self) -> Build:
        return Build(3, self.sheet.delivered)

    def _unanswered(self, stage: Stage, answers: Sequence[object]) -> tuple[Check, ...]:
        done = {getattr(given, "check", "") for given in answers}
        return tuple(check for check in self.protocol.stage(stage) if check.key not in done)
