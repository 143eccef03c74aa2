"""The team that a room begins with, asked for in the terminal."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import sys

import click

from helmwright.cli.stop import NothingRan, tell

NO_TEAM = (
    "this room has no team yet, so it can hold no player. Open one at the desk, under Room, or"
    " start with --team NAME"
)


def have_a_team(name: str | None) -> None:
    """Open the room's first team, with a season that is called by the year.

    Raises
    ------
    NothingRan
        Where the name will not do, or the room has other teams.
    """
    from helmwright.records.models import Team

    known = list(Team.objects.order_by("name").values_list("name", flat=True))
    if name is not None and known and name.strip() not in known:
        raise NothingRan(
            f"this room has a team already: {', '.join(known)}. Another one is opened at the desk,"
            " under Room"
        )
    if known:
        return
    if name is None and not sys.stdin.isatty():
        tell(NO_TEAM)
        return
    _open_asked(name)


def _open_asked(name: str | None) -> None:
    from django.utils import timezone

    from helmwright.records.actions.opening import NotOpenedError, open_team

    while True:
        called = name if name is not None else click.prompt("Name of the team")
        try:
            open_team(name=called, by=None, now=timezone.now())
        except NotOpenedError as error:
            if name is not None:
                raise NothingRan(str(error)) from error
            click.echo(str(error), err=True)
            continue
        return
