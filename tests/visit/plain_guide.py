"""A guide without a belief: a loose front gets a thicker pad, and that is all it knows."""

from dataclasses import replace

from helmwright.catalogue import ZONES, Zone, load_packaged
from helmwright.fit.finding import Grade
from helmwright.fit.outlook import Build
from helmwright.visit.check import Stage
from helmwright.visit.event import Accepted, LookAsked, MeasureAsked, NoBuild, Proposed
from helmwright.visit.protocol import protocol_for
from helmwright.visit.round import is_open, is_wrong, round_of
from helmwright.visit.state import fold
from helmwright.visit.step import AskCheck, AskMeasure, AskPutOn, Ended, PausedNow, Record

OUZEL = load_packaged("ouzel")
FRONT = ZONES.index(Zone.FRONT)


def _question(round_, stage):
    looked = round_.of(stage)
    for place, one in enumerate(looked):
        if is_open(one):
            rest = () if one.check.key == "put on" else looked[place + 1 :]
            again = one.check.put_right if one.answers else ""
            open_ = tuple(other.check for other in rest if not other.answers)
            return AskCheck(one.check, len(one.answers) + 1, again, open_)
    return None


class PlainGuide:
    """Asks for a length first; looks twice at the nape; gives up where the front cannot grow."""

    def __init__(self, sheet=OUZEL, *, asks_measure=False, looks_again=False) -> None:
        self.sheet, self.protocol = sheet, protocol_for(sheet)
        self._asks_measure, self._looks_again = asks_measure, looks_again

    def visit(self, events):
        return fold(events)

    def next(self, events):
        visit = fold(events)
        if visit.ended is not None:
            return Ended(visit.ended)
        if visit.paused:
            return PausedNow()
        if visit.measure is not None:
            return AskMeasure(visit.measure.measure, visit.measure.why)
        if visit.now is None:
            return self._before(visit)
        return self._on(visit)

    def _before(self, visit):
        if visit.proposal is None:
            known = {reading.measure for reading in visit.readings} | visit.skipped
            if self._asks_measure and "head_length" not in known:
                return Record(MeasureAsked("head_length", "It tells much."))
            return Record(self._proposed(Build(4, self.sheet.delivered), "As it comes."))
        round_ = round_of(self.protocol.checks, visit)
        question = _question(round_, Stage.BEFORE)
        build = visit.proposal.build
        before = visit.in_helmet or Build(build.shell, self.sheet.delivered)
        return question or AskPutOn(build, before)

    def _on(self, visit):
        round_ = round_of(self.protocol.checks, visit)
        if visit.look is not None:
            (one,) = (one for one in round_.due if one.check.key == visit.look.check)
            return AskCheck(one.check, len(one.answers) + 1, visit.look.why)
        for stage in Stage:
            question = _question(round_, stage)
            if question is not None:
                return question
            nape = [one for one in round_.of(stage) if one.check.key == "nape"]
            if self._looks_again and any(len(one.answers) == 1 for one in nape):
                return Record(LookAsked("nape", "Napes are hard to feel."))
            wrong = [one for one in round_.of(stage) if is_wrong(one)]
            if wrong:
                return Record(self._thicker(round_.build, wrong[0]))
        return Record(Accepted(round_.build))

    def _thicker(self, build, wrong):
        front = build.pads[FRONT] + (wrong.verdict is Grade.UNDER)
        if front == len(self.sheet.pads[FRONT].labels):
            return NoBuild("There is no thicker front pad.")
        pads = (*build.pads[:FRONT], front, *build.pads[FRONT + 1 :])
        return self._proposed(replace(build, pads=pads), f"{wrong.check.title} found loose.")

    def _proposed(self, build, why):
        return Proposed(build, 0.5, 0.4, 7.0, why, 100.0)
