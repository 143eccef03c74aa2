"""The page of commands: what --help prints, command by command."""

from collections.abc import Iterator

import click

from docs.generator.markdown import document
from helmwright.cli import main

WIDTH = 80


def page() -> str:
    """Every command with its help text."""
    parts = (f"## {path}\n\n```text\n{text}\n```" for path, text in help_texts())
    return document("Commands", *parts)


def help_texts() -> Iterator[tuple[str, str]]:
    """Every command's full name, and its help text at a fixed width; the program itself first."""
    return _walk(main, "helmwright", None)


def _walk(
    command: click.Command, name: str, above: click.Context | None
) -> Iterator[tuple[str, str]]:
    settings = {**command.context_settings, "terminal_width": WIDTH}
    context = command.context_class(command, above, name, **settings)
    yield context.command_path, command.get_help(context).rstrip()
    if isinstance(command, click.Group):
        for inner_name in command.list_commands(context):
            inner = command.get_command(context, inner_name)
            if inner is not None and not inner.hidden:
                yield from _walk(inner, inner_name, context)
