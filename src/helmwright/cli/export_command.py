"""`helmwright export`: everything as files that outlive the program."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import shutil
from datetime import UTC, datetime
from pathlib import Path

import click

from helmwright import __version__
from helmwright.cli.records_place import room_as_it_stands, room_option
from helmwright.cli.stop import NothingRan


@click.command(short_help="Write everything as tables that any program reads.")
@click.argument("into", metavar="FOLDER", type=click.Path(file_okay=False, path_type=Path))
@room_option
def export(into: Path, folder: str) -> None:
    """Write every table of the room as CSV, the ledger as lines of JSON, and the chain's head.

    All of one moment, into a FOLDER that is new or empty, while work goes on. It holds names and
    readings of players: keep it as you would keep the laptop.
    """
    room_as_it_stands(folder)
    target = into.absolute()
    if target.exists() and any(target.iterdir()):
        raise NothingRan(f"{into} is not empty; name a folder that is new or empty")
    part = target.with_name(f".{target.name}.part")
    shutil.rmtree(part, ignore_errors=True)  # of an export that was killed
    try:
        part.mkdir(mode=0o700)
        told = _write(part)
        if target.exists():
            target.rmdir()
        part.rename(target)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise NothingRan(f"cannot write {into}: {reason}") from error
    finally:
        shutil.rmtree(part, ignore_errors=True)
    click.echo(f"{into} holds {told}")


def _write(folder: Path) -> str:
    from helmwright.records.export import export_everything

    told = export_everything(
        lambda name: (folder / name).open("wb"), release=__version__, now=datetime.now(UTC)
    )
    return f"{told.tables} tables and the ledger. Head: {told.head}"
