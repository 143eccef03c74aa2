"""A visit in the terminal: asks, keeps every answer, and asks the guide what comes next."""

from collections.abc import Callable, Iterable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from typing import Protocol

from helmwright.cli.stop import NothingRan
from helmwright.cli.visit_answers import (
    Command,
    answered,
    command,
    round_answered,
)
from helmwright.cli.visit_hearing import sounds_like_symptom
from helmwright.cli.visit_measure import readings_taken
from helmwright.cli.visit_screen import Asking, Screen
from helmwright.cli.written_answers import AnswerError
from helmwright.fit.finding import Grade
from helmwright.reports.layout import wrapped
from helmwright.reports.visit_end_page import SPINE
from helmwright.reports.visit_opening import help_lines
from helmwright.reports.visit_parts import parts_words
from helmwright.roster.build_now import changed_build
from helmwright.roster.cell import CellError
from helmwright.visit.check import Check
from helmwright.visit.check_list import Protocol as Checks
from helmwright.visit.event import (
    Answered,
    Event,
    Measured,
    MeasureSkipped,
    Paused,
    PutOn,
    Resumed,
    Stopped,
    SymptomReported,
    Undone,
)
from helmwright.visit.looks import grade_of
from helmwright.visit.state import OutOfTurnError, fold
from helmwright.visit.step import AskCheck, AskMeasure, AskPutOn, Ended, PausedNow, Record, Step
from helmwright.visit.undo import standing

ON = frozenset({"", "on", "y", "yes", "done", "ok"})
NOT_DESCRIBED = "not described"
WHY = "Why? It is kept with the visit"
DIFFERENT = "What is different from this build, such as: front 7/8, jaw left 1"
SYMPTOM = "What is it, in a few words (kept in the file; Enter: leave it out)"
DROPPED = "Left as it was; what was begun is not kept"
END = "Enter: done (or: undo, symptom)"


class LeftError(Exception):
    """The person left: by Ctrl-C, by the word pause, or because the input ended."""


class InterjectedError(Exception):
    """A command was typed where a part of an answer was asked for."""

    def __init__(self, said: Command) -> None:
        self.said = said
        super().__init__(said.name)


class Talk(Protocol):
    """The person at the screen."""

    def say(self, lines: Sequence[str]) -> None:
        """Shows lines."""

    def ask(self, words: str) -> str:
        """What is typed to a question; LeftError where nobody is there any more."""

    def waiting(self) -> AbstractContextManager[None]:
        """Keeps the person informed while something is computed."""


class Guiding(Protocol):
    """Whatever says what comes next."""

    def next(self, events: Sequence[Event]) -> Step:
        """The next step."""


class Keeping(Protocol):
    """Where events are kept."""

    events: tuple[Event, ...]

    def append(self, *events: Event) -> None:
        """Keeps more."""


