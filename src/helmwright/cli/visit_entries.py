"""What of a visit was typed in one line, so that one undo takes it back whole."""

from collections.abc import Sequence

from helmwright.visit.check_list import Protocol
from helmwright.visit.event import Event, Measured
from helmwright.visit.said_words import said_words
from helmwright.visit.undo import can_be_undone

Entry = tuple[int, str]
"""Its number, and what it is called when it is taken back."""


class Entries:
    """Remembers which events were said in one line.

    Notes
    -----
    It is remembered while the program runs; in a visit that is gone on with later, what was said
    before goes back one by one.
    """

    def __init__(self) -> None:
        self._of: dict[int, Entry] = {}
        self._count = 0

    def begin(self, words: str) -> "Entry":
        """A new entry, called so when it is taken back."""
        self._count += 1
        return self._count, words

    def add(self, entry: "Entry", places: range) -> None:
        """Events that belong to an entry, by their places from 1."""
        self._of |= dict.fromkeys(places, entry)

    def last(self, events: Sequence[Event], protocol: Protocol) -> tuple[int, str]:
        """How many sayings the next undo takes back, and what they are in words."""
        said = can_be_undone(events)
        if not said:
            return 1, "nothing"
        entry = self._of.get(said[-1][0])
        if entry is None:
            return 1, said_words(said[-1][1], protocol)
        count = 0
        for place, _ in reversed(said):
            if self._of.get(place) != entry:
                break
            count += 1
        noun = "readings" if isinstance(said[-1][1], Measured) else "answers"
        return count, f"{entry[1]} ({count} {noun})" if count > 1 else entry[1]
