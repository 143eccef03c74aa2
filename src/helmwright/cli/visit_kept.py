"""What was said in a visit: kept at once where it may come now, and taken back line by line."""

import re
from collections.abc import Callable
from dataclasses import dataclass, field

from helmwright.cli.visit_entries import Entries, Entry
from helmwright.cli.visit_parties import Keeping
from helmwright.visit.check_list import Protocol as Checks
from helmwright.visit.event import Event, Undone
from helmwright.visit.state import OutOfTurnError, Visit, fold

_PLACE = re.compile(r"event \d+(?: \(\w+\) cannot come)?: ")


@dataclass
class Kept:
    """The events of a visit, by the lines in which they were typed.

    Parameters
    ----------
    file
        Where they are kept.
    protocol
        The checks.
    say
        Tells the person why something cannot come now.
    """

    file: Keeping
    protocol: Checks
    say: Callable[[str], None]
    _entries: Entries = field(default_factory=Entries)

    @property
    def events(self) -> tuple[Event, ...]:
        """All of them, in order."""
        return self.file.events

    @property
    def visit(self) -> Visit:
        """What they come to."""
        return fold(self.file.events)

    def begin(self, words: str) -> Entry:
        """A line of several events, called so when it is taken back."""
        return self._entries.begin(words)

    def keep(self, *events: Event, entry: Entry | None = None) -> bool:
        """Keeps events that may come now; says why, where they may not."""
        before = len(self.events)
        try:
            fold((*self.events, *events))
        except OutOfTurnError as error:
            said = _PLACE.sub("", str(error), count=1)
            self.say(f"{said[:1].upper()}{said[1:]}.")
            return False
        self.file.append(*events)
        if entry is not None:
            self._entries.add(entry, range(before + 1, before + 1 + len(events)))
        return True

    def undo(self) -> str | None:
        """Takes back what was typed last, and says what it was; None where it cannot be."""
        count, back = self._entries.last(self.events, self.protocol)
        return back if self.keep(*[Undone()] * count) else None
