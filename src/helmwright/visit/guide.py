"""The guide: what comes next in a fit visit."""

from collections.abc import Sequence

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.finding import Grade, Tried
from helmwright.fit.learn import DRAWS
from helmwright.fit.minutes import Minutes
from helmwright.fit.next_build import Option
from helmwright.fit.outlook import MeasureGain
from helmwright.fit.rater import Rater
from helmwright.fit.seating import PadLaws
from helmwright.fit.verdict import Bands
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from helmwright.visit.asking import (
    DISAGREE,
    DOUBTFUL,
    asked_once_more,
    next_question,
    plain_look,
    surprise,
    was_doubted,
)
from helmwright.visit.belief import Beliefs, Draw, Estimate, batches, estimated
from helmwright.visit.check import Stage
from helmwright.visit.check_list import Protocol
from helmwright.visit.choice import Chooser, Propose
from helmwright.visit.event import Accepted, Event, LookAsked, NoBuild, Proposed
from helmwright.visit.looks import (
    CURED_BY_A_BUILD,
    FURTHER_DOUBT,
    LEAST_DOUBT,
    Looked,
    Looks,
    is_spot_cured,
    most_doubtful,
    most_surprising,
)
from helmwright.visit.possible import refuse_impossible
from helmwright.visit.round import Round, is_wrong, round_of
from helmwright.visit.state import Visit, fold
from helmwright.visit.step import AskMeasure, AskPutOn, Ended, PausedNow, Record, Step
from helmwright.visit.undo import standing

MOST_TRY_ONS = Figure(
    10, "1", ASSUMED, note="try-ons in one visit after which nothing more is proposed"
)


