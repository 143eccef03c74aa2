"""Asks what goes beyond a check's answer, and hears a symptom in whatever is typed."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from helmwright.anatomy import Over, Reading
from helmwright.cli.visit_answers import Command, command
from helmwright.cli.visit_hearing import sounds_like_symptom
from helmwright.cli.visit_leaving import InterjectedError, LeftError
from helmwright.cli.visit_measure import readings_typed
from helmwright.cli.visit_parties import Talk
from helmwright.cli.written_answers import AnswerError
from helmwright.reports.layout import wrapped
from helmwright.reports.lengths import inches
from helmwright.visit.check_list import Symptom

YES, NO = frozenset({"y", "yes"}), frozenset({"n", "no"})
WHY = "Why? It is kept with the visit"
IS_SYMPTOM = "Is that a symptom? It would end the visit (y, n)"
DROPPED = "Left as it was; what was begun is not kept"
SHOWN = frozenset({"help", "why", "how", "list"})
"""Commands that only show something, and leave every question where it is."""


@dataclass(frozen=True)
class Listener:
    """Who asks and listens.

    Parameters
    ----------
    talk, width
        The person at the screen, and its columns.
    symptoms
        What ends the visit.
    show
        Shows what a command of `SHOWN` asks for.
    """

    talk: Talk
    width: int
    symptoms: Sequence[Symptom]
    show: Callable[[str], None]

    def say(self, text: str) -> None:
        """Shows one paragraph of its own."""
        self.talk.say(wrapped(text, self.width, indent="  ", hanging="  "))

    def is_symptom(self, typed: str) -> bool:
        """Asks whether a symptom is meant, where what was typed sounds like one."""
        if not sounds_like_symptom(typed, self.symptoms):
            return False
        while (said := self.talk.ask(IS_SYMPTOM).strip().lower()) not in YES | NO:
            named = command(said)
            if named is not None and named.name == "symptom":
                return True
            if named is not None and named.name == "pause":
                raise LeftError
            self.say("Type y or n.")
        return said in YES

    def more(self, words: str, *, hears: bool = True) -> str:
        """What is typed to a further question.

        Raises
        ------
        InterjectedError
            Where it is a command, or a symptom. A reason may begin like one; a symptom is always
            one.
        """
        while True:
            typed = self.talk.ask(words)
            said = command(typed)
            if said is None or (said.rest and said.name != "symptom"):
                if hears and self.is_symptom(typed):
                    raise InterjectedError(Command("symptom", typed.strip()), DROPPED)
                return typed
            if said.name not in SHOWN:
                raise InterjectedError(said, DROPPED)
            self.show(said.name)

    def reason(self, given: str = "") -> str:
        """Why something is done, as given or asked for; a symptom in it goes first."""
        if given and self.is_symptom(given):
            raise InterjectedError(Command("symptom", given), DROPPED)
        return given or self.more(WHY).strip()

    def repeat(
        self, readings: tuple[Reading, ...], words: str, worn: tuple[Over, ...] | None
    ) -> tuple[Reading, ...]:
        """The next reading; one that cannot be is asked again, and those before stay."""
        while True:
            try:
                return readings_typed(readings[0].measure, self.more(words), worn)
            except AnswerError as error:
                # What was read is not told before it is read again.
                self.say(f"{error} What was read before is kept, and hidden until you are done.")


def readings_words(readings: Sequence[Reading]) -> str:
    """Readings as they were read: "7 7/8 in and 7 3/4 in"."""
    return " and ".join(inches(each.value_mm) for each in readings)
