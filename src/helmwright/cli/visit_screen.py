"""What the screen shows at each step of a visit; remembers what it has shown already."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field

from helmwright.catalogue.changing import PartKind
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.finding import Sign
from helmwright.fit.outlook import Build
from helmwright.reports.layout import wrapped
from helmwright.reports.visit_build_page import (
    change_lines,
    disturbed_lines,
    proposal_lines,
    put_on_lines,
    take_lines,
    why_build_lines,
)
from helmwright.reports.visit_check_page import (
    ask_words,
    check_lines,
    how_lines,
    last_try_lines,
    round_lines,
    set_first_lines,
    stage_lines,
    why_check_lines,
)
from helmwright.reports.visit_measure_page import measure_ask_words, measure_lines
from helmwright.reports.visit_parts import make_up_lines, parts_words
from helmwright.visit.changing import PartChange, changing_steps, on_the_spot
from helmwright.visit.check import Stage
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import Proposed
from helmwright.visit.looks import Looked
from helmwright.visit.round import answers_about, round_of
from helmwright.visit.starts import Expectation
from helmwright.visit.state import Visit
from helmwright.visit.step import AskCheck, AskMeasure, AskPutOn

Asking = AskMeasure | AskPutOn | AskCheck
"""Steps at which a person is asked."""

PUT_ON_WORDS = "Enter when it is on the head (or: other, why, how)"


@dataclass
class Screen:
    """Pages of one visit.

    Parameters
    ----------
    sheet, protocol
        The helmet, and its checks.
    expected
        What the belief leads to expect at checks of strap and face, by their keys. A reading that
        teaches is taken before anybody is told what to expect, so as not to lead it.
    width
        Columns.
    is_brief
        Leaves out how a check is done until somebody types how.
    """

    sheet: ModelSheet
    protocol: Protocol
    expected: Callable[[Visit], Mapping[str, Expectation]]
    width: int
    is_brief: bool = False
    _in_hand: Proposed | None = None
    _proposal: Proposed | None = None
    _told: set[str] = field(default_factory=set)
    _changed: set[PartKind] = field(default_factory=set)
    _round: tuple[int, str] = (0, "")
    _listed: set[Stage] = field(default_factory=set)
    _is_back: bool = False

    def page(self, step: Asking, visit: Visit) -> list[str]:
        """What stands above the cursor."""
        match step:
            case AskMeasure(measure, why):
                return measure_lines(measure, why, visit.started.worn, self.width)
            case AskPutOn(build, _):
                return self._proposed(visit) or ["", *put_on_lines(build, self.sheet, self.width)]
            case AskCheck():
                return self._taken_up(visit) + self._check(step, visit)

    def go_back(self) -> None:
        """Something was taken back: what is set before a round is told again."""
        self._is_back = True

    def listing(self, step: Asking, visit: Visit) -> list[str]:
        """The checks of the round, with what is right or what was answered."""
        if not isinstance(step, AskCheck):
            return wrapped("No round of checks is asked now.", self.width, indent="  ")
        return round_lines(self._round_of(step, visit), self.width)

    def _round_of(self, ask: AskCheck, visit: Visit) -> tuple[Looked, ...]:
        """The checks of a check's round, each with its answers."""
        return round_of(self.protocol.checks, visit).of(ask.check.stage)

    def ask(self, step: Asking) -> str:
        """What stands before the cursor."""
        match step:
            case AskMeasure(measure, _):
                return measure_ask_words(measure)
            case AskCheck():
                return ask_words(step.check)
            case AskPutOn():
                return PUT_ON_WORDS

    def why(self, step: Asking, visit: Visit) -> list[str]:
        """The reasons and chances behind a step."""
        lines = wrapped(step.why, self.width) if isinstance(step, AskMeasure) else []
        if isinstance(step, AskCheck):
            lines = why_check_lines(step, self.width)
        tried = visit.now.proposed if visit.now is not None else None
        proposed = visit.proposal or tried
        return lines + (why_build_lines(proposed, self.width) if proposed is not None else [])

    def how(self, step: Asking, visit: Visit) -> list[str]:
        """How what is asked for is done."""
        match step:
            case AskMeasure(measure, why):
                return measure_lines(measure, why, visit.started.worn, self.width)
            case AskCheck():
                changes = self._on_the_spot(step) or self._for_another(step, visit)
                steps = change_lines(changes, frozenset(), self.width)
                return how_lines(step.check, self.width) + steps
            case AskPutOn(build, before):
                changes = changing_steps(self.sheet, before, build, protocol=self.protocol)
                steps = change_lines(changes, frozenset(), self.width)
                return put_on_lines(build, self.sheet, self.width) + steps

    def _taken_up(self, visit: Visit) -> list[str]:
        """Which helmet to take, before it is looked over; its pads are changed after that."""
        proposed = visit.proposal
        if proposed is None or proposed in (self._in_hand, self._proposal):
            return []
        self._in_hand = proposed
        return take_lines(proposed, len(visit.try_ons) + 1, self.sheet, self.width)

    def _proposed(self, visit: Visit) -> list[str]:
        """A proposal that was not shown yet, with how parts are changed that are new to it."""
        proposed = visit.proposal
        if proposed is None or proposed is self._proposal:
            return []
        number = None if proposed is self._in_hand else len(visit.try_ons) + 1
        self._proposal = proposed
        before = self._before(proposed.build, visit)
        lines = proposal_lines(proposed, before, self.sheet, self.width, number=number)
        return lines + self._steps(before, proposed.build)

    def instead(self, build: Build, visit: Visit) -> list[str]:
        """A build that is put on instead of a proposed one: what is changed for it, and how."""
        before = self._before(build, visit)
        made_up = make_up_lines(build, before, self.sheet, self.width)
        said = f"Put on instead: shell {build.shell}, {parts_words(build, self.sheet)}."
        kept = wrapped(f"{said} The reason is kept.", self.width, indent="  ", hanging="  ")
        return ["", *made_up, *self._steps(before, build), *kept]

    def _for_another(self, ask: AskCheck, visit: Visit) -> tuple[PartChange, ...]:
        """What is changed for a build put on instead of a proposed one, until it is on the head."""
        now = visit.now
        if now is None or not now.reason or ask.check.sign is not Sign.PUT_ON:
            return ()
        before = now.before or Build(now.build.shell, self.sheet.delivered)
        return changing_steps(self.sheet, before, now.build, protocol=self.protocol)

    def _before(self, build: Build, visit: Visit) -> Build:
        """What is in the helmet before a build is made up."""
        return visit.in_helmet or Build(build.shell, self.sheet.delivered)

    def _steps(self, before: Build, build: Build) -> list[str]:
        """How parts are changed, of kinds that were not shown yet."""
        if self.is_brief:
            return []
        changes = changing_steps(self.sheet, before, build, protocol=self.protocol)
        lines = change_lines(changes, self._changed, self.width)
        self._changed |= {change.kind for change in changes}
        return [*lines, ""]

    def _check(self, ask: AskCheck, visit: Visit) -> list[str]:
        """A check, below its stage where that is new; done before, it is told shorter."""
        check, lines = ask.check, [""]
        later = check.stage not in (Stage.BEFORE, Stage.CONTACT)
        expected = self.expected(visit) if later else {}
        here = (len(visit.try_ons), str(check.stage))
        # The strap is set before the round, so that nobody passes it over with "all good".
        straps = [each for each in expected.values() if each.strap and check.stage is Stage.HELD]
        if here != self._round and ask.look == 1:
            self._round = here
            minutes, count = self.protocol.minutes_worn, self._in_round(ask)
            lines += stage_lines(check.stage, count, straps, minutes, self.width)
            lines += [*self._listed_once(ask, visit), ""]
        elif straps and self._is_back:
            lines += [*set_first_lines(straps, self.width), ""]
        self._is_back = False
        said = expected.get(check.key)
        is_short = self.is_brief or check.key in self._told
        self._told.add(check.key)
        shown = None if said is None or said.strap else said
        told = check_lines(ask, shown, self.width, is_short=is_short)
        answers = visit.ahead if visit.now is None else visit.now.answers
        done = {given.check for given in answers} - {check.key}
        last = last_try_lines(Looked(check, answers_about(check, answers)), self.width)
        return lines + told + last + self._changing(self._on_the_spot(ask), done)

    def _listed_once(self, ask: AskCheck, visit: Visit) -> list[str]:
        """The checks of a round that is new in this visit, before "all good" is said of them."""
        stage, looked = ask.check.stage, self._round_of(ask, visit)
        if self.is_brief or stage in self._listed or len(looked) == 1:
            return []
        self._listed.add(stage)
        return round_lines(looked, self.width)

    def _on_the_spot(self, ask: AskCheck) -> tuple[PartChange, ...]:
        """What is changed before a bad answer is asked again; nothing where none was bad."""
        is_retry = ask.look > 1 and ask.why == ask.check.put_right
        return on_the_spot(self.sheet, ask.check, self.protocol) if is_retry else ()

    def _changing(self, changes: Sequence[PartChange], done: Collection[str]) -> list[str]:
        """How it is changed, where that is new, and what the change can disturb."""
        if not changes:
            return []
        kinds = {change.kind for change in changes}
        lines = change_lines(changes, kinds if self.is_brief else self._changed, self.width)
        self._changed |= kinds
        for change in changes:
            lines += disturbed_lines(change, done, self.width)
        return [*lines, ""]

    def _in_round(self, ask: AskCheck) -> int:
        """How many checks the round has; where the helmet does not go on, it ends with that."""
        goes_on = ask.check.sign is Sign.PUT_ON
        return len(self.protocol.stage(ask.check.stage)) if goes_on else 1 + len(ask.rest_of_round)
