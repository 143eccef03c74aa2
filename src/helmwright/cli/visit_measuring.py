"""Readings in a visit: those that are asked for, and those that somebody gives unasked."""

from collections.abc import Callable
from dataclasses import dataclass

from helmwright.anatomy import Over, Reading
from helmwright.cli.visit_entries import Entry
from helmwright.cli.visit_kept import Kept
from helmwright.cli.visit_leaving import InterjectedError, LeftError
from helmwright.cli.visit_listener import Listener, readings_words
from helmwright.cli.visit_measure import NONE, more_words, named_reading, readings_typed
from helmwright.cli.written_answers import AnswerError
from helmwright.reports.lengths import measure_words
from helmwright.visit.event import Measured, MeasureSkipped

NOT_MEASURED = "leaving out what cannot be measured"
NO_MORE = "Nothing more is to be measured in this visit. To give one: reading tape 22 5/8."


@dataclass
class Measuring:
    """Takes readings, the second without showing the first.

    Parameters
    ----------
    kept, listener
        Where they are kept, and who listens.
    hide
        Takes what was typed last off the screen.
    undo
        Takes back what was typed last.
    """

    kept: Kept
    listener: Listener
    hide: Callable[[], None]
    undo: Callable[[], None]
    _left_out: Entry | None = None

    @property
    def is_over(self) -> bool:
        """Whether nothing more is to be measured, as somebody said."""
        return self._left_out is not None

    def taken_back(self, words: str) -> None:
        """Goes on measuring where it was the leaving out that was taken back."""
        if words.startswith(NOT_MEASURED):
            self._left_out = None

    def asked(self, measure: str, typed: str) -> None:
        """Readings of a measure that was asked for, or that it is left out."""
        readings = readings_typed(measure, typed, self._worn)
        if readings:
            self._repeated(readings)
            return
        if typed.strip().lower() in NONE:
            self._left_out = self.kept.begin(NOT_MEASURED)
            self.listener.say(NO_MORE)
        self.left_out(measure)

    def left_out(self, measure: str) -> None:
        """It is not measured; it goes with all that somebody left out in one line."""
        self.kept.keep(MeasureSkipped(measure), entry=self._left_out)

    def unasked(self, typed: str) -> None:
        """A reading that nobody asked for."""
        measure, behind = named_reading(typed)
        behind = behind or self.listener.more(f"The {measure_words(measure)} in inches, twice")
        readings = readings_typed(measure, behind, self._worn)
        if not readings:
            raise AnswerError("No reading was typed", f"Type: reading {typed.strip()} 22 5/8")
        self._repeated(readings)

    def _repeated(self, readings: tuple[Reading, ...]) -> None:
        """Keeps readings at once, and asks for as many more as are wanted, those before hidden."""
        entry = self.kept.begin(f"the reading of the {measure_words(readings[0].measure)}")
        if not self.kept.keep(Measured(readings), entry=entry):
            return
        while words := more_words(readings):
            self.hide()
            try:
                more = self.listener.repeat(readings, words, self._worn)
            except LeftError:
                self._tell(readings)
                raise
            except InterjectedError as between:
                if between.said.name == "undo":
                    self.undo()
                    return
                self._tell(readings)
                raise InterjectedError(between.said) from between
            if not (more and self.kept.keep(Measured(more), entry=entry)):
                break
            readings += more
        self._tell(readings)

    def _tell(self, readings: tuple[Reading, ...]) -> None:
        name = measure_words(readings[0].measure)
        self.listener.say(f"Kept: {name} {readings_words(readings)}.")

    @property
    def _worn(self) -> tuple[Over, ...] | None:
        """What is worn on the head."""
        return self.kept.visit.started.worn
