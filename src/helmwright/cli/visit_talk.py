"""The person at the terminal, or whatever a pipe holds."""

import sys
from collections.abc import Sequence

import click

from helmwright.cli.visiting import LeftError
from helmwright.reports.layout import wrapped

ROOM_TO_TYPE = 12
"""Columns that a prompt leaves free behind it."""


class TerminalTalk:
    """Shows pages and takes lines.

    Parameters
    ----------
    width
        Columns.
    """

    def __init__(self, width: int) -> None:
        self._width = width

    def say(self, lines: Sequence[str]) -> None:
        """Shows lines."""
        if lines:
            click.echo("\n".join(lines))

    def ask(self, words: str) -> str:
        """One typed line; what comes from a pipe is shown as well, for nobody has seen it."""
        prompt = f"{words}:"
        if len(prompt) + ROOM_TO_TYPE > self._width:
            *above, prompt = wrapped(prompt, self._width - ROOM_TO_TYPE)
            self.say(above)
        try:
            typed = str(click.prompt(prompt, default="", show_default=False, prompt_suffix=" "))
        except click.Abort:
            raise LeftError from None
        if not sys.stdin.isatty():
            click.echo(typed)
        return typed
