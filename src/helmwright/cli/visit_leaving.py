"""Ways out of a question other than its answer."""

from helmwright.cli.visit_answers import Command


class LeftError(Exception):
    """The person left: by Ctrl-C, by the word pause, or because the input ended."""


class InterjectedError(Exception):
    """A command was typed where a part of an answer was asked for.

    Parameters
    ----------
    said
        The command.
    lost
        What was begun and is not kept, in words; empty where nothing was lost.
    """

    def __init__(self, said: Command, lost: str = "") -> None:
        self.said, self.lost = said, lost
        super().__init__(said.name)
