"""Ends of a command: what could not run, and an interruption."""

import contextlib
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
    """The command could not run at all; one line says why and what would be right."""

    exit_code = Status.NOTHING_RAN

    def show(self, file: object = None) -> None:  # noqa: ARG002
        """One line on stderr."""
        click.echo(f"helmwright: {self.format_message()}", err=True)


@contextlib.contextmanager
def interruptible() -> Iterator[None]:
    """Turns Ctrl-C into one line and its own exit status."""
    try:
        yield
    except KeyboardInterrupt:
        click.echo("helmwright: stopped; nothing was written", err=True)
        raise click.exceptions.Exit(Status.INTERRUPTED) from None