class Guide:
    """Says what comes next in a visit: a pure function of its events.

    Parameters
    ----------
    sheet, protocol
        The helmet model, and the checks to go through.
    rater
        Who checks.
    minutes
        What each act takes.
    looks
        When a check is looked at again.
    draws
        Draws of what is believed.
    most_try_ons
        Try-ons after which nothing more is proposed.
    bands, laws
        What counts as right, by default as the sheet says; its pads' laws, where they are at hand.
    measures
        Whether a measure may be asked for.
    propose, estimate, draw
        What finds the first build, what makes a head estimate, and what draws the belief before
        anything is found, where not the usual.

    Notes
    -----
    Beliefs are remembered, but drawn by generators that follow from the visit's seed and from
    what they depend on: the same events give the same answer, whatever was asked before.
    """

    def __init__(
        self,
        sheet: ModelSheet,
        protocol: Protocol,
        *,
        rater: Rater | None = None,
        minutes: Minutes | None = None,
        looks: Looks = Looks.SURPRISE,
        draws: int = DRAWS,
        most_try_ons: int = int(MOST_TRY_ONS.value),
        bands: Bands | None = None,
        laws: PadLaws | None = None,
        measures: bool = True,
        propose: Propose | None = None,
        estimate: Estimate = estimated,
        draw: Draw | None = None,
    ) -> None:
        rater = rater or Rater()
        self.sheet, self.protocol, self.looks = sheet, protocol, looks
        self.most_try_ons = most_try_ons
        self.beliefs = Beliefs(
            sheet, rater=rater, bands=bands or Bands.of(sheet), laws=laws, draws=draws,
            estimate=estimate, draw=draw,
        )  # fmt: skip
        self._chooser = Chooser(
            self.beliefs, protocol.checks, minutes or Minutes(), measures=measures, propose=propose
        )

    def visit(self, events: Sequence[Event]) -> Visit:
        """Where a visit stands.

        Raises
        ------
        OutOfTurnError
            Where an event cannot come after those before it.
        UnknownCheckError, UnknownAnswerError, UnlistedBuildError
            Where an event names what protocol or sheet do not have.
        """
        visit = fold(events)
        refuse_impossible(visit, self.sheet, self.protocol.checks)
        return visit

    def next(self, events: Sequence[Event]) -> Step:
        """What comes next, after these events.

        Raises
        ------
        ValueError
            As `visit`.
        """
        visit = self.visit(events)
        if visit.ended is not None:
            return Ended(visit.ended)
        if visit.paused:
            return PausedNow()
        if visit.measure is not None:
            return AskMeasure(visit.measure.measure, visit.measure.why)
        if visit.proposal is not None:
            return self._before_putting_on(visit)
        if visit.now is None:
            return self._propose(visit)
        return self._checked(visit)

    def choices(self, events: Sequence[Event]) -> tuple[Option, ...]:
        """The builds among which the open proposal was chosen, it first; none where none is open.

        Raises
        ------
        ValueError
            As `visit`.
        """
        before = self._before_proposal(events)
        return () if before is None else self._chooser.options(before)

    def gains(self, events: Sequence[Event]) -> tuple[MeasureGain, ...]:
        """What one more measure would add before the first build is tried; the most first.

        Raises
        ------
        ValueError
            As `visit`.
        """
        before = self._before_proposal(events)
        return () if before is None else self._chooser.gains(before)

    def _before_proposal(self, events: Sequence[Event]) -> Visit | None:
        """Where the visit stood when the open proposal was made; None where none is open."""
        if self.visit(events).proposal is None:
            return None
        stand = [event for _, event in standing(events)]
        place = max(n for n, event in enumerate(stand) if isinstance(event, Proposed))
        return fold(stand[:place])

    def _before_putting_on(self, visit: Visit) -> Step:
        """The checks that come before the helmet goes on, then the helmet."""
        round_ = round_of(self.protocol.checks, visit)
        question = next_question(round_, Stage.BEFORE)
        if question is not None:
            return question
        wrong = [one for one in round_.of(Stage.BEFORE) if is_wrong(one)]
        if wrong:
            return Record(not_put_right(wrong[0]))
        before = visit.in_helmet or self._chooser.at_hand(round_.build.shell)
        return AskPutOn(round_.build, before)

    def _checked(self, visit: Visit) -> Step:
        """The next question on the build that is on the head, or what follows from the answers."""
        round_ = round_of(self.protocol.checks, visit)
        if visit.look is not None:
            (looked,) = (one for one in round_.due if one.check.key == visit.look.check)
            return asked_once_more(looked, visit.look.why)
        for stage in Stage:
            question = next_question(round_, stage)
            if question is not None:
                return question
            look = self._look(visit, round_, stage)
            if look is not None:
                return Record(look)
            wrong = [one for one in round_.of(stage) if is_wrong(one)]
            if wrong:
                return self._cure(visit, wrong)
        return Record(Accepted(round_.build))

    def _look(self, visit: Visit, round_: Round, stage: Stage) -> LookAsked | None:
        """The second look to take at a stage whose checks were all answered."""
        looked = tuple(
            one for one in round_.of(stage) if one.answers and not is_spot_cured(one.check)
        )
        if self.looks is not Looks.SURPRISE:
            return plain_look(looked, self.looks)
        undecided = next((one for one in looked if one.verdict is None), None)
        if undecided is not None:
            return LookAsked(undecided.check.key, DISAGREE)
        bad = [one for one in looked if one.verdict is not Grade.RIGHT]
        if bad:
            few = [one for one in bad if one.may_be_doubted]
            right = self._chances(visit, stage, few)
            key = most_surprising(right)
            return None if key is None else LookAsked(key, surprise(right[key]))
        good = [one for one in looked if one.is_doubtable and len(one.answers) == 1]
        good = good if stage is Stage.CONTACT else []
        least = FURTHER_DOUBT if was_doubted(looked) else LEAST_DOUBT
        key = most_doubtful(self._chances(visit, stage, good), least.value)
        return None if key is None else LookAsked(key, DOUBTFUL)

    def _chances(self, visit: Visit, stage: Stage, looked: list[Looked]) -> dict[str, float]:
        """Chance that what each of some checks looks at is truly right, after everything heard."""
        tried = batches(self.protocol.checks, visit, stage)
        return {one.check.key: self._right(visit, tried, one) for one in looked}

    def _right(self, visit: Visit, tried: tuple[Tried, ...], looked: Looked) -> float:
        """Chance that what a check looks at is truly right, as believed after some findings."""
        answer = looked.check.answer(looked.answers[0].word)
        zone = answer.zone or looked.check.zone
        return self.beliefs.chance_right(visit, tried, looked.check.sign, zone)

    def _cure(self, visit: Visit, wrong: list[Looked]) -> Step:
        """Another build where that cures what is wrong; the end where it cannot."""
        hopeless = [one for one in wrong if one.check.sign not in CURED_BY_A_BUILD]
        return Record(not_put_right(hopeless[0])) if hopeless else self._propose(visit)

    def _propose(self, visit: Visit) -> Step:
        if len(visit.try_ons) < self.most_try_ons:
            return Record(self._chooser.choose(visit))
        return Record(self._chooser.nothing(visit, GIVEN_UP.format(self.most_try_ons)))


GIVEN_UP = (
    "{} builds were tried and none was found right: the parts here do not fit this head. "
    "Another shell or another model is needed."
)


def not_put_right(looked: Looked) -> NoBuild:
    """The end where something is wrong that no pad cures, and it could not be put right."""
    answer = looked.check.answer(looked.answers[-1].word)
    return NoBuild(
        f"{looked.check.title} could not be put right. {answer.says} {answer.points_to}".strip()
    )
