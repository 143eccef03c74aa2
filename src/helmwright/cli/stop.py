"""Ends of a command: what could not run, and an interruption; and what is told beside the page."""

import contextlib
import shutil
import sys
import textwrap
from collections.abc import Iterator
from enum import IntEnum

import click


class Status(IntEnum):
    """Exit statuses, as scripts read them."""

    ALL_ANSWERED = 0
    SOME_NOT_ANSWERED = 1
    NOTHING_RAN = 2
    INTERRUPTED = 130


_TOLD = "helmwright.stopped"
"""Where a command's context keeps whether its end was told."""


class NothingRan(click.ClickException):
    """The command could not run at all; a sentence says why and what would be right."""

    exit_code = Status.NOTHING_RAN

    def show(self, file: object = None) -> None:  # noqa: ARG002
        """What is wrong, on stderr."""
        tell(self.format_message())


def tell(message: str) -> None:
    """Tells something on stderr: wrapped on a terminal, one line for whatever else reads it."""
    told = f"helmwright: {message}"
    if sys.stderr.isatty():
        columns = shutil.get_terminal_size((80, 24)).columns
        told = textwrap.fill(
            told,
            max(columns, 40),
            subsequent_indent="  ",
            break_long_words=False,
            break_on_hyphens=False,
        )
    click.echo(told, err=True)


def stopped(ending: str) -> click.exceptions.Exit:
    """What ends an interrupted command, told once however often somebody presses Ctrl-C."""
    context = click.get_current_context(silent=True)
    told = {} if context is None else context.meta
    if not told.setdefault(_TOLD, False):
        told[_TOLD] = True
        if sys.stderr.isatty():
            click.echo(err=True)  # the terminal has written ^C into the line
        tell(ending)
    return click.exceptions.Exit(Status.INTERRUPTED)


@contextlib.contextmanager
def interruptible(ending: str = "stopped; nothing was written") -> Iterator[None]:
    """Turns Ctrl-C into one line and its own exit status."""
    try:
        yield
    except KeyboardInterrupt:
        raise stopped(ending) from None
