"""A visit in the terminal: asks, keeps every answer, and asks the guide what comes next."""

from collections.abc import Callable
from dataclasses import dataclass, field

from helmwright.cli.stop import NothingRan
from helmwright.cli.visit_answers import ALL_GOOD, Command, answered, command
from helmwright.cli.visit_entries import Entry
from helmwright.cli.visit_kept import Kept
from helmwright.cli.visit_leaving import InterjectedError, LeftError
from helmwright.cli.visit_listener import DROPPED, Listener
from helmwright.cli.visit_measuring import Measuring
from helmwright.cli.visit_parties import Guiding, Keeping, Talk
from helmwright.cli.visit_round import (
    bad_words,
    done_in_round,
    kept_words,
    left_in_round,
    round_answered,
)
from helmwright.cli.visit_screen import Asking, Screen
from helmwright.cli.written_answers import AnswerError
from helmwright.reports.visit_end_page import SPINE
from helmwright.reports.visit_opening import help_lines
from helmwright.roster.build_now import changed_build
from helmwright.roster.cell import CellError
from helmwright.visit.check_list import Protocol as Checks
from helmwright.visit.event import (
    Answered,
    Paused,
    PutOn,
    Resumed,
    Stopped,
    SymptomReported,
)
from helmwright.visit.said_words import given_words
from helmwright.visit.step import AskCheck, AskMeasure, AskPutOn, Ended, PausedNow, Record

ON = frozenset({"", "on", "y", "yes", "done", "ok"})
CLOSE = frozenset({"", "done", "close", "ok", "end"})
NOT_DESCRIBED = "not described"
DIFFERENT = "What is different from this build, such as: front 7/8, jaw left 1"
SYMPTOM = "What is it, in a few words (kept in the file; Enter: leave it out)"
READING = "Which measure, and its inches, such as: tape 22 5/8"
END = "Enter: done (or: undo, symptom)"
OVER = "Press Enter, or type done, to close the visit; undo takes the last answer back"


