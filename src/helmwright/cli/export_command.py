"""`helmwright export`: everything as files that outlive the program."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

import csv
import shutil
from collections.abc import Iterable
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
    from helmwright.records.head import head
    from helmwright.records.readers.export import ledger_lines, plain_tables
    from helmwright.records.snapshot import at_one_moment

    with at_one_moment():
        at, count = head(), 0
        for table in plain_tables():
            _write_table(folder / f"{table.name}.csv", table.headings, table.rows)
            count += 1
        with (folder / "ledger.jsonl").open("w", encoding="utf-8", newline="\n") as out:
            out.writelines(f"{line}\n" for line in ledger_lines())
    when = datetime.now(UTC)
    (folder / "head.txt").write_text(
        f"entry {at.seq}\n{at.digest}\nshort: {at.short}\n"
        f"exported {when:%Y-%m-%d %H:%M:%S} UTC by Helmwright {__version__}\n",
        encoding="utf-8",
    )
    return f"{count} tables and the ledger. Head: {at}"


def _write_table(file: Path, headings: Iterable[str], rows: Iterable[Iterable[str]]) -> None:
    from helmwright.reports.formulas import safe

    with file.open("w", encoding="utf-8", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(headings)
        writer.writerows(map(safe, row) for row in rows)
