"""The person at the terminal, or whatever a pipe holds."""

import contextlib
import os
import sys
from collections.abc import Iterator, Sequence
from threading import Timer

import click

from helmwright.cli.visit_leaving import LeftError
from helmwright.reports.layout import wrapped
from helmwright.roster.plain import printable

ROOM_TO_TYPE = 12
"""Columns that a prompt leaves free behind it."""

FULL_WINDOW = 60
"""Lines that push everything off a window whose height is not known (assumed)."""

MOMENT = 0.6
"""After so long [s] a person wants to know that something is going on (assumed)."""

HIDDEN = "(hidden until you are done)"

WORKING = "  Trying builds on possible heads ..."


def readable(typed: str) -> str:
    """What was typed, without what no file of text can hold and no screen should obey.

    Bytes that are no letters become a question mark each: a symptom counts, however it is typed.
    """
    return printable(typed.encode("utf-8", "replace").decode("utf-8"))


class TerminalTalk:
    """Shows pages and takes lines.

    Parameters
    ----------
    width
        Columns.
    """

    def __init__(self, width: int) -> None:
        self._width = width
        self._asked = self._typed = ""

    def say(self, lines: Sequence[str]) -> None:
        """Shows lines."""
        if lines:
            click.echo("\n".join(lines))

    @contextlib.contextmanager
    def waiting(self) -> Iterator[None]:
        """Says on a terminal that it works, where something takes longer than a moment."""
        if not sys.stderr.isatty():
            yield
            return
        told = Timer(MOMENT, lambda: click.echo(f"{WORKING}\r", nl=False, err=True))
        told.daemon = True
        told.start()
        try:
            yield
        finally:
            told.cancel()
            told.join()
            click.echo(f"{' ' * len(WORKING)}\r", nl=False, err=True)

    def ask(self, words: str) -> str:
        """One typed line; what comes from a pipe is shown as well, for nobody has seen it."""
        prompt = f"{words}:"
        *above, prompt = prompt_lines(prompt, self._width)
        self.say(above)
        try:
            typed = str(click.prompt(prompt, default="", show_default=False, prompt_suffix=" "))
        except click.Abort:
            click.echo()  # the question stands at the end of a line
            raise LeftError from None
        typed = readable(typed)
        self._asked, self._typed = prompt, typed
        if not sys.stdin.isatty():
            click.echo(typed)
        return typed

    def hide(self) -> None:
        """Takes the line typed last off a terminal, so that it does not lead the next reading.

        Notes
        -----
        It is typed visibly, for whoever types blind cannot see a slip, and is erased afterwards.
        Where a terminal may not know how to erase, the line is pushed off the top of the window.
        """
        if not (sys.stdin.isatty() and sys.stdout.isatty()):
            return
        size = os.get_terminal_size(sys.stdout.fileno())
        if os.environ.get("TERM", "dumb") == "dumb" or sys.platform == "win32":
            click.echo("\n" * (size.lines or FULL_WINDOW))
            return
        typed = f"{self._asked} {self._typed}"
        rows = -(-len(typed) // (size.columns or self._width))
        click.echo(f"\x1b[{rows}A\r\x1b[J{self._asked} {HIDDEN}")


def prompt_lines(prompt: str, width: int) -> list[str]:
    """A prompt in lines that leave room to type on the last; brackets stay whole if they fit."""
    room = width - ROOM_TO_TYPE
    if len(prompt) <= room:
        return [prompt]
    opening = prompt.rfind(" (")
    if opening > 0 and len(prompt) - opening - 1 <= room:
        return [*wrapped(prompt[:opening], width), prompt[opening + 1 :]]
    return wrapped(prompt, room)
