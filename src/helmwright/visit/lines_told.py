"""What a dialogue of lines tells of a visit: its questions, its proposals, its end."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import starmap

from helmwright.anatomy import measure_of, spoken_name
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.finding import Grade
from helmwright.fit.outlook import Build
from helmwright.units import inches
from helmwright.visit.changing import PartChange, changing_steps, on_the_spot
from helmwright.visit.check import Check, Length, Stage
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import Accepted, NoBuild, Stopped, SymptomReported
from helmwright.visit.lines_out import (
    AcceptedReply,
    AnswerForm,
    ChangeForm,
    CheckForm,
    ChecksReply,
    ExpectForm,
    LengthForm,
    LookedForm,
    LookReply,
    MeasureReply,
    NoBuildReply,
    PausedReply,
    ProposalReply,
    PutOnReply,
    QuestionReply,
    ScoreForm,
    StoppedReply,
    StrapForm,
    SwapForm,
    SymptomReply,
    TryOnForm,
)
from helmwright.visit.starts import Expectation
from helmwright.visit.state import TryOn, Visit
from helmwright.visit.step import AskCheck, AskMeasure, AskPutOn, Ended, PausedNow
from helmwright.visit.sub_scores import MAPPING_ASSUMED
from helmwright.visit.summary import TryOnSummary, summary
from helmwright.visit.wire import event_form
from helmwright.visit.wire_build import build_form
from helmwright.visit.wire_form import BuildForm, WouldForm

Question = AskMeasure | AskPutOn | AskCheck | PausedNow | Ended
Expecting = Callable[[Visit], Mapping[str, Expectation]]
"""What is foreseen at the checks of the build that is on the head or proposed, by their keys."""


def nothing_expected(_: Visit) -> Mapping[str, Expectation]:
    """Nothing is foreseen."""
    return {}


@dataclass(frozen=True)
class Telling:
    """How one helmet's visits are told.

    Parameters
    ----------
    sheet, protocol
        The helmet model and its checks.
    cautions, assumed
        What is said once, and at the end.
    not_accepted, at_symptom
        Cautions at an end without a fit, and at a symptom.
    expected
        What is foreseen at the checks of a build, by their keys.
    """

    sheet: ModelSheet
    protocol: Protocol
    cautions: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    not_accepted: tuple[str, ...] = ()
    at_symptom: tuple[str, ...] = ()
    expected: Expecting = nothing_expected

    def question(self, step: Question, visit: Visit) -> QuestionReply:
        """What waits for an answer, or how it ended."""
        match step:
            case AskMeasure(key, why):
                return self._measure(key, why)
            case AskPutOn(build, before):
                return PutOnReply(
                    message="put on",
                    build=self.build(build),
                    before=self.build(before),
                )
            case AskCheck(check, 1, _, rest):
                asked = self._checks((check, *rest), visit)
                return ChecksReply(message="checks", checks=asked)
            case AskCheck(check, look, why, _):
                (told,) = self._checks((check,), visit)
                changes = self._on_the_spot(check) if why == check.put_right else ()
                return LookReply(message="look", check=told, look=look, why=why, changes=changes)
            case PausedNow():
                return PausedReply(message="paused")
            case Ended(how):
                return self._end(how, visit)

    def proposal(self, visit: Visit, step: Question) -> ProposalReply:
        """The open proposal, with what is to be done first.

        Raises
        ------
        ValueError
            Where none is open.
        """
        said = visit.proposal
        if said is None:
            raise ValueError("no proposal is open")
        before = self._before(visit, said.build, step)
        return ProposalReply(
            message="proposal",
            build=self.build(said.build),
            before=self.build(before),
            changes=self._changes(before, said.build),
            fits=said.fits,
            found_right=said.found_right,
            effective=said.effective,
            minutes=said.minutes,
            why=said.why,
            checks=self._checks(self.protocol.stage(Stage.CONTACT), visit),
            next=self.question(step, visit),
        )

    def build(self, build: Build) -> BuildForm:
        """A build by its labels."""
        return build_form(build, self.sheet)

    def _checks(self, checks: Sequence[Check], visit: Visit) -> tuple[CheckForm, ...]:
        """Checks of the build that is on the head, or is to go on."""
        held = any(check.stage is Stage.HELD for check in checks)
        # Strap and face are looked at once every contact is right; no build before needs the count.
        expected = self.expected(visit) if held else {}
        return tuple(_check(check, expected.get(check.key)) for check in checks)

    def scores(self, visit: Visit) -> tuple[ScoreForm, ...]:
        """The five sub-scores, each by itself."""
        counted = summary(visit, self.protocol, self.sheet).scores
        return tuple(
            ScoreForm(sub_score=score, right=count.right, answered=count.answered)
            for score, count in counted.items()
        )

    def try_ons(self, visit: Visit) -> tuple[TryOnForm, ...]:
        """Every build that was on the head, with what was changed for it and answered about it."""
        told = summary(visit, self.protocol, self.sheet).try_ons
        return tuple(starmap(self._try_on, zip(visit.try_ons, told, strict=True)))

    def _try_on(self, tried: TryOn, told: TryOnSummary) -> TryOnForm:
        said = tried.proposed
        own = said is None or said.build != tried.build
        return TryOnForm(
            build=self.build(tried.build),
            other_shell=told.other_shell,
            changed=told.changed,
            why=tried.reason if own or said is None else said.why,
            proposed=not own,
            answers=tuple(event_form(each, self.sheet) for each in tried.answers),
            looks=tuple(LookedForm(check=each.check, why=each.why) for each in tried.asked),
        )

    def _measure(self, key: str, why: str) -> MeasureReply:
        measure = measure_of(key)
        return MeasureReply(
            message="measure",
            measure=key,
            name=spoken_name(key),
            how=measure.how,
            low_mm=measure.low_mm,
            high_mm=measure.high_mm,
            minutes=measure.minutes.value,
            why=why,
        )

    def _before(self, visit: Visit, build: Build, step: Question) -> Build:
        if isinstance(step, AskPutOn):
            return step.before
        return visit.in_helmet or Build(build.shell, self.sheet.delivered)

    def _changes(self, before: Build, after: Build) -> tuple[ChangeForm, ...]:
        found = changing_steps(self.sheet, before, after, protocol=self.protocol)
        return tuple(map(_change, found))

    def _on_the_spot(self, check: Check) -> tuple[ChangeForm, ...]:
        return tuple(map(_change, on_the_spot(self.sheet, check, self.protocol)))

    def _end(
        self,
        how: Accepted | NoBuild | Stopped | SymptomReported,
        visit: Visit,
    ) -> QuestionReply:
        match how:
            case Accepted(build):
                return AcceptedReply(
                    message="accepted",
                    build=self.build(build),
                    sub_scores=self.scores(visit),
                    scores_assumed=MAPPING_ASSUMED,
                    cautions=self.cautions,
                )
            case NoBuild(why, would):
                named = tuple(
                    WouldForm(build=self.build(each.build), lacking=each.lacking, fits=each.fits)
                    for each in would
                )
                return NoBuildReply(
                    message="no build", why=why, would=named, cautions=self.not_accepted
                )
            case Stopped(reason):
                return StoppedReply(message="stopped", reason=reason, cautions=self.not_accepted)
            case SymptomReported(words):
                return SymptomReply(
                    message="symptom",
                    words=words,
                    do=self.protocol.symptom_stop,
                    cautions=self.at_symptom,
                )


def _change(change: PartChange) -> ChangeForm:
    """A change with its steps."""
    swaps = tuple(
        SwapForm(zone=swap.zone, out=swap.out, into=swap.into, part_number=swap.part_number)
        for swap in change.swaps
    )
    return ChangeForm(
        part=change.kind,
        shell=change.shell,
        swaps=swaps,
        steps=tuple(step.says for step in change.steps),
        by_maker=change.by_maker,
        whose=change.whose,
        again=tuple(check.key for check in change.again),
    )


def _check(check: Check, expected: Expectation | None) -> CheckForm:
    """A check with its answers."""
    answers = tuple(
        AnswerForm(
            word=each.word,
            right=each.grade is Grade.RIGHT,
            says=each.says,
            points_to=each.points_to,
            zone=each.zone,
        )
        for each in check.answers
    )
    return CheckForm(
        check=check.key,
        title=check.title,
        stage=check.stage,
        how=check.how,
        accept=check.accept,
        answers=answers,
        length=None if check.length is None else _length(check.length),
        expect=None if expected is None else _expected(expected),
        put_right=check.put_right,
        sub_score=check.sub_score,
        source=check.source,
        by_maker=check.by_maker,
    )


def _expected(expected: Expectation) -> ExpectForm:
    length = expected.length_mm
    strap = tuple(
        StrapForm(place=s.place, start_mm=s.start_mm, low_mm=s.low_mm, high_mm=s.high_mm)
        for s in expected.strap
    )
    return ExpectForm(
        says=expected.says,
        assumed=expected.assumed,
        mean_mm=None if length is None else length.mean,
        strap=strap,
    )


def _length(length: Length) -> LengthForm:
    low, high = length.accept_mm
    return LengthForm(
        accept_mm=length.accept_mm,
        accept=f"{inches(low)} to {inches(high)} in",
        low_mm=length.low_mm,
        high_mm=length.high_mm,
    )
