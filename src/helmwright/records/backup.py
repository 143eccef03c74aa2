"""A backup: one file that holds the whole room, of one moment, readable without this program.

A ZIP archive: each table as lines of JSON, and a manifest with the digest of each and the head of
the chain. The same from SQLite and from PostgreSQL, so that either is restored into either.
"""

import hashlib
import json
import os
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from django.db import connection
from django.utils.timezone import get_default_timezone_name

from helmwright.records.contents import LEDGER, Table, projections
from helmwright.records.head import Head, head
from helmwright.records.manifest import FORMAT, MANIFEST
from helmwright.records.plain_rows import line_of
from helmwright.records.snapshot import at_one_moment

AT_A_TIME = 2000
"""Rows held in memory."""


class TakenNameError(ValueError):
    """A file of that name is there already."""


@dataclass(frozen=True, slots=True)
class Backup:
    """What is in a backup."""

    head: Head
    rows: int


def back_up(file: Path, *, release: str, now: datetime) -> Backup:
    """Write the room to a file, while others go on writing to the room.

    The file is there whole, or not at all; only its owner may read it.

    Raises
    ------
    TakenNameError
        Where the file is there already: a backup never takes the place of another.
    """
    if file.exists():
        raise TakenNameError(f"{file} is there already and was left as it is; choose another name")
    with _at_one_stroke(file) as part, zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive:
        with at_one_moment():
            at = head()
            files = {_name(table): _put(table, archive) for table in backed_up()}
        manifest = {
            "format": FORMAT,
            "release": release,
            "made_at": now.isoformat(),
            "database": connection.vendor,
            "time_zone": get_default_timezone_name(),
            "head": {"seq": at.seq, "digest": at.digest},
            "files": files,
        }
        archive.writestr(MANIFEST, json.dumps(manifest, indent=2))
    return Backup(at, sum(told["rows"] for told in files.values()))


def backed_up() -> list[Table]:
    """Tables that are kept; who knocked at the door is not, and everybody signs in anew."""
    return [*LEDGER, *projections()]


def _name(table: Table) -> str:
    return f"tables/{table.__name__}.jsonl"


def _put(table: Table, archive: zipfile.ZipFile) -> dict[str, Any]:
    digest, count = hashlib.sha256(), 0
    rows = table._base_manager.order_by("pk")  # noqa: SLF001 - of any table
    with archive.open(_name(table), "w") as out:
        for row in rows.iterator(chunk_size=AT_A_TIME):
            line = f"{line_of(row)}\n".encode()
            out.write(line)
            digest.update(line)
            count += 1
    return {"sha256": digest.hexdigest(), "rows": count}


@contextmanager
def _at_one_stroke(file: Path) -> Iterator[Any]:
    part = file.with_name(f".{file.name}.part")
    part.unlink(missing_ok=True)
    made = os.open(part, os.O_RDWR | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600)
    try:
        with os.fdopen(made, "w+b") as out:
            yield out
            out.flush()
            os.fsync(out.fileno())
        part.replace(file)
    finally:
        part.unlink(missing_ok=True)
