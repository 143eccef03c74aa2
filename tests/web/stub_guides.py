"""Stand-ins for the processes that guide."""

from collections.abc import Callable
from typing import Any

from helmwright.web.guiding.asked import Answer, Asked
from helmwright.web.guiding.pool import NoAnswerError
from helmwright.web.guiding.worker import answer


class InThisProcess:
    """The real guide, here."""

    def ask(self, asked: Asked) -> Answer:
        """What comes next."""
        return answer(asked)

    def warm(self) -> None:
        """Nothing takes long."""


class Scripted:
    """Answers as it was told to, in turn; the last one again and again."""

    def __init__(self, *acts: Callable[[Asked], Answer]) -> None:
        self.acts, self.asked = list(acts), list[Asked]()

    def ask(self, asked: Asked) -> Answer:
        """What comes next."""
        self.asked.append(asked)
        act = self.acts.pop(0) if len(self.acts) > 1 else self.acts[0]
        return act(asked)

    def warm(self) -> None:
        """Nothing takes long."""


def asks(message: str = "paused", *said: dict[str, Any]) -> Callable[[Asked], Answer]:
    """Says some events, and asks something."""
    return lambda _: Answer(said=said, message={"message": message})


def gone(_: Asked) -> Answer:
    """The process has ended."""
    raise NoAnswerError("killed")


def lost(_: Asked) -> Answer:
    """The events cannot be guided."""
    raise ValueError("no head has such readings")
