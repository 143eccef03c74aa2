"""What takes part in a visit at the terminal: the person, the guide, the file."""

from collections.abc import Sequence
from contextlib import AbstractContextManager
from typing import Protocol

from helmwright.visit.event import Event
from helmwright.visit.step import Step


class Talk(Protocol):
    """The person at the screen."""

    def say(self, lines: Sequence[str]) -> None:
        """Shows lines."""

    def ask(self, words: str) -> str:
        """What is typed to a question; LeftError where nobody is there any more."""

    def hide(self) -> None:
        """Takes what was typed last off the screen, where there is one."""

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