@dataclass
class Visiting:
    """One visit, from where its events stand.

    Parameters
    ----------
    guide, file, talk, screen
        What comes next, where events go, who answers, what is shown.
    protocol
        The checks.
    ending
        What is shown at the end.
    """

    guide: Guiding
    file: Keeping
    talk: Talk
    screen: Screen
    protocol: Checks
    ending: Callable[[Ended], list[str]]
    _planned: dict[str, Answered] = field(default_factory=dict)
    _entry: Entry | None = None
    _asked: Asking | None = None
    _shown_at: int = -1
    _listener: Listener = field(init=False)
    _kept: Kept = field(init=False)
    _measuring: Measuring = field(init=False)

    def __post_init__(self) -> None:
        """Lets what is typed at any question be heard the same way."""
        self._listener = Listener(self.talk, self.screen.width, self.protocol.symptoms, self._show)
        self._kept = Kept(self.file, self.protocol, self._listener.say)
        self._measuring = Measuring(self._kept, self._listener, self.talk.hide, self._undo)

    def to_the_end(self) -> Ended | None:
        """Goes on until the visit ends, or is left (None); nothing that was said is lost."""
        while True:
            with self.talk.waiting():
                step = self.guide.next(self._kept.events)
            if isinstance(step, Ended):
                if self._is_final(step):
                    return step
                continue
            try:
                self._go_on(step)
            except LeftError:
                self._kept.keep(Paused())
                return None

    def _go_on(self, step: Record | Asking | PausedNow) -> None:
        match step:
            case Record(event):
                self._kept.keep(event)
            case PausedNow():
                self._kept.keep(Resumed())
            case AskCheck(look=1) if step.check.key in self._planned:
                self._keep_planned(step)
            case AskMeasure(measure, _) if self._measuring.is_over:
                self._measuring.left_out(measure)
            case _:
                self._drop_plan()
                self._ask(step)

    def _ask(self, step: Asking) -> None:
        """Shows a step, unless it is still on the screen, and takes one line."""
        self._asked = step
        if self._shown_at != len(self._kept.events):
            with self.talk.waiting():
                page = self.screen.page(step, self._kept.visit)
            self.talk.say(page)
            self._shown_at = len(self._kept.events)
        typed = self.talk.ask(self.screen.ask(step))
        said = command(typed)
        try:
            self._done(step, typed, said)
        except (AnswerError, CellError) as error:
            if self._listener.is_symptom(typed):
                self._symptom(typed.strip())
            else:
                self._listener.say(str(error))

    def _done(self, step: Asking, typed: str, said: Command | None) -> None:
        """An answer or a command; a command in the middle of either goes first."""
        try:
            if said is None:
                self._taken(step, typed)
            else:
                self._commanded(said, step)
        except InterjectedError as between:
            if between.lost:
                self._listener.say(f"{between.lost}.")
            if between.said.name != "undo":
                self._done(step, typed, between.said)

    def _taken(self, step: Asking, typed: str) -> None:
        """An answer to what is asked.

        Raises
        ------
        AnswerError
            Where it is none.
        """
        match step:
            case AskMeasure(measure, _):
                self._measuring.asked(measure, typed)
            case AskPutOn(build, _):
                if typed.strip().lower() not in ON:
                    raise AnswerError(
                        f'"{typed.strip()}" is no answer here',
                        "Press Enter once it is on the player's head; other for another build",
                    )
                self._kept.keep(PutOn(build))
            case AskCheck(check):
                given = answered(check, typed)
                if self._kept.keep(given) and given.value_mm is not None:
                    self._listener.say(f"{check.title}: {given_words(given)}.")

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
                self._kept.keep(Stopped(self._listener.reason(said.rest)))
            case "other":
                self._other(said.rest, step)
            case "all good":
                self._all_good(said.rest, step)
            case "reading":
                self._measuring.unasked(said.rest or self._listener.more(READING))
            case _:
                self._show(said.name)

    def _show(self, name: str) -> None:
        """What only shows something, and leaves every question where it is."""
        shown = {"list": self.screen.listing, "why": self.screen.why, "how": self.screen.how}
        step = self._asked
        if step is None or name not in shown:
            self.talk.say(help_lines(self.screen.width))
        else:
            self.talk.say(shown[name](step, self._kept.visit))

    def _symptom(self, words: str) -> None:
        """A symptom counts, even where nobody goes on to describe it; "undo" takes it back."""
        try:
            words = words or self._listener.more(SYMPTOM, hears=False)
        except LeftError:
            words = ""
        except InterjectedError as between:
            if between.said.name == "undo":
                raise
            words = between.said.rest
        try:
            self._kept.keep(SymptomReported(words.strip() or NOT_DESCRIBED))
        except NothingRan:
            # Whatever the disk does, the player is not left without the word that helps.
            self._listener.say(f"{self.protocol.symptom_stop} {SPINE}")
            raise

    def _undo(self) -> None:
        """Takes back what was typed last, a whole round where that was one line."""
        back = self._kept.undo()
        if back is not None:
            self._planned.clear()
            self._measuring.taken_back(back)
            self.screen.go_back()
            self._listener.say(f"Taken back: {back}.")

    def _other(self, rest: str, step: Asking) -> None:
        """Another build is put on, for a reason that is kept."""
        base = step.build if isinstance(step, AskPutOn) else self._kept.visit.in_helmet
        if base is None:
            raise AnswerError("There is no build to change yet", "Answer what is asked first")
        build = changed_build(base, rest or self._listener.more(DIFFERENT), self.screen.sheet)
        reason = self._listener.reason()
        if not reason:
            raise AnswerError("Another build needs a reason", "Type other again, and say why")
        lines = self.screen.instead(build, self._kept.visit)
        if self._kept.keep(PutOn(build, reason)):
            self.talk.say(lines)

    def _all_good(self, exceptions: str, step: Asking) -> None:
        """The rest of the round at once; what surely follows is kept in one stroke."""
        if not isinstance(step, AskCheck):
            raise AnswerError("This is no round of checks", "Answer what is asked")
        visit = self._kept.visit
        given = visit.ahead if visit.now is None else visit.now.answers
        done = done_in_round(self.protocol, step, given)
        answers = round_answered(exceptions, left_in_round(self.protocol, step), done)
        self._entry = self._kept.begin(f'"{ALL_GOOD}"')
        self._planned = {each.check: each for each in answers}
        self._keep_planned(step)

    def _keep_planned(self, step: AskCheck) -> None:
        """What was said beforehand of a check and of those that surely follow it."""
        due = [step.check.key, *(check.key for check in step.rest_of_round)]
        answers = [self._planned.pop(key) for key in due if key in self._planned]
        if self._kept.keep(*answers, entry=self._entry):
            self._listener.say(f"Kept: {kept_words(self.protocol, answers)}.")
        else:
            self._planned.clear()

    def _drop_plan(self) -> None:
        """What was named beforehand and is not asked now will not be kept; a bad one is told."""
        bad = bad_words(self.protocol, self._planned.values())
        self._planned.clear()
        if bad:
            self._listener.say(f"Not asked now, so not kept: {'; '.join(bad)}.")

    def _is_final(self, step: Ended) -> bool:
        """Tells the end, and whether it stays: the last answer may have been a slip."""
        self._asked = None
        self.talk.say(self.ending(step))
        try:
            while (is_final := self._closes(self.talk.ask(END))) is None:
                continue
        except LeftError:
            return True
        return is_final

    def _closes(self, typed: str) -> bool | None:
        """Whether what is typed at the end closes the visit; None where it does neither."""
        said = command(typed)
        if typed.strip().lower() in CLOSE or (said is not None and said.name == "pause"):
            return True
        if said is not None and said.name == "undo":
            self._undo()
            return False
        if said is None and self._listener.is_symptom(typed):
            said = Command("symptom", typed.strip())
        if said is None or said.name != "symptom":
            self._listener.say(f'"{typed.strip()}" is no answer here. {OVER}.')
            return None
        try:
            self._symptom(said.rest)
        except InterjectedError:
            self._listener.say(f"{DROPPED}.")
            return None
        return False
