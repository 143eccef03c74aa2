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


@contextlib.contextmanager
def interruptible(ending: str = "stopped; nothing was written") -> Iterator[None]:
    """Turns Ctrl-C into one line and its own exit status."""
    try:
        yield
    except KeyboardInterrupt:
        tell(ending)
        raise click.exceptions.Exit(Status.INTERRUPTED) from None