@dataclass
class Visiting:
    """One visit, from where its events stand.

    Parameters
    ----------
    guide, kept, talk, screen
        What comes next, where events go, who answers, what is shown.
    protocol
        The checks.
    ending
        What is shown at the end.
    """

    guide: Guiding
    kept: Keeping
    talk: Talk
    screen: Screen
    protocol: Checks
    ending: Callable[[Ended], list[str]]
    _planned: dict[str, Answered] = field(default_factory=dict)
    _shown_at: int = -1

    def to_the_end(self) -> Ended | None:
        """Goes on until the visit ends, or is left (None); nothing that was said is lost."""
        while True:
            with self.talk.waiting():
                step = self.guide.next(self.kept.events)
            if isinstance(step, Ended):
                if self._is_final(step):
                    return step
                continue
            try:
                self._go_on(step)
            except LeftError:
                self._keep(Paused())
                return None

    def _go_on(self, step: Record | Asking | PausedNow) -> None:
        match step:
            case Record(event):
                self._keep(event)
            case PausedNow():
                self._keep(Resumed())
            case AskCheck(look=1) if step.check.key in self._planned:
                self._keep(self._planned.pop(step.check.key))
            case _:
                self._drop_plan()
                self._ask(step)

    def _ask(self, step: Asking) -> None:
        """Shows a step, unless it is still on the screen, and takes one line."""
        if self._shown_at != len(self.kept.events):
            with self.talk.waiting():
                page = self.screen.page(step, fold(self.kept.events))
            self.talk.say(page)
            self._shown_at = len(self.kept.events)
        typed = self.talk.ask(self.screen.ask(step))
        said = command(typed)
        try:
            self._done(step, typed, said)
        except (AnswerError, CellError) as error:
            self._say(str(error))
            if sounds_like_symptom(typed, self.protocol.symptoms):
                self._say(f"If the player has this now, type: symptom {typed.strip()}")

    def _done(self, step: Asking, typed: str, said: Command | None) -> None:
        """An answer or a command; a command in the middle of either goes first."""
        try:
            if said is None:
                self._taken(step, typed)
            else:
                self._commanded(said, step)
        except InterjectedError as between:
            self._say(f"{DROPPED}.")
            if between.said.name != "undo":
                self._done(step, typed, between.said)

    def _more(self, words: str) -> str:
        """What is typed to a further question.

        Raises
        ------
        InterjectedError
            Where it is a command. A reason may begin like one; a symptom is always one.
        """
        typed = self.talk.ask(words)
        said = command(typed)
        if said is not None and (not said.rest or said.name == "symptom"):
            raise InterjectedError(said)
        return typed

    def _taken(self, step: Asking, typed: str) -> None:
        """An answer to what is asked.

        Raises
        ------
        AnswerError
            Where it is none.
        """
        match step:
            case AskMeasure(measure, _):
                worn = fold(self.kept.events).started.worn
                readings = readings_taken(measure, typed, worn, self._more)
                self._keep(Measured(readings) if readings else MeasureSkipped(measure))
            case AskPutOn(build, _):
                if typed.strip().lower() not in ON:
                    raise AnswerError(
                        f'"{typed.strip()}" is no answer here',
                        "Press Enter once it is on the player's head; other for another build",
                    )
                self._keep(PutOn(build))
            case AskCheck(check):
                self._keep(answered(check, typed))

    def _commanded(self, said: Command, step: Asking) -> None:
        """A command; one that is no answer leaves the question where it is."""
        match said.name:
            case "undo":
                self._undo()
            case "pause":
                raise LeftError
            case "symptom":
                self._symptom(said.rest)
            case "stop":
                self._keep(Stopped(said.rest or self._more(WHY).strip()))
            case "other":
                self._other(said.rest, step)
            case "all good":
                self._all_good(said.rest, step)
            case "why":
                self.talk.say(self.screen.why(step, fold(self.kept.events)))
            case "how":
                self.talk.say(self.screen.how(step, fold(self.kept.events)))
            case _:
                self.talk.say(help_lines(self.screen.width))

    def _symptom(self, words: str) -> None:
        """A symptom counts, even where nobody goes on to describe it; "undo" takes it back."""
        try:
            words = words or self._more(SYMPTOM)
        except LeftError:
            words = ""
        except InterjectedError as between:
            if between.said.name == "undo":
                raise
            words = between.said.rest
        try:
            self._keep(SymptomReported(words.strip() or NOT_DESCRIBED))
        except NothingRan:
            # Whatever the disk does, the player is not left without the word that helps.
            self._say(f"{self.protocol.symptom_stop} {SPINE}")
            raise

    def _undo(self) -> None:
        back = last_said(self.kept.events)
        if self._keep(Undone()):
            self._planned.clear()
            self._say(f"Taken back: {back}.")

    def _other(self, rest: str, step: Asking) -> None:
        """Another build is put on, for a reason that is kept."""
        base = step.build if isinstance(step, AskPutOn) else fold(self.kept.events).in_helmet
        if base is None:
            raise AnswerError("There is no build to change yet", "Answer what is asked first")
        build = changed_build(base, rest or self._more(DIFFERENT), self.screen.sheet)
        reason = self._more(WHY).strip()
        if not reason:
            raise AnswerError("Another build needs a reason", "Type other again, and say why")
        if self._keep(PutOn(build, reason)):
            parts = parts_words(build, self.screen.sheet)
            self._say(f"Put on instead: shell {build.shell}, {parts}. The reason is kept.")

    def _all_good(self, exceptions: str, step: Asking) -> None:
        """The rest of the round at once; what surely follows is kept in one stroke."""
        if not isinstance(step, AskCheck):
            raise AnswerError("This is no round of checks", "Answer what is asked")
        answers = round_answered(exceptions, self._left_in_round(step))
        sure = 1 + len(step.rest_of_round)
        if self._keep(*answers[:sure]):
            self._planned = {each.check: each for each in answers[sure:]}
            self._say(f"Kept: {self._told(answers[:sure])}.")

    def _told(self, answers: Sequence[Answered]) -> str:
        """Answers in few words: the bad ones, and how many are right."""
        bad = self._bad(answers)
        right = len(answers) - len(bad)
        if not bad:
            return f"{right} right"
        return ", ".join([*bad, f"the other {right} right" if right else "nothing else"])

    def _bad(self, answers: Iterable[Answered]) -> list[str]:
        return [
            f"{each.check} {each.word}"
            for each in answers
            if grade_of(self.protocol.check(each.check), each) is not Grade.RIGHT
        ]

    def _left_in_round(self, step: AskCheck) -> tuple[Check, ...]:
        """The check, those that surely follow, and at a first look those that may."""
        sure = (step.check, *step.rest_of_round)
        if step.look > 1:
            return sure
        keys = [check.key for check in self.protocol.checks]
        behind = self.protocol.checks[keys.index(sure[-1].key) + 1 :]
        return (*sure, *(check for check in behind if check.stage is step.check.stage))

    def _drop_plan(self) -> None:
        """What was named beforehand and is not asked now will not be kept; a bad one is told."""
        bad = self._bad(self._planned.values())
        self._planned.clear()
        if bad:
            self._say(f"Not asked now, so not kept: {', '.join(bad)}.")

    def _is_final(self, step: Ended) -> bool:
        """Tells the end, and whether it stays: the last answer may have been a slip."""
        self.talk.say(self.ending(step))
        while True:
            try:
                said = command(self.talk.ask(END))
            except LeftError:
                return True
            if said is None or said.name not in ("undo", "symptom"):
                return True
            if said.name == "undo":
                self._undo()
                return False
            try:
                self._symptom(said.rest)
            except InterjectedError:
                self._say(f"{DROPPED}.")
                continue
            return False

    def _keep(self, *events: Event) -> bool:
        """Keeps events that may come now; says why, where they may not."""
        try:
            fold((*self.kept.events, *events))
        except OutOfTurnError as error:
            self._say(f"{error}.")
            return False
        self.kept.append(*events)
        return True

    def _say(self, text: str) -> None:
        self.talk.say(wrapped(text, self.screen.width, indent="  ", hanging="  "))


def last_said(events: Sequence[Event]) -> str:
    """What a person said last and has not taken back, in words."""
    for _, event in reversed(standing(events)):
        match event:
            case Answered(check, word):
                return f"{check} {word}"
            case PutOn():
                return "putting it on"
            case Measured(readings):
                return f"the reading of {readings[0].measure}"
            case MeasureSkipped(measure):
                return f"leaving out {measure}"
            case Stopped():
                return "the stop"
            case SymptomReported():
                return "the symptom"
    return "nothing"
