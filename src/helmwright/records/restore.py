"""A room out of a backup: whole and verified, or not at all."""

import hashlib
import io
import json
import zipfile
from collections.abc import Generator
from contextlib import closing
from itertools import islice
from pathlib import Path
from typing import Any

from django.core.management.color import no_style
from django.db import DatabaseError, connection, transaction

from helmwright.records.backup import AT_A_TIME, Backup, backed_up
from helmwright.records.contents import Table
from helmwright.records.head import Head
from helmwright.records.manifest import MANIFEST, UNREADABLE, DamagedError, manifest_of, opened
from helmwright.records.plain_rows import ForeignRowError, row_of
from helmwright.records.verify import verify


class NotEmptyError(ValueError):
    """Something is in the room already."""


def check_file(file: Path) -> Head:
    """Whether every byte is what was written; the head that the backup tells.

    Raises
    ------
    DamagedError
        Where it is not.
    """
    with opened(file) as archive:
        manifest = manifest_of(archive)
        if manifest["files"].keys() != {f"tables/{table.__name__}.jsonl" for table in backed_up()}:
            raise DamagedError(f"{file} holds other tables than this release keeps")
        for name, told in manifest["files"].items():
            if _digest(archive, name) != told["sha256"]:
                raise DamagedError(f"{file}: {name} is not what was written")
        extra = set(archive.namelist()) - {MANIFEST, *manifest["files"]}
        if extra:
            raise DamagedError(f"{file}: {min(extra)} does not belong to the backup")
        return _head(manifest)


def restore(file: Path) -> Backup:
    """Fill the empty room from a backup, and verify it before anything is kept.

    Raises
    ------
    DamagedError
        Where the file is damaged, or what is in it is not whole.
    NotEmptyError
        Where something is in the room.
    """
    told = check_file(file)
    with transaction.atomic(), opened(file) as archive:
        _refuse_used_room()
        try:
            rows = sum(_load(table, archive) for table in backed_up())
        except (DatabaseError, ForeignRowError, json.JSONDecodeError) as error:
            raise DamagedError(f"{file}: {error}") from error
        _go_on_counting()
        _refuse_faults(file, told)
    return Backup(told, rows)


def _refuse_used_room() -> None:
    for table in backed_up():
        if table._base_manager.exists():  # noqa: SLF001 - of any table
            raise NotEmptyError(
                "there are records in this room already; a backup is restored into an empty one"
            )


def _refuse_faults(file: Path, told: Head) -> None:
    verdict = verify()
    if verdict.faults:
        raise DamagedError(f"{file}: {verdict.faults[0]}")
    if verdict.head != told:
        raise DamagedError(f"{file}: the chain ends at {verdict.head}, and not at {told}")


def _load(table: Table, archive: zipfile.ZipFile) -> int:
    count = 0
    with closing(_lines(archive, f"tables/{table.__name__}.jsonl")) as lines:
        while batch := [row_of(line, table) for line in islice(lines, AT_A_TIME)]:
            table._base_manager.bulk_create(batch)  # noqa: SLF001 - of any table
            count += len(batch)
    return count


def _lines(archive: zipfile.ZipFile, name: str) -> Generator[str, None, None]:
    with archive.open(name) as raw, io.TextIOWrapper(raw, encoding="utf-8", newline="\n") as text:
        yield from text


def _go_on_counting() -> None:
    """Rows that the database numbers go on after those that came with their numbers."""
    with connection.cursor() as cursor:
        for statement in connection.ops.sequence_reset_sql(no_style(), backed_up()):
            cursor.execute(statement)


def _digest(archive: zipfile.ZipFile, name: str) -> str:
    digest = hashlib.sha256()
    try:
        with archive.open(name) as raw:
            while block := raw.read(1 << 20):
                digest.update(block)
    except UNREADABLE as error:
        raise DamagedError(f"{archive.filename}: {name} cannot be read: {error}") from error
    return digest.hexdigest()


def _head(manifest: dict[str, Any]) -> Head:
    return Head(int(manifest["head"]["seq"]), str(manifest["head"]["digest"]))
