"""`helmwright backup` and `helmwright restore`."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import os
import shutil
from datetime import UTC, datetime
from pathlib import Path

import click

from helmwright import __version__
from helmwright.cli.records_place import prepare_room, room_as_it_stands, room_option
from helmwright.cli.stop import NothingRan


@click.command(short_help="Write the whole room to one file, while work goes on.")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@room_option
def backup(file: Path, folder: str) -> None:
    """Write the whole room, as of one moment, to a new FILE; nobody has to stop working.

    The file holds names and readings of players and what passwords come to: keep it as you would
    keep the laptop. It never takes the place of another file.
    """
    room_as_it_stands(folder)
    from helmwright.records.backup import TakenNameError, back_up
    from helmwright.records.words import counted

    try:
        made = back_up(file, release=__version__, now=datetime.now(UTC))
    except TakenNameError as error:
        raise NothingRan(str(error)) from error
    except OSError as error:
        raise NothingRan(f"cannot write {file}: {_reason(error)}") from error
    rows = counted(made.rows, "row", "rows")
    click.echo(f"{file} holds the room: {rows}. Head: {made.head}")


@click.command(short_help="Make a room from a backup, in an empty place.")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option(
    "--into",
    "folder",
    required=True,
    metavar="FOLDER",
    type=click.Path(file_okay=False, path_type=Path),
    help="A new folder, or an empty one.",
)
def restore(file: Path, folder: Path) -> None:
    """Make a room from a backup FILE, and verify it, in a folder that is empty or not there yet.

    With HELMWRIGHT_DATABASE set, the records go into that empty database. The folder appears once
    everything is in its place. Everybody signs in anew; tablets may have to be enrolled again.
    """
    target = folder.absolute()
    if target.exists() and any(target.iterdir()):
        raise NothingRan(f"{folder} is not empty; name a folder that is new or empty")
    if not target.parent.is_dir():
        raise NothingRan(f"there is no folder {target.parent}; make it first")
    part = target.with_name(f".{target.name}.restoring")
    shutil.rmtree(part, ignore_errors=True)  # of a restore that was killed
    try:
        _restore(file, part)
        if target.exists():
            target.rmdir()
        part.rename(target)
    finally:
        shutil.rmtree(part, ignore_errors=True)


def _restore(file: Path, folder: Path) -> None:
    from helmwright.records.manifest import DamagedError, zone_of

    try:
        os.environ["HELMWRIGHT_TIME_ZONE"] = zone_of(file)
    except DamagedError as error:
        raise NothingRan(f"{error}. Nothing was restored") from error
    prepare_room(os.fspath(folder))
    from django.db import connections

    from helmwright.records.restore import NotEmptyError
    from helmwright.records.restore import restore as restored
    from helmwright.records.words import counted

    try:
        made = restored(file)
    except (DamagedError, NotEmptyError) as error:
        raise NothingRan(f"{error}. Nothing was restored") from error
    finally:
        connections.close_all()
    rows = counted(made.rows, "row", "rows")
    click.echo(f"The room is restored and verified: {rows}. Head: {made.head}")


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()
