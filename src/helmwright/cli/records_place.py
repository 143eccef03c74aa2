"""Which room a command works on, and its records made ready for use."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import os
from collections.abc import Callable
from typing import Any, TypeVar

import click

from helmwright.cli.stop import NothingRan, tell

Command = TypeVar("Command", bound=Callable[..., Any])

OLD_SQLITE = (
    "the SQLite in use may corrupt a database under load (3.7.0 to 3.51.2 may). Install the"
    " package pysqlite3 for this Python, or keep the room in PostgreSQL (HELMWRIGHT_DATABASE)"
)


def room_option(command: Command) -> Command:
    """The folder that holds the room."""
    return click.option(
        "--room",
        "folder",
        metavar="FOLDER",
        envvar="HELMWRIGHT_ROOM",
        default="room",
        show_default=True,
        help="The folder that holds the room's records.",
    )(command)


def use_room(folder: str) -> None:
    """Have Django know the room; nothing is made or changed yet.

    Raises
    ------
    NothingRan
        Where the settings cannot be used.
    """
    os.environ["HELMWRIGHT_ROOM"] = folder
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "helmwright.config.settings")
    import django
    from django.conf import settings

    try:
        django.setup()
    except ValueError as error:
        raise NothingRan(str(error)) from error
    if settings.DATABASES["default"]["ENGINE"].endswith("sqlite3") and not settings.SQLITE_IS_SOUND:
        tell(OLD_SQLITE)


def prepare_room(folder: str) -> None:
    """Make the room where there is none, and bring its tables to this release's.

    Raises
    ------
    NothingRan
        Where folder or database cannot be used; the message says why.
    """
    use_room(folder)
    from django.conf import settings
    from django.core.management import call_command
    from django.db import DatabaseError

    try:
        settings.PLACE.prepare()
        # Until now a new room had a secret of this process alone, which the next start would not
        # know: whoever signed in today would be out tomorrow.
        settings.SECRET_KEY = settings.PLACE.secret_key()
        call_command("migrate", verbosity=0, interactive=False)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise NothingRan(f"cannot keep a room in {folder}: {reason}") from error
    except DatabaseError as error:
        raise NothingRan(f"the database of the room cannot be used: {error}".strip()) from error


def room_as_it_stands(folder: str) -> None:
    """Have the records of a room to read, and change nothing: no table, no file.

    Raises
    ------
    NothingRan
        Where there is no room in the folder, or it is not of this release.
    """
    use_room(folder)
    from django.conf import settings
    from django.db import DatabaseError, connection
    from django.db.migrations.executor import MigrationExecutor

    _refuse_no_room(folder)
    try:
        executor = MigrationExecutor(connection)
        is_of_this_release = not executor.migration_plan(executor.loader.graph.leaf_nodes())
    except DatabaseError as error:
        raise NothingRan(f"the database of the room cannot be read: {error}".strip()) from error
    if not is_of_this_release:
        where = "the database" if settings.PLACE.address else folder
        raise NothingRan(
            f"the room in {where} was kept by an earlier release, or there is none yet; open it"
            " with helmwright room, which brings its tables to this release"
        )


def _refuse_no_room(folder: str) -> None:
    from django.conf import settings

    if not settings.PLACE.address and not settings.PLACE.sqlite_file.exists():
        raise NothingRan(
            f"no room in {folder}; name its folder with --room, or open one: helmwright room"
        )


def existing_room(folder: str) -> None:
    """Have the records of a room that is there.

    Raises
    ------
    NothingRan
        Where there is none in the folder.
    """
    use_room(folder)
    _refuse_no_room(folder)
    prepare_room(folder)
